import { type ExactJson, type ExactObject, isExactObject } from '../answer/exact-json.js';

/** Values of elements, by path from the resource (`timingPeriod.end`); null for one that is absent. */
export type Fields = Readonly<Record<string, string | null>>;

/** What a resource says in some elements; what is there and is no text counts as absent. */
export function fieldsOf(resource: ExactObject, paths: readonly string[]): Fields {
  return Object.fromEntries(paths.map(path => [path, valueAt(resource, path.split('.'))]));
}

export const sameFields = (a: Fields, b: Fields): boolean =>
  Object.keys(a).length === Object.keys(b).length && Object.keys(a).every(path => a[path] === b[path]);

/** The resource with other values in some elements, and everything else as it was, in its order and with its digits. */
export function withFields(resource: ExactObject, fields: Fields): ExactObject {
  return Object.entries(fields).reduce(
    (made, [path, value]) => changed(made, path.split('.'), value),
    resource,
  );
}

function valueAt(node: ExactJson | undefined, [key = '', ...rest]: readonly string[]): string | null {
  const inner = isExactObject(node) ? node[key] : undefined;
  if (rest.length > 0) return valueAt(inner, rest);
  return typeof inner === 'string' ? inner : null;
}

function changed(
  node: ExactObject,
  [key = '', ...rest]: readonly string[],
  value: string | null,
): ExactObject {
  if (rest.length > 0) {
    const inner = node[key];
    // An element that is not there has nothing to take out.
    if (!isExactObject(inner) && value === null) return node;
    return { ...node, [key]: changed(isExactObject(inner) ? inner : {}, rest, value) };
  }
  if (value !== null) return { ...node, [key]: value };
  const { [key]: _gone, ...others } = node;
  return others;
}
