/**
 * A key for a device that came from before, by its kind: `earlier-nephrostomy-catheter`, then `-2`.
 * @param used keys that are taken; the new one is added
 */
export function carriedKey(kind: string, used: Set<string>): string {
  const words = kind.toLowerCase().match(/[a-z0-9]+/g) ?? ['device'];
  const plain = `earlier-${words.slice(0, 4).join('-')}`;
  let key = plain;
  for (let n = 2; used.has(key); n += 1) key = `${plain}-${n}`;
  used.add(key);
  return key;
}
