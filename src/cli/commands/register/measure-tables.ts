import type { Interval } from '../../../register/measures/interval.js';
import type { Measures } from '../../../register/measures/measures.js';
import type { Proportion } from '../../../register/measures/proportion.js';
import type { MedianTime } from '../../../register/measures/survival.js';

/** A measure as a table. */
interface MeasureTable {
  readonly title: string;
  readonly rows: readonly (readonly string[])[];
}

/** What stands for a count that is not shown. */
const HIDDEN = '–';

const count = (value: number | undefined) => (value === undefined ? HIDDEN : `${value}`);
const percent = (value: number) => (value * 100).toFixed(1);

function shareText(share: Proportion | undefined): string {
  if (!share) return '';
  const { low, high = 1 } = share.interval;
  return `${percent(share.share)}% (${percent(low)} to ${percent(high)})`;
}

function medianText(median: MedianTime | undefined): string {
  if (!median) return '';
  const { days, low, high } = median;
  const bounds = low === undefined ? '' : ` (${low} to ${high ?? 'not reached'})`;
  return days === undefined ? `not reached${bounds}` : `${days}${bounds}`;
}

function doseText(value: number | undefined, interval: Interval | undefined): string {
  if (value === undefined) return '';
  const bounds = interval ? ` (${dose(interval.low)} to ${dose(interval.high ?? Number.NaN)})` : '';
  return `${dose(value)}${bounds}`;
}

const dose = (value: number) => `${Number(value.toPrecision(4))}`;

/** Each measure as a table for people; one without rows is left out. */
export function tablesOf(made: Measures): MeasureTable[] {
  const grades = Object.keys(made.complications.find(row => row.grades)?.grades ?? {});
  const graded = made.complications.filter(row => (row.counts.some ?? 0) > 0);
  const tables: [string, string[], string[][]][] = [
    [
      'How long devices stay, from those placed in the period, by kind',
      ['kind', 'placed', 'removed', 'inside', 'not known', 'median days'],
      made.dwell.map(({ name, total, counts, median }) => [
        name,
        count(total),
        count(counts.removed),
        count(counts.inside),
        count(counts['not known']),
        medianText(median),
      ]),
    ],
    [
      'Retrievable filters placed in the period, and taken out again',
      ['taken out', 'placed', 'yes', 'no', 'not followed so long', 'not known', 'share'],
      made.retrieval
        .filter(({ total }) => total !== 0)
        .map(({ name, total, counts, share }) => [
          name,
          count(total),
          count(counts.retrieved),
          count(counts['not retrieved']),
          count(counts['not followed']),
          count(counts['not known']),
          shareText(share),
        ]),
    ],
    [
      'Cases with a complication, by kind',
      ['kind', 'cases', 'none', 'some', 'not recorded', 'share of those recorded'],
      made.complications.map(({ name, total, counts, share }) => [
        name,
        count(total),
        count(counts.none),
        count(counts.some),
        count(counts['not recorded']),
        shareText(share),
      ]),
    ],
    [
      'The highest grade of each case with a complication',
      ['kind', 'cases', ...grades],
      graded.map(row => [
        row.name,
        count(row.counts.some),
        ...grades.map(grade => count(row.grades?.[grade])),
      ]),
    ],
    [
      'Plans whose last day was in the period, by kind of device',
      ['kind', 'plans', 'not done by then', 'in time', 'not known', 'share overdue'],
      made.overdue.map(({ name, total, counts, share }) => [
        name,
        count(total),
        count(counts.overdue),
        count(counts['in time']),
        count(counts['not known']),
        shareText(share),
      ]),
    ],
    [
      'Kerma-area product in Gy·cm² beside the local reference level, by kind of case',
      ['kind', 'cases', 'level', 'above', 'not above', 'not recorded', 'median', 'share above'],
      made.dose.map(({ name, total, level, counts, median, share }) => [
        name,
        count(total),
        level?.value ?? 'none',
        level ? count(counts.above) : '',
        level ? count(counts['not above']) : '',
        count(counts['not recorded']),
        doseText(median?.value, median?.interval),
        shareText(share),
      ]),
    ],
  ];
  return tables.flatMap(([title, head, rows]) => (rows.length > 0 ? [{ title, rows: [head, ...rows] }] : []));
}

type Cell = string | number | undefined;

/** The same, a figure a line: measure, of what, which figure, its value, and its interval. */
export function linesOf(made: Measures): Cell[][] {
  const shown = (value: number | undefined): Cell => value ?? 'not shown';
  const counted = (
    measure: string,
    { name, total, counts }: { name: string; total: number | undefined; counts: object },
  ): Cell[][] => [
    [measure, name, 'total', shown(total), '', ''],
    ...Object.entries(counts as Record<string, number | undefined>).map(([what, value]): Cell[] => [
      measure,
      name,
      what,
      shown(value),
      '',
      '',
    ]),
  ];
  const share = (measure: string, name: string, of: Proportion | undefined): Cell[][] =>
    of ? [[measure, name, 'share', of.share, of.interval.low, of.interval.high]] : [];
  return [
    ['measure', 'of', 'figure', 'value', 'low', 'high'],
    ...made.dwell.flatMap(row => [
      ...counted('dwell', row),
      ...(row.median
        ? [['dwell', row.name, 'median days', row.median.days, row.median.low, row.median.high]]
        : []),
    ]),
    ...made.retrieval.flatMap(row => [
      ...counted('filter retrieval', row),
      ...share('filter retrieval', row.name, row.share),
    ]),
    ...made.complications.flatMap(row => [
      ...counted('complications', row),
      ...share('complications', row.name, row.share),
      ...Object.entries(row.grades ?? {}).map(([grade, value]): Cell[] => [
        'complications by highest grade',
        row.name,
        grade,
        shown(value),
        '',
        '',
      ]),
    ]),
    ...made.overdue.flatMap(row => [...counted('overdue', row), ...share('overdue', row.name, row.share)]),
    ...made.dose.flatMap(row => [
      ...counted('dose', row),
      ...share('dose', row.name, row.share),
      ...(row.level ? [['dose', row.name, 'level (Gy.cm2)', row.level.value, '', '']] : []),
      ...(row.median
        ? [
            [
              'dose',
              row.name,
              'median (Gy.cm2)',
              row.median.value,
              row.median.interval?.low,
              row.median.interval?.high,
            ],
          ]
        : []),
    ]),
  ];
}
