import { type Interval, Z } from './interval.js';

/** A share with its interval. */
export interface Proportion {
  readonly of: number;
  readonly count: number;
  /** 0 to 1. */
  readonly share: number;
  readonly interval: Interval;
}

/** A share of whole numbers with Wilson's score interval; undefined of nothing. */
export function proportionOf(count: number, of: number): Proportion | undefined {
  if (of === 0) return undefined;
  const share = count / of;
  const square = Z ** 2;
  const middle = (share + square / (2 * of)) / (1 + square / of);
  const half = (Z / (1 + square / of)) * Math.sqrt((share * (1 - share)) / of + square / (4 * of ** 2));
  // Both ends are exact where nothing, or everything, counts.
  const low = count === 0 ? 0 : middle - half;
  const high = count === of ? 1 : middle + half;
  return { of, count, share, interval: { low, high } };
}
