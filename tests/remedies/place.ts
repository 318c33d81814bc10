import { pathSegments, pathText } from '../../src/record/path.js';

/** A record as plain data, as JSON would hold it. */
export type Data = { [key: string]: unknown };

/** What stands at a path. */
export function at(data: unknown, path: string): unknown {
  return pathSegments(path).reduce<unknown>(
    (here, part) => (typeof here === 'object' && here !== null ? Reflect.get(here, part) : undefined),
    data,
  );
}

/** A copy with another value at a path; groups on the way are made, `[+]` at the end appends to a list. */
export function withValue(data: Data, path: string, value: unknown): Data {
  if (path.endsWith('[+]')) {
    const list = at(data, path.slice(0, -3));
    return withValue(data, path.slice(0, -3), [...(Array.isArray(list) ? list : []), value]);
  }
  const copy = structuredClone(data);
  const parts = pathSegments(path);
  let here: object = copy;
  for (const part of parts.slice(0, -1)) {
    const next: unknown = Reflect.get(here, part);
    const group = typeof next === 'object' && next !== null ? next : {};
    Reflect.set(here, part, group);
    here = group;
  }
  Reflect.set(here, parts.at(-1) ?? '', value);
  return copy;
}

/** A copy without what stands at a path; a list that becomes empty goes too. */
export function without(data: Data, path: string): Data {
  const copy = structuredClone(data);
  const parent = parentOf(path);
  const holder = parent === '' ? copy : at(copy, parent);
  const last = pathSegments(path).at(-1) ?? '';
  if (Array.isArray(holder) && typeof last === 'number') {
    holder.splice(last, 1);
    if (holder.length === 0 && parent !== '') return without(copy, parent);
  } else if (typeof holder === 'object' && holder !== null) Reflect.deleteProperty(holder, last);
  return copy;
}

/** A copy in which the key at the end of a path has another name. */
export function renamed(data: Data, path: string, name: string): Data {
  const value = at(data, path);
  const parent = parentOf(path);
  return withValue(without(data, path), parent === '' ? name : `${parent}.${name}`, value);
}

export const parentOf = (path: string) => pathText(pathSegments(path).slice(0, -1));

/** `events[3]` of `events[3].over`. */
export const entryOf = (path: string) => pathText(pathSegments(path).slice(0, 2));
