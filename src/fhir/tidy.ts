/** The list, or nothing when it is empty: FHIR has no empty lists. */
export function some<T>(list: readonly T[]): T[] | undefined {
  return list.length === 0 ? undefined : [...list];
}

/** Texts of a list that are there. */
export function present(...texts: readonly (string | undefined | false)[]): string[] {
  return texts.filter(text => typeof text === 'string' && text.trim() !== '').map(String);
}

/** Takes absent (undefined) elements out of a resource, in place; FHIR has no empty elements. */
export function tidy<T extends object>(resource: T): T {
  for (const key of Object.keys(resource)) {
    const value: unknown = Reflect.get(resource, key);
    if (value === undefined) Reflect.deleteProperty(resource, key);
    else if (typeof value === 'object' && value !== null) tidy(value);
  }
  return resource;
}
