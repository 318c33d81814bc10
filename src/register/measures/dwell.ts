import { compareText } from '../../findings/finding.js';
import { grouped } from '../../record/grouped.js';
import { daysBetween } from '../days.js';
import type { Proportion } from './proportion.js';
import { type CountedRow, countedRow, shareOf } from './row.js';
import type { UseRow } from './rows.js';
import { type MedianTime, medianTime, type Observation, survival } from './survival.js';

type Follow = 'removed' | 'inside' | 'not known';

/** How long devices of a kind stay. */
export interface DwellRow extends CountedRow<Follow> {
  /** Days by which half came out; absent where counts that it is made of are not shown. */
  readonly median?: MedianTime;
}

/**
 * How long devices stay, by kind: those placed in the period, followed until its last day. What is inside then, or was
 * when the patient died, is followed until then and no longer.
 */
export function dwell(uses: readonly UseRow[], to: string, k: number): DwellRow[] {
  return [...grouped(uses, ({ kind }) => kind)]
    .sort(([a], [b]) => compareText(a, b))
    .map(([kind, all]) => {
      const followed = all.flatMap(use => observed(use, to) ?? []);
      const removed = followed.filter(({ ended }) => ended).length;
      const row = countedRow<Follow>(
        kind,
        { removed, inside: followed.length - removed, 'not known': all.length - followed.length },
        k,
      );
      const shown = Object.values(row.counts).every(count => count !== undefined);
      return { ...row, ...(shown && { median: medianTime(survival(followed)) }) };
    });
}

/** How long a use was followed; undefined where nobody can tell. */
export function observed({ placed, ended, state, died }: UseRow, to: string): Observation | undefined {
  if (state === 'unknown' || state === 'withdrawn') return undefined;
  const out = state === 'removed';
  if (out && ended?.length !== 10) return undefined;
  // A death whose day is not known leaves the time inside unknown.
  if (!out && died !== undefined && died.length !== 10) return undefined;
  const end = [to, ...(out ? [ended ?? to] : died === undefined ? [] : [died])].sort()[0] ?? to;
  const days = daysBetween(placed, end);
  return days === undefined || days < 0 ? undefined : { days, ended: out && ended === end };
}

type Retrieved = 'retrieved' | 'not retrieved' | 'not followed' | 'not known';

/** How many retrievable filters were taken out within some days. */
export interface RetrievalRow extends CountedRow<Retrieved> {
  /** Absent for 'at all'. */
  readonly days?: number;
  /** Of those that were placed that many days before the end of the period, or earlier. */
  readonly share?: Proportion;
}

/**
 * How many of the retrievable filters placed in the period were taken out within each number of days, and at all by its
 * end. A row whose difference to another would be a small count is not shown.
 */
export function retrieval(
  uses: readonly UseRow[],
  to: string,
  spans: readonly number[],
  k: number,
): RetrievalRow[] {
  const filters = uses.filter(({ family, retrievable }) => family === 'filter' && retrievable);
  const seen = filters.map(use => ({
    followable: daysBetween(use.placed, to) ?? 0,
    seen: observed(use, to),
  }));
  const countsWithin = (days: number | undefined): Readonly<Record<Retrieved, number>> => {
    const counts = { retrieved: 0, 'not retrieved': 0, 'not followed': 0, 'not known': 0 };
    for (const one of seen) {
      const isOut = one.seen?.ended === true && one.seen.days <= (days ?? one.seen.days);
      if (one.followable < (days ?? 0)) counts['not followed'] += 1;
      else if (!one.seen) counts['not known'] += 1;
      else counts[isOut ? 'retrieved' : 'not retrieved'] += 1;
    }
    return counts;
  };
  const shown: Readonly<Record<Retrieved, number>>[] = [];
  return [...spans.toSorted((a, b) => a - b), undefined].map((days): RetrievalRow => {
    const counts = countsWithin(days);
    const row = countedRow<Retrieved>(days === undefined ? 'at all' : `within ${days} days`, counts, k);
    const part = { ...(days !== undefined && { days }) };
    if (shown.some(other => differsByFew(other, counts, k)))
      return { ...part, ...row, counts: nothingOf(counts) };
    shown.push(counts);
    const share = shareOf(row.counts.retrieved, row.counts['not retrieved']);
    return { ...part, ...row, ...(share && { share }) };
  });
}

function differsByFew(
  a: Readonly<Record<Retrieved, number>>,
  b: Readonly<Record<Retrieved, number>>,
  k: number,
) {
  return (Object.keys(a) as Retrieved[]).some(column => {
    const difference = Math.abs(a[column] - b[column]);
    return k >= 3 && difference > 0 && difference < k;
  });
}

const nothingOf = (counts: Readonly<Record<Retrieved, number>>) =>
  Object.fromEntries(Object.keys(counts).map(column => [column, undefined])) as Record<Retrieved, undefined>;
