/** The counts of a row, in the order of its columns; undefined for one that is not shown. */
export interface Shown {
  readonly cells: readonly (number | undefined)[];
  /** Not shown where the row as a whole is too small. */
  readonly total: number | undefined;
}

/**
 * Hides counts from 1 to below `k`, and others with them, so that none of those can be worked out from the total and
 * the rest: what is hidden lies side by side, from the first small one to the last, is at least two, and is `k` or more
 * together. Which others are hidden follows from their place and not from how large they are, and small ones are never
 * hidden alone with what is shown between them: either would tell a reader who knows the rule what they are.
 *
 * @param k 3 or more; below that nothing is hidden
 */
export function withoutSmallCells(counts: readonly number[], k: number): Shown {
  const total = sumOf(counts);
  if (k < 3 || total === 0) return { cells: counts, total };
  if (total < k) return { cells: counts.map(() => undefined), total: undefined };
  const isSmall = (count: number) => count > 0 && count < k;
  let first = counts.findIndex(isSmall);
  if (first === -1) return { cells: counts, total };
  let last = counts.findLastIndex(isSmall);
  while (last === first || sumOf(counts.slice(first, last + 1)) < k) {
    if (last < counts.length - 1) last += 1;
    else if (first > 0) first -= 1;
    else break;
  }
  return { cells: counts.map((count, at) => (at >= first && at <= last ? undefined : count)), total };
}

const sumOf = (counts: readonly number[]) => counts.reduce((sum, count) => sum + count, 0);
