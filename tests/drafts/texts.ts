import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { type Edit, readEdits } from '../../src/drafts/edits.js';
import { canonicalText } from '../../src/intake/write/expected.js';
import { pathText } from '../../src/record/path.js';
import type { Tree } from '../../src/record/read.js';
import { treeIn } from '../../src/record/tree.js';

const root = join(import.meta.dirname, '..', '..');

function filesIn(folder: string): string[] {
  return readdirSync(folder).flatMap(name => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesIn(path) : /\.(?:ya?ml|json)$/.test(name) ? [path] : [];
  });
}

/** Every YAML and JSON file of the examples and of tests/cases, by its path in the repository. */
export const texts: readonly (readonly [string, string])[] = ['examples', 'tests/cases']
  .flatMap(folder => filesIn(join(root, folder)))
  .sort()
  .map(path => [path.slice(root.length + 1), readFileSync(path, 'utf8')]);

/** What a text says, in one way of writing. */
export const meaning = (text: string): string => canonicalText(treeIn(text));

/** Every place of data, what holds others before what it holds. */
export function placesIn(tree: Tree | undefined, path: (string | number)[] = []): (string | number)[][] {
  if (typeof tree !== 'object') return [path];
  const children = Array.isArray(tree) ? tree.map((child, i) => [i, child] as const) : Object.entries(tree);
  return [path, ...children.flatMap(([name, child]) => placesIn(child, [...path, name]))];
}

/** Values that are awkward to write: what YAML takes for something else, what must be quoted, what has several lines. */
const awkward = [
  ...[
    'yes',
    'no',
    'null',
    '~',
    'true',
    '0.50',
    '08:30',
    '1e3',
    '0x1f',
    '',
    ' ',
    '# no comment',
    '- dash',
    'a: b',
  ],
  ...[
    '{a}',
    '[a',
    "it's",
    '"quoted"',
    'a\nb',
    'tab\there',
    '  lead',
    'trail ',
    '&anchor',
    '*alias',
    '!tag',
    '%x',
  ],
  ...[
    '\u2028',
    'é ü ñ',
    '9 Fr',
    '@at',
    '`tick',
    '|',
    '>',
    '?',
    ': ',
    'x'.repeat(300),
    'a, b',
    '1_000',
    '2024-01-10',
  ],
];
const text = fc.oneof(fc.constantFrom(...awkward), fc.string({ unit: 'grapheme', maxLength: 12 }));
const name = fc.constantFrom('size', 'site', 'note', 'a.b', 'x y', '12', 'true', 'é', '"', 'at');
export const value: fc.Arbitrary<Tree> = fc.oneof(
  { maxDepth: 2 },
  text,
  fc.boolean(),
  fc.array(text, { maxLength: 3 }),
  fc.dictionary(name, fc.oneof(text, fc.array(text, { maxLength: 2 })), {
    maxKeys: 3,
    noNullPrototype: true,
  }),
);

/** What somebody does next, whatever the record then says. */
export interface Act {
  readonly do: 'set' | 'remove' | 'insert' | 'add';
  readonly pick: number;
  readonly name: string;
  readonly value: Tree;
}

export const act: fc.Arbitrary<Act> = fc.record({
  do: fc.constantFrom('set', 'set', 'remove', 'insert', 'insert', 'add'),
  pick: fc.nat(),
  name,
  value,
});

/** The edit of a record that an act comes to; undefined where the record has no place for it. */
export function editOf(
  tree: Tree | undefined,
  { do: what, pick, name: field, value: to }: Act,
): Edit | undefined {
  const places = placesIn(tree).filter(({ length }) => length > 0);
  const at = (path: readonly (string | number)[]) =>
    path.reduce<Tree | undefined>((here, step) => (here as Record<string | number, Tree>)[step], tree);
  const chosen = <T>(all: readonly T[]): T | undefined => all[pick % Math.max(1, all.length)];
  if (what === 'insert') {
    const path = chosen(places.filter(one => Array.isArray(at(one))));
    const list = path && (at(path) as Tree[]);
    return path && list && { path: pathText(path), insert: pick % (list.length + 1), value: to };
  }
  if (what === 'add') {
    const path = chosen(places.filter(one => typeof at(one) === 'object' && !Array.isArray(at(one))));
    return path && { path: pathText([...path, field]), value: to };
  }
  const path = chosen(places);
  // What would leave no record is refused: that is tested by itself.
  const last = path?.length === 1 && Object.keys(tree ?? {}).length === 1;
  if (!path || (what === 'remove' && (last || (path.length === 1 && path[0] === 'casetally'))))
    return undefined;
  return what === 'set' ? { path: pathText(path), value: to } : { path: pathText(path), remove: true };
}

/** As a caller over HTTP would give them. */
export function sent(edits: readonly Edit[]): readonly Edit[] {
  const read = readEdits(JSON.parse(JSON.stringify(edits)));
  if ('findings' in read) throw new Error(JSON.stringify(read.findings));
  return read.edits;
}
