import type { Interval } from './interval.js';

/** The middle of some values; the interval is absent where there are too few for one. */
export interface Median {
  readonly value: number;
  readonly interval?: Interval;
}

/** The median with the interval that order statistics give: it assumes nothing of how the values are spread. */
export function medianOf(values: readonly number[]): Median | undefined {
  const sorted = values.toSorted((a, b) => a - b);
  const n = sorted.length;
  const [below, above] = [sorted[Math.ceil(n / 2) - 1], sorted[Math.floor(n / 2)]];
  if (below === undefined || above === undefined) return undefined;
  const rank = rankBelow(n);
  const [low, high] = [sorted[rank - 1], sorted[n - rank]];
  return {
    value: (below + above) / 2,
    ...(low !== undefined && high !== undefined && { interval: { low, high } }),
  };
}

/** The highest rank r so that r - 1 or fewer of n are below the median with a chance of 2.5% at most; 0 where none is. */
function rankBelow(n: number): number {
  let logChance = -n * Math.LN2;
  let sum = 0;
  let rank = 0;
  while (rank < n) {
    sum += Math.exp(logChance);
    if (sum > 0.025) return rank;
    logChance += Math.log((n - rank) / (rank + 1));
    rank += 1;
  }
  return rank;
}
