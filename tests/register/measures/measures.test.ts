import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CaseFigures } from '../../../src/register/facts.js';
import { complications, dose } from '../../../src/register/measures/cases.js';
import { dwell, retrieval } from '../../../src/register/measures/dwell.js';
import { highestGrade, isGrade } from '../../../src/register/measures/grades.js';
import { overdueShares } from '../../../src/register/measures/overdue.js';
import type { LastDayRow, UseRow } from '../../../src/register/measures/rows.js';

const TO = '2024-12-31';
const use = (placed: string, more: Partial<UseRow> = {}): UseRow => ({
  kind: 'drainage catheter',
  family: 'drain',
  retrievable: false,
  state: more.ended === undefined ? 'inside' : 'removed',
  placed,
  ...more,
});
const many = <T>(n: number, one: T): T[] => Array.from({ length: n }, () => one);

describe('how long devices stay', () => {
  it('follows what is inside until the last day or the death, and no longer', () => {
    const [row] = dwell(
      [
        use('2024-12-01', { ended: '2024-12-11' }),
        use('2024-12-01', { ended: '2025-01-15' }),
        use('2024-12-21'),
        use('2024-12-01', { died: '2024-12-05' }),
        use('2024-12-01', { died: '2025-03-01' }),
      ],
      TO,
      1,
    );
    expect(row).toMatchObject({ total: 5, counts: { removed: 1, inside: 4, 'not known': 0 } });
    // At risk on day 10: those followed for 30, 30, 10 and 10 days, and not the one who died on day 4.
    expect(row?.median).toEqual({ low: 10 });
  });

  it('takes nothing for known that is not', () => {
    const [row] = dwell(
      [
        use('2024-05-01', { state: 'unknown' }),
        use('2024-05-01', { ended: '2024-06' }),
        use('2024-05-01', { died: '' }),
        use('2024-05-01', { died: '2024' }),
        use('2024-05-10', { ended: '2024-05-01' }),
      ],
      TO,
      1,
    );
    expect(row).toMatchObject({ total: 5, counts: { removed: 0, inside: 0, 'not known': 5 } });
    expect(row?.median).toEqual({});
  });

  it('gives no median where a count that it is made of is not shown', () => {
    const rows = dwell([...many(20, use('2024-05-01', { ended: '2024-05-08' })), use('2024-05-01')], TO, 5);
    expect(rows[0]).toMatchObject({ total: 21, counts: { removed: undefined, inside: undefined } });
    expect(rows[0]).not.toHaveProperty('median');
    expect(dwell(many(20, use('2024-05-01', { ended: '2024-05-08' })), TO, 5)[0]?.median).toMatchObject({
      days: 7,
    });
  });
});

describe('retrieval of filters', () => {
  const filter = (placed: string, more: Partial<UseRow> = {}) =>
    use(placed, { kind: 'caval filter', family: 'filter', retrievable: true, ...more });

  it('counts those alone that were placed long enough ago', () => {
    const rows = retrieval(
      [
        filter('2024-01-01', { ended: '2024-01-31' }),
        filter('2024-01-01', { ended: '2024-02-01' }),
        filter('2024-12-20', { ended: '2024-12-25' }),
        filter('2024-12-20'),
        filter('2024-01-01', { died: '2024-01-05' }),
        filter('2024-01-01', { state: 'unknown' }),
        use('2024-01-01'),
      ],
      TO,
      [30],
      1,
    );
    expect(rows.map(({ name, counts }) => [name, ...Object.values(counts)])).toEqual([
      ['within 30 days', 1, 2, 2, 1],
      ['at all', 3, 2, 0, 1],
    ]);
    expect(rows[0]?.share).toMatchObject({ count: 1, of: 3 });
    expect(rows.map(({ total }) => total)).toEqual([6, 6]);
  });

  it('leaves a row out whose difference to another would tell of few', () => {
    const rows = retrieval(
      [
        ...many(10, filter('2024-01-01', { ended: '2024-01-11' })),
        ...many(2, filter('2024-01-01', { ended: '2024-02-20' })),
        ...many(10, filter('2024-01-01', { ended: '2024-03-20' })),
        ...many(10, filter('2024-01-01')),
      ],
      TO,
      [90, 30, 60],
      5,
    );
    expect(rows.map(({ name, counts }) => [name, counts.retrieved])).toEqual([
      ['within 30 days', 10],
      ['within 60 days', undefined],
      ['within 90 days', 22],
      ['at all', 22],
    ]);
  });

  it('never shows two rows that differ by few', () => {
    const one = fc.record({ day: fc.integer({ min: 1, max: 28 }), stays: fc.option(fc.nat(120)) });
    fc.assert(
      fc.property(fc.array(one, { maxLength: 40 }), all => {
        const placedOn = (day: number) => new Date(Date.UTC(2024, 9, day));
        const rows = retrieval(
          all.map(({ day, stays }) => {
            const placed = placedOn(day);
            const ended = new Date(placed.getTime() + (stays ?? 0) * 86_400_000);
            const text = (date: Date) => date.toISOString().slice(0, 10);
            return filter(text(placed), stays === null ? {} : { ended: text(ended) });
          }),
          TO,
          [10, 20, 30, 60, 80],
          5,
        );
        for (const a of rows)
          for (const b of rows)
            for (const column of Object.keys(a.counts) as (keyof typeof a.counts)[]) {
              const [x, y] = [a.counts[column], b.counts[column]];
              const few = Math.abs((x ?? 0) - (y ?? 0));
              if (x !== undefined && y !== undefined) expect(few === 0 || few >= 5).toBe(true);
            }
      }),
    );
  });
});

