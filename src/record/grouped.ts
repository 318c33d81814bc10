/** Things by a key, in their order; those without one are left out. */
export function grouped<T, K>(all: Iterable<T>, keyOf: (one: T) => K | undefined): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const one of all) {
    const key = keyOf(one);
    if (key === undefined) continue;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return groups;
}
