/** Makes ids that are told apart at sight: `item-1`, `item-2` and so on. */
export function countedIds(name = 'item'): () => string {
  let n = 0;
  return () => {
    n += 1;
    return `${name}-${n}`;
  };
}
