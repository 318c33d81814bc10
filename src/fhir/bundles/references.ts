/** Every `Reference.reference` inside a resource or bundle, in document order. */
export function referencesIn(value: unknown): string[] {
  const found: string[] = [];
  collect(value, found);
  return found;
}

function collect(value: unknown, found: string[]): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, field] of Object.entries(value))
    if (typeof field !== 'string') collect(field, found);
    else if (key === 'reference') found.push(field);
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

/** A resource with some references replaced; what holds none of them is the same object. Digits of exact quantities stay. */
export function withReferences<T extends object>(resource: T, replace: ReadonlyMap<string, Replacement>): T {
  let copy: T | undefined;
  for (const [key, value] of Object.entries(resource)) {
    const after = rewritten(value, replace);
    if (after === value) continue;
    copy ??= { ...resource };
    if (after === undefined) Reflect.deleteProperty(copy, key);
    else Reflect.set(copy, key, after);
  }
  return copy ?? resource;
}

function rewritten(value: unknown, replace: ReadonlyMap<string, Replacement>): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => rewritten(item, replace));
    if (items.every((item, index) => item === value[index])) return value;
    const kept = items.filter(item => item !== undefined);
    return kept.length === 0 ? undefined : kept;
  }
  const address: unknown = Reflect.get(value, 'reference');
  const replacement = typeof address === 'string' ? replace.get(address) : undefined;
  if (replacement === 'nothing') return undefined;
  if (!replacement) {
    const copy = withReferences(value, replace);
    if (copy === value) return value;
    const lost = Object.keys(value).filter(key => !Object.hasOwn(copy, key));
    return lost.some(key => NEEDED.has(key)) || Object.keys(copy).length === 0 ? undefined : copy;
  }
  const display: unknown = Reflect.get(value, 'display');
  return { ...replacement, ...(typeof display === 'string' && { display }) };
}
