import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Dates, type DueDate, onWorkingDays } from '../../../src/clinical/aftercare/due-date.js';

// Days and weekdays by JavaScript's own Date, which the code does not use.
const dayAt = (offset: number) => new Date(Date.UTC(2024, 4, 1 + offset)).toISOString().slice(0, 10);
const weekdayOf = (date: string) => new Date(`${date}T00:00:00Z`).getUTCDay() || 7;
const due = (date: string): DueDate => ({ date, written: date, counted: false });
const shown = (one: DueDate | undefined) => one && (one.workingDay ?? one.date);

const offset = fc.integer({ min: 0, max: 45 });
const precision = fc.constantFrom(10, 10, 10, 7, 4);
const calendar = fc.record({
  weekend: fc.subarray([1, 2, 3, 4, 5, 6, 7], { maxLength: 6 }),
  holidays: fc.array(fc.integer({ min: -20, max: 70 }).map(dayAt), { maxLength: 25 }),
});
/** Three days in order, each given to the day, the month or the year, or not at all. */
const ordered = fc
  .tuple(fc.tuple(offset, offset, offset), fc.tuple(precision, precision, precision), fc.subarray([0, 1, 2]))
  .map(([days, lengths, given]): Dates => {
    const dates = [...days]
      .sort((a, b) => a - b)
      .map((day, place) => due(dayAt(day).slice(0, lengths[place])));
    const names = ['earliest', 'due', 'latest'] as const;
    return Object.fromEntries(given.map(place => [names[place], dates[place]]));
  });

/** Pairs of dates that must not come the other way round, each at the shorter precision. */
function contradictions({ earliest, due: on, latest }: Dates): string[] {
  const pairs = [
    [earliest, on],
    [earliest, latest],
    [on, latest],
  ] as const;
  return pairs.flatMap(([before, after]) => {
    const [a, b] = [shown(before), shown(after)];
    if (a === undefined || b === undefined) return [];
    const shared = Math.min(a.length, b.length);
    return a.slice(0, shared) <= b.slice(0, shared) ? [] : [`${a} is after ${b}`];
  });
}

it('dates in order stay in order on working days, and none moves before the case', () => {
  fc.assert(
    fc.property(ordered, calendar, offset, (dates, days, caseDay) => {
      const moved = onWorkingDays(dates, dayAt(caseDay), days);
      expect(contradictions(moved)).toEqual([]);
      expect(Object.keys(moved)).toEqual(Object.keys(dates));
      for (const one of Object.values(moved) as DueDate[]) {
        if (one.workingDay === undefined) continue;
        expect(days.weekend).not.toContain(weekdayOf(one.workingDay));
        expect(days.holidays).not.toContain(one.workingDay);
        if (one.workingDay < one.date) expect(one.workingDay >= dayAt(caseDay)).toBe(true);
      }
    }),
    { numRuns: 2000 },
  );
});

it('all are on working days where one lies between them', () => {
  fc.assert(
    fc.property(fc.tuple(offset, offset, offset), calendar, (given, days) => {
      const [earliest = 0, on = 0, latest = 0] = [...given].sort((a, b) => a - b);
      const isOpen = (date: string) =>
        !days.weekend.includes(weekdayOf(date)) && !days.holidays.includes(date);
      const between = Array.from({ length: latest - earliest + 1 }, (_, i) => dayAt(earliest + i));
      const moved = onWorkingDays(
        { earliest: due(dayAt(earliest)), due: due(dayAt(on)), latest: due(dayAt(latest)) },
        dayAt(0),
        days,
      );
      const all = Object.values(moved).map(shown);
      if (between.some(isOpen)) expect(all.every(date => date !== undefined && isOpen(date))).toBe(true);
      else expect(all).toEqual([earliest, on, latest].map(dayAt));
    }),
    { numRuns: 2000 },
  );
});

it.each([
  // A Saturday to a Sunday: no working day between them.
  ['2024-06-08', '2024-06-08', '2024-06-09', ['2024-06-08', '2024-06-08', '2024-06-09']],
  // Due on the Saturday, the Monday would be too late.
  ['2024-06-03', '2024-06-08', '2024-06-09', ['2024-06-03', '2024-06-07', '2024-06-07']],
  // The Saturday moves on to the Monday.
  ['2024-06-08', '2024-06-08', '2024-06-11', ['2024-06-10', '2024-06-10', '2024-06-11']],
  // Latest is a month: the last Saturday of June moves back, not into July.
  ['2024-06', '2024-06-29', '2024-06', ['2024-06', '2024-06-28', '2024-06']],
])('%s, %s, %s', (earliest, on, latest, expected) => {
  const dates = { earliest: due(earliest), due: due(on), latest: due(latest) };
  const moved = onWorkingDays(dates, '2024-05-01', { weekend: [6, 7], holidays: [] });
  expect([moved.earliest, moved.due, moved.latest].map(shown)).toEqual(expected);
});
