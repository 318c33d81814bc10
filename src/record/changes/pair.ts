import { fieldOf, isGroup, type Plain } from '../plain.js';

/** Entries of two versions of a list that are the same thing, and those that only one version has; by place. */
export interface Pairing {
  readonly pairs: readonly (readonly [number, number])[];
  readonly gone: readonly number[];
  readonly come: readonly number[];
}

/**
 * What makes two entries of a list the same thing, strongest first: all fields of a line must be there and equal.
 * The name is that of the list's field.
 */
const identities: Readonly<Record<string, readonly (readonly string[])[]>> = {
  team: [['key']],
  access: [['key']],
  events: [
    ['at', 'do', 'device'],
    ['at', 'do'],
    ['do', 'device', 'part'],
    ['do', 'device'],
    ['at', 'device'],
  ],
  drugs: [['drug', 'at'], ['drug', 'dose'], ['drug']],
  contrast: [['agent', 'at'], ['agent']],
  labs: [['what', 'at'], ['what']],
  left: [['device', 'part'], ['device']],
  images: [['key'], ['study']],
  specimens: [['key'], ['what', 'at'], ['what']],
  complications: [['what', 'at'], ['what']],
  aftercare: [['key'], ['do', 'device'], ['do']],
  acknowledged: [['finding', 'about'], ['finding']],
  identifiers: [['system', 'value'], ['system']],
  codes: [['system', 'code'], ['system']],
  findings: [['about', 'text'], ['text'], ['about']],
};

/** For lists that the table does not name. */
const anyIdentity = [['key'], ['what', 'at'], ['what'], ['drug'], ['device'], ['measure'], ['text']] as const;

/** Pairs the entries of two versions of a list; what is equal goes first, so that order alone is no change. */
export function pairUp(list: string, before: readonly Plain[], after: readonly Plain[]): Pairing {
  const pairs: [number, number][] = [];
  const taken = { before: new Set<number>(), after: new Set<number>() };
  const pair = (i: number | undefined, j: number) => {
    if (i === undefined) return;
    pairs.push([i, j]);
    taken.before.add(i);
    taken.after.add(j);
  };
  const pairBy = (keyOf: (item: Plain) => string | undefined) => {
    const waiting = new Map<string, number[]>();
    for (const [i, item] of before.entries()) {
      const key = taken.before.has(i) ? undefined : keyOf(item);
      if (key !== undefined) waiting.set(key, [...(waiting.get(key) ?? []), i]);
    }
    for (const [j, item] of after.entries()) {
      const key = taken.after.has(j) ? undefined : keyOf(item);
      if (key !== undefined) pair(waiting.get(key)?.shift(), j);
    }
  };
  pairBy(item => JSON.stringify(item));
  for (const fields of identities[list] ?? anyIdentity) pairBy(item => keyFrom(item, fields));
  // Lines of text have no other identity than their order.
  const gone = before.flatMap((item, i) => (taken.before.has(i) || typeof item !== 'string' ? [] : [i]));
  const come = after.flatMap((item, j) => (taken.after.has(j) || typeof item !== 'string' ? [] : [j]));
  for (const [n, j] of come.entries()) pair(gone[n], j);
  return {
    pairs: pairs.sort((a, b) => a[1] - b[1]),
    gone: before.flatMap((_, i) => (taken.before.has(i) ? [] : [i])),
    come: after.flatMap((_, j) => (taken.after.has(j) ? [] : [j])),
  };
}

function keyFrom(item: Plain, fields: readonly string[]): string | undefined {
  if (!isGroup(item)) return undefined;
  const values = fields.map(name => fieldOf(item, name));
  return values.includes(undefined) ? undefined : JSON.stringify(values);
}
