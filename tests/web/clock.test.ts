import { describe, expect, it } from 'vitest';
import { dayAndTime, momentAt, RoomClock } from '../../web/case/desk/clock.js';

const AT = Date.UTC(2024, 2, 14, 21, 30);

describe('the clock of the room', () => {
  it('is that of the service, however wrong the tablet is', () => {
    let own = AT - 5 * 3_600_000;
    const clock = new RoomClock(() => own);
    const sent = own;
    own += 200;
    clock.note('Thu, 14 Mar 2024 21:30:00 GMT', sent);
    // Whole seconds of the header (RFC 9110, 6.6.1) and half of the way.
    expect(Math.abs(clock.now() - AT)).toBeLessThan(1_000);
    own += 60_000;
    expect(Math.abs(clock.now() - AT - 60_000)).toBeLessThan(1_000);
  });

  it('believes no answer that was long on its way, came before it was asked for, or has no time', () => {
    let own = AT;
    const clock = new RoomClock(() => own);
    clock.note('Thu, 14 Mar 2024 23:00:00 GMT', AT - 60_000);
    clock.note('Thu, 14 Mar 2024 23:00:00 GMT', AT + 60_000);
    clock.note('yesterday', AT);
    clock.note(null, AT);
    expect(clock.now()).toBe(AT);
    own += 1;
    expect(clock.now()).toBe(AT + 1);
  });
});

describe('a moment as the record writes it', () => {
  it('is the time at the site, with the day where it is not that of the case', () => {
    expect(momentAt(AT, 'Europe/Lisbon', '2024-03-14')).toBe('21:30');
    expect(momentAt(AT, 'Africa/Nairobi', '2024-03-14')).toBe('2024-03-15T00:30');
    expect(momentAt(AT, 'Africa/Nairobi', undefined)).toBe('00:30');
    // Half and quarter hours beside the hour, from the tz database.
    expect(dayAndTime(AT, 'Asia/Kathmandu')).toEqual({ day: '2024-03-15', time: '03:15' });
  });

  it('of a zone that no browser knows is that of the tablet', () => {
    expect(momentAt(AT, 'Nowhere/At-All', undefined)).toMatch(/^\d\d:\d\d$/);
  });
});
