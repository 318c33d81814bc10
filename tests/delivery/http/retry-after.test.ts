import { describe, expect, it } from 'vitest';
import { retryAfterMs } from '../../../src/delivery/http/retry-after.js';

/* RFC 9110, 10.2.3: Retry-After = HTTP-date / delay-seconds. The dates are worked by hand. */
const now = Date.UTC(1999, 11, 31, 23, 59, 0);

describe('retryAfterMs', () => {
  it.each<[string | undefined, number | undefined]>([
    ['120', 120_000],
    [' 0 ', 0],
    // The RFC's own example of a date.
    ['Fri, 31 Dec 1999 23:59:59 GMT', 59_000],
    ['Sat, 01 Jan 2000 00:00:00 GMT', 60_000],
    ['Fri, 31 Dec 1999 23:00:00 GMT', 0],
    ['Wed, 31 Feb 1999 23:00:00 GMT', undefined],
    ['Fri, 31 Foo 1999 23:59:59 GMT', undefined],
    ['1.5', undefined],
    ['-5', undefined],
    ['soon', undefined],
    ['99999999999', undefined],
    ['', undefined],
    [undefined, undefined],
  ])('%s', (header, expected) => {
    expect(retryAfterMs(header, now)).toBe(expected);
  });
});
