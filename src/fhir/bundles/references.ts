/** Every `Reference.reference` inside a resource or bundle, in document order. */
export function referencesIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) return value.flatMap(referencesIn);
  return Object.entries(value).flatMap(([key, field]: [string, unknown]) =>
    key === 'reference' && typeof field === 'string' ? [field] : referencesIn(field),
  );
}

/** What takes the place of a reference's address: another address, or the bare business identifier. */
export type Replacement =
  | { readonly reference: string }
  | { readonly type: string; readonly identifier: { readonly system: string; readonly value: string } };

/** A copy of a resource with some addresses replaced; digits of exact quantities stay. */
export function withReferences<T extends object>(resource: T, replace: ReadonlyMap<string, Replacement>): T {
  const copy = Object.assign({}, resource);
  for (const key of Object.keys(copy)) Reflect.set(copy, key, rewritten(Reflect.get(copy, key), replace));
  return copy;
}

function rewritten(value: unknown, replace: ReadonlyMap<string, Replacement>): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item: unknown) => rewritten(item, replace));
  const address: unknown = Reflect.get(value, 'reference');
  const replacement = typeof address === 'string' ? replace.get(address) : undefined;
  if (!replacement) return withReferences(value, replace);
  const display: unknown = Reflect.get(value, 'display');
  return { ...replacement, ...(typeof display === 'string' && { display }) };
}
