/** Days in a month; `month` from 1. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

const two = (n: number) => String(n).padStart(2, '0');

/** YYYY-MM-DD, or nothing when there is no such day. */
export function isoDay(year: number, month: number, day: number): string | undefined {
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return undefined;
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

/** YYYY-MM, or nothing when there is no such month. */
export function isoMonth(year: number, month: number): string | undefined {
  return month < 1 || month > 12 ? undefined : `${String(year).padStart(4, '0')}-${two(month)}`;
}

/** YYYY-MM-DD of the day of the year (1 to 366), or nothing when the year has no such day. */
export function isoDayOfYear(year: number, day: number): string | undefined {
  if (day < 1) return undefined;
  let rest = day;
  for (let month = 1; month <= 12; month += 1) {
    const days = daysInMonth(year, month);
    if (rest <= days) return isoDay(year, month, rest);
    rest -= days;
  }
  return undefined;
}

/** The last day of a YYYY-MM; a YYYY-MM-DD is given back as it is. */
export function lastDay(date: string): string {
  if (date.length !== 7) return date;
  const [year = 0, month = 0] = date.split('-').map(Number);
  return `${date}-${two(daysInMonth(year, month))}`;
}

/**
 * The year that two digits stand for, seen from `today` (YYYY-MM-DD): 51 or more ahead belongs to the
 * century before, 50 or more behind to the one after. Source: GS1 General Specifications, determination
 * of the century in dates, as the GS1 Barcode Syntax Dictionary's date linter applies it.
 */
export function centuryOf(twoDigits: number, today: string): number {
  const now = Number(today.slice(0, 4));
  const base = now - (now % 100);
  const ahead = twoDigits - (now % 100);
  if (ahead >= 51) return base - 100 + twoDigits;
  if (ahead <= -50) return base + 100 + twoDigits;
  return base + twoDigits;
}

/** The year that three digits stand for: the year without its thousands digit (ISBT 128), at most 100 years ahead. */
export function millenniumOf(threeDigits: number, today: string): number {
  const now = Number(today.slice(0, 4));
  const base = now - (now % 1000) + threeDigits;
  if (base > now + 100) return base - 1000;
  if (base <= now - 900) return base + 1000;
  return base;
}
