const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const IMF_DATE =
  /^(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun), (\d{2}) ([A-Z][a-z]{2}) (\d{4}) (\d{2}):(\d{2}):(\d{2}) GMT$/;

/**
 * Reads Retry-After (RFC 9110, 10.2.3): digits are seconds, an HTTP-date is the time until then, not below 0.
 * Anything else gives undefined, as if the header were absent.
 *
 * @param now milliseconds since the epoch.
 * @returns milliseconds to wait.
 */
export function retryAfterMs(header: string | undefined, now: number): number | undefined {
  const text = header?.trim() ?? '';
  if (/^\d{1,9}$/.test(text)) return Number(text) * 1000;
  const match = IMF_DATE.exec(text);
  if (!match) return undefined;
  const [, day, monthName, year, hour, minute, second] = match;
  const month = MONTHS.indexOf(monthName ?? '');
  if (month < 0) return undefined;
  const at = Date.UTC(Number(year), month, Number(day), Number(hour), Number(minute), Number(second));
  // A day that the month does not have rolls over; such a date is not a date.
  return new Date(at).getUTCDate() === Number(day) ? Math.max(0, at - now) : undefined;
}
