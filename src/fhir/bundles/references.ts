/** Every `Reference.reference` inside a resource or bundle, in document order. */
export function referencesIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) return value.flatMap(referencesIn);
  return Object.entries(value).flatMap(([key, field]: [string, unknown]) =>
    key === 'reference' && typeof field === 'string' ? [field] : referencesIn(field),
  );
}

/**
 * What takes the place of a reference: another address, the bare business identifier, the name alone, or nothing where
 * what it points at is not sent.
 */
export type Replacement =
  | { readonly reference: string }
  | { readonly type: string; readonly identifier: { readonly system: string; readonly value: string } }
  | { readonly type: string; readonly display: string }
  | 'nothing';

/** Elements that say nothing without what they point at: the element around them goes with the reference. */
const NEEDED: ReadonlySet<string> = new Set(['manipulated', 'instance', 'valueReference']);

/** A copy of a resource with some references replaced; digits of exact quantities stay. */
export function withReferences<T extends object>(resource: T, replace: ReadonlyMap<string, Replacement>): T {
  const copy = Object.assign({}, resource);
  for (const key of Object.keys(copy)) {
    const value = rewritten(Reflect.get(copy, key), replace);
    if (value === undefined) Reflect.deleteProperty(copy, key);
    else Reflect.set(copy, key, value);
  }
  return copy;
}

function rewritten(value: unknown, replace: ReadonlyMap<string, Replacement>): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => rewritten(item, replace)).filter(item => item !== undefined);
    return items.length === 0 && value.length > 0 ? undefined : items;
  }
  const address: unknown = Reflect.get(value, 'reference');
  const replacement = typeof address === 'string' ? replace.get(address) : undefined;
  if (replacement === 'nothing') return undefined;
  if (!replacement) {
    const copy = withReferences(value, replace);
    const lost = Object.keys(value).filter(key => !Object.hasOwn(copy, key));
    return lost.some(key => NEEDED.has(key)) || Object.keys(copy).length === 0 ? undefined : copy;
  }
  const display: unknown = Reflect.get(value, 'display');
  return { ...replacement, ...(typeof display === 'string' && { display }) };
}
