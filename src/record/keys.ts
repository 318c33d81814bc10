import { z } from 'zod';

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
