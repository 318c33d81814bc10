import {
  type ExactJson,
  type ExactObject,
  isExactArray,
  isExactObject,
  textAt,
} from '../answer/exact-json.js';

/** Every Reference.reference of a resource, once; the inside of a document Bundle refers to itself. */
export function referencesIn(resource: ExactObject | undefined): string[] {
  const found = new Set<string>();
  if (resource && !isDocument(resource)) collect(resource, found);
  return [...found];
}

function collect(value: ExactJson, found: Set<string>): void {
  if (isExactArray(value)) for (const item of value) collect(item, found);
  else if (isExactObject(value)) {
    const address = textAt(value, 'reference');
    if (address !== undefined) found.add(address);
    for (const inner of Object.values(value)) collect(inner, found);
  }
}

/** A value with each Reference in it, and its address, replaced; what is not replaced stays as it is. */
export function withReferences(
  value: ExactJson,
  change: (reference: ExactObject, address: string) => ExactObject,
): ExactJson {
  if (isExactArray(value)) return value.map(item => withReferences(item, change));
  if (!isExactObject(value)) return value;
  const address = textAt(value, 'reference');
  const changed = address === undefined ? value : change(value, address);
  if (changed !== value) return changed;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [key, withReferences(inner, change)]),
  );
}

/** The resource with the placeholders in its references replaced by the places given. */
export function withPlaces(resource: ExactObject, places: ReadonlyMap<string, string>): ExactJson {
  if (isDocument(resource)) return resource;
  return withReferences(resource, (reference, address) => {
    const place = places.get(address);
    return place === undefined ? reference : { ...reference, reference: place };
  });
}

function isDocument(resource: ExactObject): boolean {
  return textAt(resource, 'resourceType') === 'Bundle';
}
