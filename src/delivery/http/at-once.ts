/**
 * Maps a list with a few at the same time, the results in the order of the list. `enough` looks at each result
 * as it comes: when it says so, nothing more is begun, and what was not begun is left out.
 */
export async function mapAtOnce<T, R>(
  items: readonly T[],
  work: (item: T, index: number) => Promise<R>,
  enough: (result: R) => boolean = () => false,
  lanes = 4,
): Promise<R[]> {
  const results = new Map<number, R>();
  let next = 0;
  let stopped = false;
  const lane = async (): Promise<void> => {
    while (!stopped && next < items.length) {
      const index = next;
      next += 1;
      const item = items[index];
      if (item === undefined) continue;
      const result = await work(item, index);
      results.set(index, result);
      if (enough(result)) stopped = true;
    }
  };
  await Promise.all(Array.from({ length: lanes }, lane));
  return [...results].sort(([a], [b]) => a - b).map(([, result]) => result);
}
