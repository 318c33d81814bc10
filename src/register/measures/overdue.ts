import { compareText } from '../../findings/finding.js';
import { grouped } from '../../record/grouped.js';
import type { Proportion } from './proportion.js';
import { type CountedRow, countedRow, shareOf } from './row.js';
import type { LastDayRow } from './rows.js';

type Done = 'overdue' | 'in time' | 'not known';

/** How much of what was planned for devices of a kind was not done by its last day. */
export interface OverdueRow extends CountedRow<Done> {
  readonly share?: Proportion;
}

/**
 * How many plans whose last day lies in the period were not done by that day, by kind of device. One that was planned
 * anew by then counts as done; one of a patient who had died by then does not count.
 */
export function overdueShares(plans: readonly LastDayRow[], k: number): OverdueRow[] {
  return [...grouped(plans, ({ kind }) => kind)]
    .sort(([a], [b]) => compareText(a, b))
    .flatMap(([kind, all]) => {
      const told = all.map(whatCame);
      const count = (what: Done) => told.filter(one => one === what).length;
      const row = countedRow<Done>(
        kind,
        { overdue: count('overdue'), 'in time': count('in time'), 'not known': count('not known') },
        k,
      );
      if (row.total === 0) return [];
      const share = shareOf(row.counts.overdue, row.counts['in time']);
      return { ...row, ...(share && { share }) };
    });
}

function whatCame({ state, last, closed }: LastDayRow): Done | undefined {
  if (state === 'withdrawn' || closed?.how === 'withdrawn') return undefined;
  if (!closed) return state === 'unknown' ? 'not known' : 'overdue';
  if (closed.date?.length !== 10) return 'not known';
  if (closed.date > last) return 'overdue';
  return closed.how === 'died' ? undefined : 'in time';
}
