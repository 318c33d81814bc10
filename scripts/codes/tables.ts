import { readFileSync } from 'node:fs';
import { isMap, isScalar, type Pair, parseDocument, type YAMLMap } from 'yaml';
import { carried } from './carried.js';

/** The one table that is kept by hand. */
const text = readFileSync(new URL('table.yaml', import.meta.url), 'utf8');

interface Head {
  /** Addresses of code systems by the short names that the rows use. */
  readonly systems: Readonly<Record<string, string>>;
  /** Files of packages by short name, in the order in which they are searched. */
  readonly files: Readonly<Record<string, string>>;
}

const made = '// Made by npm run docs from scripts/codes/table.yaml, and from nothing else: change it there.';
const word = (name: string) => (/^[a-z]\w*$/i.test(name) ? name : quoted(name));
const quoted = (text: string) =>
  text.includes("'") ? JSON.stringify(text) : `'${text.replaceAll('\\', '\\\\')}'`;
const list = (rows: Readonly<Record<string, string>>) =>
  Object.entries(rows)
    .map(([name, value]) => `  ${name}: ${quoted(value)},\n`)
    .join('');

/** The modules of src/fhir/codes that are made from the table, by file name. */
export function codeModules(): ReadonlyMap<string, string> {
  const document = parseDocument(text);
  const { systems, files } = document.toJS() as Head;
  const find = finder({ systems, files });
  const modules = new Map([
    [
      'sources.ts',
      `${made}\n\n/** Code systems by short name. */\nexport const s = {\n${list(systems)}} as const;\n\n/** Files of packages that carry the codes, by short name. */\nexport const f = {\n${list(files)}} as const;\n`,
    ],
  ]);
  for (const { key, value } of pairs(document.get('tables'))) {
    // A comment before the first table of a module is that of the module's map.
    const first = isMap(value) ? value.commentBefore : undefined;
    const body = pairs(value).map((pair, i) => table(pair, find, i === 0 ? first : undefined));
    const text = body.join('\n');
    const used = (names: readonly string[], after: string) =>
      names.filter(name => new RegExp(`\\b${name}${after}`).test(text)).join(', ');
    const imports = [
      `import { ${used(['f', 's'], '\\.')} } from './sources.js';`,
      `import { ${used(['k', 'loinc', 'sct'], '\\(')} } from './types.js';`,
    ];
    modules.set(`${nameOf(key)}.ts`, `${made}\n${imports.join('\n')}\n\n${text}`);
  }
  return modules;
}

/** Systems that have a function of their own in src/fhir/codes/types.ts. */
const OF_THEIR_OWN = new Set(['sct', 'loinc']);

type Find = (row: string, name: string) => string;

/** Writes a row of the table out: `sct 123` or `sct 123 in FILE`. */
function finder({ systems, files }: Head): Find {
  const known = new Map<string, ReadonlyMap<string, string>>();
  const displays = (file: string) => {
    if (!known.has(file)) known.set(file, carried(files[file] ?? file));
    return known.get(file);
  };
  return (row, name) => {
    const parts = /^(\S+) (\S+)(?: in (\S+))?$/.exec(row);
    const [, system = '', code = '', only] = parts ?? [];
    const address = systems[system];
    if (!address || (only && !files[only]))
      throw new Error(`table.yaml: ${name}: "${row}" names no system or file of the table`);
    const file = (only ? [only] : Object.keys(files)).find(one => displays(one)?.has(`${address}|${code}`));
    const start = OF_THEIR_OWN.has(system) ? `${system}(${quoted(code)}` : `k(s.${system}, ${quoted(code)}`;
    if (!file) return `${start}, ${quoted(name)}, undefined, 'memory')`;
    const display = displays(file)?.get(`${address}|${code}`) ?? '';
    // The first file is the free set.
    const licensed = system === 'sct' && !displays(Object.keys(files)[0] ?? '')?.has(`${address}|${code}`);
    return `${start}, ${quoted(display)}, f.${file}${licensed ? ", 'licensed'" : ''})`;
  };
}

function table({ key, value }: Pair<unknown, unknown>, find: Find, first?: string | null): string {
  const said = first ?? (isScalar(key) ? key.commentBefore : undefined);
  const doc = said ? `/**${said.replaceAll('\n', '')} */\n` : '';
  const note = '// biome-ignore format: a table reads best with one code a line\n';
  return `${doc}${note}export const ${nameOf(key)} = ${written(value, nameOf(key), find, '')};\n`;
}

function written(value: unknown, name: string, find: Find, indent: string): string {
  if (isScalar(value)) return find(String(value.value), name);
  const rows = pairs(value).map(
    pair =>
      `${indent}  ${word(nameOf(pair.key))}: ${written(pair.value, nameOf(pair.key), find, `${indent}  `)},\n`,
  );
  return `{\n${rows.join('')}${indent}}`;
}

const pairs = (map: unknown): readonly Pair<unknown, unknown>[] => (isMap(map) ? (map as YAMLMap).items : []);
const nameOf = (key: unknown): string => (isScalar(key) ? String(key.value) : String(key));
