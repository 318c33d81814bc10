import { parse } from 'yaml';
import { pathSegments } from '../../src/record/path.js';
import { exampleFiles, exampleText } from '../support/examples.js';
import { at } from './place.js';

/** A path with `[]` for the entries of lists and `*` for keyed entries. */
export const shapeOf = (path: string) =>
  pathSegments(path)
    .map((part, i, all) =>
      typeof part === 'number' ? '[]' : i > 0 && keyed.has(String(all[i - 1])) ? '*' : String(part),
    )
    .join('.');

const keyed = new Set(['devices', 'targets', 'parts']);

/** The paths of everything in a record. */
export function walk(value: unknown, path = ''): string[] {
  const inside = Array.isArray(value)
    ? value.flatMap((entry: unknown, i) => walk(entry, `${path}[${i}]`))
    : typeof value === 'object' && value !== null
      ? Object.entries(value).flatMap(([key, entry]) => walk(entry, path === '' ? key : `${path}.${key}`))
      : [];
  return path === '' ? inside : [path, ...inside];
}

/** The first value of the examples at each place of a record: `devices.*.size`. */
const samples = new Map<string, unknown>();
for (const file of exampleFiles) {
  const data: unknown = parse(exampleText(file));
  for (const path of walk(data)) if (!samples.has(shapeOf(path))) samples.set(shapeOf(path), at(data, path));
}

/** A value for a field, as an example has it. */
export function sampleAt(path: string): unknown {
  const value = samples.get(shapeOf(path));
  if (value === undefined) throw new Error(`no example has a value at ${shapeOf(path)}`);
  return structuredClone(value);
}
