import { beyondBounds } from '../record/bounds.js';
import { treeOf } from '../record/data.js';
import { keysAt, type Shape, shapesAt } from '../record/keys.js';
import { FORBIDDEN, type Tree } from '../record/read.js';
import { key, UNPRINTABLE } from '../record/schema/fields.js';
import { recordSchema } from '../record/schema/record.js';

const schema = recordSchema({});

/** Fields of the record, from the outside in. */
export type Path = readonly string[];

/** Sections of a record, in the order of the format. */
export const fieldOrder: readonly string[] = keysAt(schema, []);

/** Groups under keys of people: one entry of them is one thing, such as a device. */
const isThing = (path: Path): boolean => path.length === 2 && shapesOf(path.slice(0, 1)).has('keyed');

/** The thing that a path is about, or lies within. */
export const thingOf = (path: Path): Path | undefined =>
  path.length >= 2 && isThing(path.slice(0, 2)) ? path.slice(0, 2) : undefined;

const shapesOf = (path: Path): ReadonlySet<Shape> => shapesAt(schema, path);

/** A concept with its codes, an identifier, a name in parts: taken whole or not at all. */
export function isWhole(path: Path): boolean {
  const names = new Set(keysAt(schema, path));
  return (
    (names.has('text') && names.has('codes')) ||
    (names.has('system') && names.has('value')) ||
    (names.has('family') && names.has('given'))
  );
}

/** True for a place that one value, or a list as a whole, can be put into: each step a field or a key. */
export function isField(path: Path): boolean {
  const [head] = path;
  if (head === undefined || head === 'sources' || path.some(name => FORBIDDEN.has(name))) return false;
  for (let length = 1; length < path.length; length++) {
    const above = path.slice(0, length);
    const shapes = shapesOf(above);
    if (shapes.has('keyed')) {
      if (!key.safeParse(path[length]).success) return false;
    } else if (!shapes.has('group') || isWhole(above) || !keysAt(schema, above).includes(path[length] ?? ''))
      return false;
  }
  return keysAt(schema, []).includes(head) && shapesOf(path).size > 0;
}

/** True for a list that entries can be added to. */
export const isListField = (path: Path): boolean => isField(path) && shapesOf(path).has('list');

/** True for a group whose fields are taken one by one. */
export function isGroupField(path: Path): boolean {
  const shapes = shapesOf(path);
  return (shapes.has('group') || shapes.has('keyed')) && !isWhole(path);
}

/** A value as the record's reader would give it; undefined for what no record can hold. */
export function plainValue(value: unknown): Tree | undefined {
  const { tree, findings } = treeOf(value);
  if (tree === undefined || findings.length > 0 || beyondBounds(tree).length > 0) return undefined;
  return isWritable(tree) ? tree : undefined;
}

const SEPARATORS = ['\u0004', '\u001d', '\u001e'];
const withoutSeparators = (label: string) =>
  SEPARATORS.reduce((text, separator) => text.replaceAll(separator, ''), label);

/** Labels hold separators of their own, which the record's reader lets pass; nothing else unprintable is taken. */
function isWritable(tree: Tree): boolean {
  if (typeof tree === 'string') return tree.trim() !== '' && !UNPRINTABLE.test(withoutSeparators(tree));
  if (typeof tree === 'boolean') return true;
  const parts = Object.values(tree);
  return (
    parts.length > 0 && Object.keys(tree).every(name => !UNPRINTABLE.test(name)) && parts.every(isWritable)
  );
}
