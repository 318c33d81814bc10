/**
 * A key for a device by its kind: `guidewire`, then `guidewire-2`.
 * @param used keys that are taken; the new one is added
 * @param before what stands in front of it
 */
export function deviceKey(kind: string, used: Set<string>, before = ''): string {
  const words = kind.toLowerCase().match(/[a-z0-9]+/g) ?? [];
  const plain = [before, ...words.slice(0, 4)].filter(word => word !== '').join('-');
  // A key begins with a letter.
  const first = /^[a-z]/.test(plain) ? plain : `device${plain === '' ? '' : '-'}${plain}`;
  let key = first;
  for (let n = 2; used.has(key); n += 1) key = `${first}-${n}`;
  used.add(key);
  return key;
}
