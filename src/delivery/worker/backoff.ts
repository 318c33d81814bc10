/** The shortest and the longest wait, in milliseconds. */
export interface Backoff {
  readonly baseMs: number;
  readonly capMs: number;
}

/**
 * Capped exponential back-off with full jitter: anything between the base and twice the last ceiling, so that
 * workers that failed together do not come back together.
 *
 * @param attempt from 1.
 * @param random a number in [0, 1).
 */
export function backoffMs(attempt: number, random: number, { baseMs, capMs }: Backoff): number {
  const ceiling = Math.min(capMs, baseMs * 2 ** Math.min(attempt, 30));
  return Math.round(baseMs + random * Math.max(0, ceiling - baseMs));
}
