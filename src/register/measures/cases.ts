import { compareText } from '../../findings/finding.js';
import type { CaseFigures } from '../facts.js';
import { allGrades, highestGrade } from './grades.js';
import { type Median, medianOf } from './median.js';
import type { Proportion } from './proportion.js';
import { type CountedRow, countedRow, shareOf } from './row.js';

/** A site's reference level of a kind of case, and whose it is. */
export interface ReferenceLevel {
  /** Gy·cm². */
  readonly value: string;
  readonly source: string;
}

type Answer = 'none' | 'some' | 'not recorded';

/** Complications of a kind of case. */
export interface ComplicationRow extends CountedRow<Answer> {
  /** Of the cases that record it. */
  readonly share?: Proportion;
  /** Cases with one by their highest grade, every grade of the scales in use; absent where their number is not shown. */
  readonly grades?: Readonly<Record<string, number | undefined>>;
}

/** Cases done, by kind: one of several kinds counts in each. */
function byKind(figures: readonly CaseFigures[]): [string, CaseFigures[]][] {
  const kinds = new Map<string, CaseFigures[]>();
  for (const one of figures) {
    if (one.status === 'not done') continue;
    for (const kind of one.kinds.length > 0 ? one.kinds : ['other']) listAt(kinds, kind).push(one);
  }
  return [...kinds].sort(([a], [b]) => compareText(a, b));
}

function listAt<T>(lists: Map<string, T[]>, key: string): T[] {
  const list = lists.get(key) ?? [];
  lists.set(key, list);
  return list;
}

/** Complications by kind of case and highest grade; 'not recorded' is no answer, and none is one. */
export function complications(figures: readonly CaseFigures[], k: number): ComplicationRow[] {
  const all = figures.flatMap(one => (typeof one.complications === 'string' ? [] : one.complications));
  const inUse = new Set(all.map(scaleOf));
  const columns = ['ungraded', ...allGrades.filter(grade => inUse.has(scaleOf(grade)))];
  return byKind(figures).map(([kind, cases]) => {
    const count = (answer: string) => cases.filter(one => one.complications === answer).length;
    const highest = cases.flatMap(({ complications: told }) =>
      typeof told === 'string' ? [] : highestGrade(told),
    );
    const row = countedRow<Answer>(
      kind,
      { none: count('none'), some: highest.length, 'not recorded': count('not recorded') },
      k,
    );
    const share = shareOf(row.counts.some, row.counts.none);
    const counts = Object.fromEntries(
      columns.map(column => [column, highest.filter(one => one === column).length]),
    );
    return {
      ...row,
      ...(share && { share }),
      ...(row.counts.some !== undefined && { grades: countedRow('', counts, k).counts }),
    };
  });
}

const scaleOf = (graded: string) => graded.slice(0, Math.max(0, graded.lastIndexOf(' ')));

type Dose = 'above' | 'not above' | 'not recorded';

/** Dose of a kind of case beside its reference level. */
export interface DoseRow extends CountedRow<Dose> {
  readonly level?: ReferenceLevel;
  /** Above the level, of the cases that record a dose. */
  readonly share?: Proportion;
  /** Gy·cm², of the cases that record one. */
  readonly median?: Median;
}

/** Kerma-area products by kind of case, beside the site's reference levels; cases without radiation do not count. */
export function dose(
  figures: readonly CaseFigures[],
  levelOf: (kind: string) => ReferenceLevel | undefined,
  k: number,
): DoseRow[] {
  return byKind(figures).flatMap(([kind, all]): DoseRow[] => {
    const cases = all.filter(({ kermaArea }) => kermaArea !== 'none');
    if (cases.length === 0) return [];
    const values = cases.flatMap(({ kermaArea }) => (kermaArea === 'not recorded' ? [] : Number(kermaArea)));
    const level = levelOf(kind);
    const above = level ? values.filter(value => value > Number(level.value)).length : 0;
    const row = countedRow<Dose>(
      kind,
      { above, 'not above': values.length - above, 'not recorded': cases.length - values.length },
      k,
    );
    const [over, under] = [row.counts.above, row.counts['not above']];
    const share = level && shareOf(over, under);
    const median = over !== undefined && under !== undefined ? medianOf(values) : undefined;
    return [{ ...row, ...(level && { level }), ...(share && { share }), ...(median && { median }) }];
  });
}
