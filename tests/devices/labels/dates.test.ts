import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import {
  centuryOf,
  daysInMonth,
  isoDay,
  isoDayOfYear,
  isoMonth,
  lastDay,
  millenniumOf,
} from '../../../src/devices/labels/dates.js';

const years = [1, 99, 1900, 1996, 2000, 2023, 2024, 2100, 2400];

// Source: the calendar of temporal-polyfill, a general-purpose library.
describe('days, months and years of labels against a calendar', () => {
  it.each(years)('%i', year => {
    for (let month = 0; month <= 13; month += 1) {
      const known = month >= 1 && month <= 12;
      expect(isoMonth(year, month)).toBe(
        known ? Temporal.PlainYearMonth.from({ year, month }).toString() : undefined,
      );
      if (known) {
        const { daysInMonth: days } = Temporal.PlainYearMonth.from({ year, month });
        expect(daysInMonth(year, month)).toBe(days);
        const text = isoMonth(year, month) ?? '';
        expect(lastDay(text)).toBe(Temporal.PlainDate.from({ year, month, day: days }).toString());
      }
      for (let day = 0; day <= 32; day += 1) {
        const there = known && day >= 1 && day <= daysInMonth(year, month);
        expect(isoDay(year, month, day)).toBe(
          there ? Temporal.PlainDate.from({ year, month, day }).toString() : undefined,
        );
      }
    }
    const first = Temporal.PlainDate.from({ year, month: 1, day: 1 });
    for (let day = 0; day <= 367; day += 1)
      expect(isoDayOfYear(year, day)).toBe(
        day >= 1 && day <= first.daysInYear ? first.add({ days: day - 1 }).toString() : undefined,
      );
  });

  it('a day stays as it is', () => {
    expect(lastDay('2024-02-03')).toBe('2024-02-03');
  });
});

describe('years that labels shorten', () => {
  // Source: GS1 General Specifications, determination of the century in dates.
  it.each([
    [26, '2026-11-01', 2026],
    [76, '2026-11-01', 2076],
    [77, '2026-11-01', 1977],
    [77, '2027-01-01', 2077],
    [25, '2075-01-01', 2125],
    [26, '2075-01-01', 2026],
    [0, '2050-01-01', 2100],
    [99, '2048-12-31', 1999],
    [99, '2049-01-01', 2099],
  ])('%i seen on %s', (digits, today, year) => {
    expect(centuryOf(digits, today)).toBe(year);
  });

  // Source: ISBT 128, the year without its thousands digit; the span of 100 years ahead is ours.
  it.each([
    [26, '2026-11-01', 2026],
    [126, '2026-11-01', 2126],
    [127, '2026-11-01', 1127],
    [999, '2026-11-01', 1999],
    [5, '2980-01-01', 3005],
    [81, '2980-01-01', 2081],
    [80, '2980-01-01', 3080],
  ])('%i seen on %s', (digits, today, year) => {
    expect(millenniumOf(digits, today)).toBe(year);
  });
});
