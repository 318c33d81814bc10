import { z } from 'zod';

/** What a schema knows of names: those at a path, and the places of a name anywhere. */
export interface KnownFields {
  keysAt(path: readonly PropertyKey[]): readonly string[];
  placesOf(name: string): readonly string[];
  /** What the group at a path, or an entry of the list there, cannot do without. */
  neededAt(path: readonly PropertyKey[]): readonly string[];
  /** Whether a field may be left out, and whether it may be `none`. */
  asks(path: readonly PropertyKey[]): { readonly optional: boolean; readonly none: boolean };
}

/** The fields of a schema, looked up when asked for. */
export function fieldsOf(schema: z.core.$ZodType): KnownFields {
  let places: ReadonlyMap<string, readonly string[]> | undefined;
  return {
    keysAt: path => keysAt(schema, path),
    placesOf(name) {
      places ??= placesByName(schema);
      return places.get(name) ?? [];
    },
    neededAt: path => neededAt(schema, path),
    asks: path => asks(schema, path),
  };
}

/** For a reader that wants places of faults and no suggestions. */
export const noFields: KnownFields = {
  keysAt: () => [],
  placesOf: () => [],
  neededAt: () => [],
  asks: () => ({ optional: true, none: false }),
};

/** Field names that the schema allows at a path, for suggestions. */
export function keysAt(schema: z.core.$ZodType, path: readonly PropertyKey[]): readonly string[] {
  return reach(schema, path).flatMap(node => (node instanceof z.ZodObject ? Object.keys(node.shape) : []));
}

function neededAt(schema: z.core.$ZodType, path: readonly PropertyKey[]): readonly string[] {
  const groups = reach(schema, path).flatMap(node =>
    node instanceof z.ZodArray ? reach(node.element, []) : [node],
  );
  return groups.flatMap(group =>
    group instanceof z.ZodObject
      ? Object.entries(group.shape).flatMap(([name, field]) => (field instanceof z.ZodOptional ? [] : [name]))
      : [],
  );
}

function asks(schema: z.core.$ZodType, path: readonly PropertyKey[]): ReturnType<KnownFields['asks']> {
  const groups = reach(schema, path.slice(0, -1)).filter(node => node instanceof z.ZodObject);
  const fields = groups.map(({ shape }): unknown => shape[String(path.at(-1))]);
  const none = reach(schema, path).some(
    node => (node instanceof z.ZodLiteral || node instanceof z.ZodEnum) && node.safeParse('none').success,
  );
  return { optional: fields.every(field => field === undefined || field instanceof z.ZodOptional), none };
}

/** What a value of the schema may be: fields by name, entries under keys of people, a list, or one value. */
export type Shape = 'group' | 'keyed' | 'list' | 'value';

/** What may stand at a path; nothing where the schema knows no such path. */
export function shapesAt(schema: z.core.$ZodType, path: readonly PropertyKey[]): ReadonlySet<Shape> {
  return new Set(
    reach(schema, path).map(node =>
      node instanceof z.ZodObject
        ? 'group'
        : node instanceof z.ZodRecord
          ? 'keyed'
          : node instanceof z.ZodArray
            ? 'list'
            : 'value',
    ),
  );
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

/** Where the schema has fields, by their names: `before.allergies`. A list or a keyed group is named with `[]` or `*`. */
function placesByName(schema: z.core.$ZodType): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, Set<string>>();
  for (const path of allFields(schema)) {
    const parts = path.split('.');
    const names = parts.map(part => part.replace(/(?:\[\])+$/, ''));
    for (const [at, name] of names.entries()) {
      if (names.indexOf(name) < at) continue;
      const places = found.get(name) ?? new Set();
      found.set(name, places.add([...parts.slice(0, at), name].join('.')));
    }
  }
  return new Map([...found].map(([name, places]) => [name, [...places]]));
}
