import { z } from 'zod';

/** What a schema knows of names: those at a path, and the places of a name anywhere. */
export interface KnownFields {
  keysAt(path: readonly PropertyKey[]): readonly string[];
  placesOf(name: string): readonly string[];
}

/** The fields of a schema, looked up when asked for. */
export const fieldsOf = (schema: z.core.$ZodType): KnownFields => ({
  keysAt: path => keysAt(schema, path),
  placesOf: name => placesOf(schema, name),
});

/** For a reader that wants places of faults and no suggestions. */
export const noFields: KnownFields = { keysAt: () => [], placesOf: () => [] };

/** Field names that the schema allows at a path, for suggestions. */
export function keysAt(schema: z.core.$ZodType, path: readonly PropertyKey[]): readonly string[] {
  return reach(schema, path).flatMap(node => (node instanceof z.ZodObject ? Object.keys(node.shape) : []));
}

/** True when the schema wants a number at a path. */
export function wantsNumber(schema: z.core.$ZodType, path: readonly PropertyKey[]): boolean {
  return reach(schema, path).some(node => node instanceof z.ZodNumber);
}

/** Every object, list or leaf of the schema that a path may lead to: unions have several. */
function reach(schema: z.core.$ZodType, path: readonly PropertyKey[]): z.core.$ZodType[] {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault || schema instanceof z.ZodPrefault)
    return reach(schema.unwrap(), path);
  if (schema instanceof z.ZodPipe) return reach(schema.in, path);
  if (schema instanceof z.ZodUnion) return schema.options.flatMap(option => reach(option, path));
  const [head, ...rest] = path;
  if (head === undefined) return [schema];
  if (schema instanceof z.ZodArray) return reach(schema.element, rest);
  if (schema instanceof z.ZodRecord) return reach(schema.valueType, rest);
  if (schema instanceof z.ZodObject) {
    const next: unknown = schema.shape[String(head)];
    return next instanceof z.ZodType ? reach(next, rest) : [];
  }
  return [];
}

/** Every field of the schema, as paths with `[]` for lists and `*` for keyed entries: `events[].over`, `devices.*.lot`. */
export function allFields(schema: z.core.$ZodType, path = ''): string[] {
  const join = (name: string) => (path === '' ? name : `${path}.${name}`);
  if (schema instanceof z.ZodOptional) return allFields(schema.unwrap(), path);
  if (schema instanceof z.ZodPipe) return allFields(schema.in, path);
  if (schema instanceof z.ZodUnion)
    return [...new Set(schema.options.flatMap(option => allFields(option, path)))];
  if (schema instanceof z.ZodArray) return allFields(schema.element, `${path}[]`);
  if (schema instanceof z.ZodRecord) return allFields(schema.valueType, join('*'));
  if (schema instanceof z.ZodObject)
    return Object.entries(schema.shape).flatMap(([name, field]) =>
      field instanceof z.ZodType ? allFields(field, join(name)) : [],
    );
  return [path];
}

/** Where else the schema has a field of a name: `before.allergies`. A list or a keyed group is named with `[]` or `*`. */
function placesOf(schema: z.core.$ZodType, name: string): string[] {
  const places = allFields(schema).flatMap(path => {
    const parts = path.split('.');
    const at = parts.findIndex(part => part.replace(/(?:\[\])+$/, '') === name);
    return at < 0 ? [] : [[...parts.slice(0, at), name].join('.')];
  });
  return [...new Set(places)];
}
