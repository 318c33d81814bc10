import { type Interval, Z } from './interval.js';

/** How long something lasted, and whether it ended then or was only followed until then. */
export interface Observation {
  readonly days: number;
  readonly ended: boolean;
}

/** The curve after one day on which something ended. */
export interface Step {
  readonly days: number;
  readonly atRisk: number;
  readonly ended: number;
  /** Share that lasts longer than that. */
  readonly lasting: number;
  readonly interval: Interval;
}

/**
 * The curve of Kaplan and Meier: how large a share lasts beyond each day, from what ended and what was followed in part.
 * The intervals are Greenwood's, made on the scale of log(-log), so that they stay between 0 and 1.
 */
export function survival(observations: readonly Observation[]): Step[] {
  const sorted = observations.toSorted((a, b) => a.days - b.days);
  const steps: Step[] = [];
  let lasting = 1;
  let sum = 0;
  for (let at = 0; at < sorted.length; ) {
    const days = sorted[at]?.days ?? 0;
    const atRisk = sorted.length - at;
    let ended = 0;
    for (; sorted[at]?.days === days; at += 1) if (sorted[at]?.ended) ended += 1;
    if (ended === 0) continue;
    lasting *= 1 - ended / atRisk;
    sum += ended / (atRisk * (atRisk - ended));
    steps.push({ days, atRisk, ended, lasting, interval: intervalOf(lasting, sum) });
  }
  return steps;
}

/** Where nothing lasts, Greenwood's variance has no value: the upper bound stays open. */
function intervalOf(lasting: number, sum: number): Interval {
  if (lasting <= 0) return { low: 0 };
  const log = Math.log(lasting);
  const spread = (Z * Math.sqrt(sum)) / Math.abs(log);
  const bound = (by: number) => Math.exp(-Math.exp(Math.log(-log) + by));
  return { low: bound(spread), high: bound(-spread) };
}

/** The day by which half has ended; the interval is where the bounds of the curve reach a half. */
export interface MedianTime {
  /** Absent where more than half lasts as long as it is known. */
  readonly days?: number;
  readonly low?: number;
  readonly high?: number;
}

/** Differences of rounding only. */
const SLACK = 1e-12;

export function medianTime(steps: readonly Step[]): MedianTime {
  const first = (value: (step: Step) => number | undefined) =>
    steps.find(step => (value(step) ?? 1) <= 0.5 + SLACK)?.days;
  const [days, low, high] = [
    first(({ lasting }) => lasting),
    first(({ interval }) => interval.low),
    first(({ interval }) => interval.high),
  ];
  return {
    ...(days !== undefined && { days }),
    ...(low !== undefined && { low }),
    ...(high !== undefined && { high }),
  };
}