describe('what was overdue', () => {
  const plan = (closed?: LastDayRow['closed'], more: Partial<LastDayRow> = {}): LastDayRow => ({
    kind: 'drain',
    state: 'inside',
    last: '2024-05-01',
    ...(closed && { closed }),
    ...more,
  });

  it('is what was not done by its last day', () => {
    const [row] = overdueShares(
      [
        plan(),
        plan({ how: 'removed', date: '2024-05-02' }, { state: 'removed' }),
        plan({ how: 'removed', date: '2024-05-01' }, { state: 'removed' }),
        plan({ how: 'planned anew', date: '2024-04-01' }),
        plan({ how: 'planned anew', date: '2024-06-01' }),
        plan({ how: 'died', date: '2024-04-01' }),
        plan({ how: 'died', date: '2024-06-01' }),
        plan({ how: 'died' }),
        plan({ how: 'removed', date: '2024-05' }, { state: 'removed' }),
        plan(undefined, { state: 'unknown' }),
        plan(undefined, { state: 'withdrawn' }),
        plan({ how: 'withdrawn', date: '2024-04-01' }),
      ],
      1,
    );
    expect(row).toMatchObject({ total: 9, counts: { overdue: 4, 'in time': 2, 'not known': 3 } });
    expect(row?.share).toMatchObject({ count: 4, of: 6 });
    expect(overdueShares([plan({ how: 'died', date: '2024-04-01' })], 1)).toEqual([]);
  });
});

const figures = (more: Partial<CaseFigures> = {}): CaseFigures => ({
  kinds: ['nephrostomy'],
  status: 'completed',
  complications: 'none',
  kermaArea: 'not recorded',
  ...more,
});

describe('complications', () => {
  it('tells none from not recorded, and counts the highest grade of a case', () => {
    const rows = complications(
      [
        figures(),
        figures({ complications: 'not recorded' }),
        figures({ complications: ['CIRSE 2017 2', 'CIRSE 2017 3', 'ungraded'] }),
        figures({ complications: ['ungraded'] }),
        figures({ status: 'not done', complications: ['CIRSE 2017 6'] }),
        figures({ kinds: ['embolization', 'nephrostomy'] }),
        figures({ kinds: [] }),
      ],
      1,
    );
    expect(rows.map(({ name, total }) => [name, total])).toEqual([
      ['embolization', 1],
      ['nephrostomy', 5],
      ['other', 1],
    ]);
    const [, row] = rows;
    expect(row).toMatchObject({ counts: { none: 2, some: 2, 'not recorded': 1 } });
    expect(row?.share).toMatchObject({ count: 2, of: 4 });
    expect(row?.grades).toEqual({
      ungraded: 1,
      'CIRSE 2017 1': 0,
      'CIRSE 2017 2': 0,
      'CIRSE 2017 3': 1,
      'CIRSE 2017 4': 0,
      'CIRSE 2017 5': 0,
      'CIRSE 2017 6': 0,
    });
  });

  it('shows no grades where it does not show how many', () => {
    const rows = complications([...many(50, figures()), figures({ complications: ['SIR 2017 5'] })], 5);
    expect(rows[0]).toMatchObject({
      total: 51,
      counts: { none: undefined, some: undefined, 'not recorded': undefined },
    });
    expect(rows[0]).not.toHaveProperty('grades');
    expect(rows[0]).not.toHaveProperty('share');
  });

  it('knows the grades of each scale', () => {
    expect(isGrade('Clavien-Dindo', 'IIIad')).toBe(true);
    expect(isGrade('Clavien-Dindo', 'VI')).toBe(false);
    expect(isGrade('constructor', '1')).toBe(false);
    expect(highestGrade(['Clavien-Dindo IIIad', 'Clavien-Dindo I'])).toBe('Clavien-Dindo IIIa');
    expect(highestGrade(['CIRSE 2017 2', 'SIR 2017 2'])).toBe('SIR 2017 2');
    expect(highestGrade(['ungraded'])).toBe('ungraded');
  });
});

describe('dose', () => {
  const level = { value: '10', source: 'local policy 2024' };

  it('stands beside the level of its kind, and leaves out cases without radiation', () => {
    const rows = dose(
      [
        ...['4.2', '10', '10.1', '30'].map(kermaArea => figures({ kermaArea })),
        figures(),
        figures({ kermaArea: 'none' }),
        figures({ kinds: ['other kind'], kermaArea: '7' }),
        figures({ kinds: ['without any'], kermaArea: 'none' }),
      ],
      kind => (kind === 'nephrostomy' ? level : undefined),
      1,
    );
    expect(rows.map(({ name }) => name)).toEqual(['nephrostomy', 'other kind']);
    expect(rows[0]).toMatchObject({
      total: 5,
      counts: { above: 2, 'not above': 2, 'not recorded': 1 },
      median: { value: 10.05 },
      share: { count: 2, of: 4 },
    });
    expect(rows[1]).not.toHaveProperty('share');
    expect(rows[1]).toMatchObject({ median: { value: 7 } });
  });

  it('gives no median of few', () => {
    const [row] = dose(many(4, figures({ kermaArea: '7' })), () => level, 5);
    expect(row).toMatchObject({ total: undefined });
    expect(row).not.toHaveProperty('median');
  });
});
