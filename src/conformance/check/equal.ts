/** True when two JSON values are the same: object members in any order, array items in order. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (Array.isArray(a)) {
    return Array.isArray(b) && a.length === b.length && a.every((item, i) => sameJson(item, b[i]));
  }
  if (!isObject(a) || !isObject(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every(k => k in b && sameJson(a[k], b[k]));
}

/**
 * True when `value` holds at least what `pattern` holds: every member of the pattern, and for each item
 * of a pattern's array some item that matches it. Source: R4 ElementDefinition.pattern[x].
 */
export function matchesPattern(value: unknown, pattern: unknown): boolean {
  if (Array.isArray(pattern)) {
    return Array.isArray(value) && pattern.every(p => value.some(v => matchesPattern(v, p)));
  }
  if (isObject(pattern)) {
    return isObject(value) && Object.keys(pattern).every(k => matchesPattern(value[k], pattern[k]));
  }
  return value === pattern;
}

export function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** True when an element has anything but an id. Source: R4 ele-1. */
export function hasContent(value: Readonly<Record<string, unknown>>): boolean {
  for (const key in value) if (key !== 'id') return true;
  return false;
}
