import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { say } from '../../src/findings/say.js';
import { isCalendarDate, isTimeZone, readMoment, readWhen } from '../../src/record/time.js';

// Independent source of the rules of time zones: Intl.DateTimeFormat, which reads the platform's IANA data.
const clocks = new Map<string, Intl.DateTimeFormat>();
function wallClock(epoch: number, timeZone: string): string {
  const clock =
    clocks.get(timeZone) ??
    new Intl.DateTimeFormat('en-GB', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
    });
  clocks.set(timeZone, clock);
  const parts = clock.formatToParts(epoch);
  const part = (type: string) => parts.find(p => p.type === type)?.value ?? '';
  return `${part('year')}-${part('month')}-${part('day')}T${part('hour')}:${part('minute')}:${part('second')}`;
}

const zones = [
  'Europe/Lisbon',
  'America/New_York',
  'Pacific/Auckland',
  'Asia/Kolkata',
  'Australia/Lord_Howe',
  'UTC',
];

/** Changes of the offset in 2024, found through Intl alone: [zone, first instant after the change]. */
function changes(zone: string): number[] {
  const offset = (epoch: number) => Date.parse(`${wallClock(epoch, zone)}Z`) - epoch;
  const found: number[] = [];
  for (let hour = Date.UTC(2024, 0, 1); hour < Date.UTC(2025, 0, 1); hour += 3_600_000)
    if (offset(hour) !== offset(hour - 3_600_000)) found.push(hour);
  return found;
}

describe('moments', () => {
  it.each([
    ['09:04', '2024-03-14T09:04:00+00:00', '09:04'],
    ['09:04:30', '2024-03-14T09:04:30+00:00', '09:04:30'],
    ['2024-07-13T18:20', '2024-07-13T18:20:00+01:00', '18:20'],
    ['2024-07-13 18:20', '2024-07-13T18:20:00+01:00', '18:20'],
    ['01:30+01:00', '2024-03-14T01:30:00+01:00', '01:30'],
    ['2024-03-13T18:20Z', '2024-03-13T18:20:00Z', '18:20'],
    ['2024-02-29T23:59:59', '2024-02-29T23:59:59+00:00', '23:59:59'],
  ])('%s', (text, iso, clock) => {
    const read = readMoment(text, { date: '2024-03-14', timeZone: 'Europe/Lisbon' });
    expect(read).toMatchObject({ ok: true, value: { iso, clock, epoch: Date.parse(iso) } });
  });

  it.each([
    '9:04',
    '24:00',
    '25:10',
    '09:60',
    '09:04:60',
    '0904',
    '09.04',
    'noon',
    '',
    '2023-02-29T10:00',
    '2024-13-01T10:00',
    '09:04+15:00',
    '09:04 pm',
  ])('%s is refused', text => {
    expect(readMoment(text, { date: '2024-03-14', timeZone: 'Europe/Lisbon' })).toMatchObject({
      ok: false,
      code: 'bad',
    });
  });

  it('asks for a zone and for a date', () => {
    expect(readMoment('09:04', { date: '2024-03-14' })).toMatchObject({ ok: false, code: 'no-zone' });
    expect(readMoment('09:04', { timeZone: 'UTC' })).toMatchObject({ ok: false, code: 'no-date' });
    expect(readMoment('09:04+01:00', { date: '2024-03-14' })).toMatchObject({ ok: true });
  });

  it('agrees with the platform at every hour of 2024 in six zones', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: 0, max: 366 * 24 * 60 - 1 }),
        (timeZone, minute) => {
          const local = new Date(Date.UTC(2024, 0, 1) + minute * 60_000).toISOString().slice(0, 16);
          const read = readMoment(local, { timeZone });
          if (read.ok) {
            expect(wallClock(read.value.epoch, timeZone)).toBe(`${local}:00`);
            expect(Date.parse(read.value.iso)).toBe(read.value.epoch);
          } else expect(['gap', 'twice']).toContain(read.code);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it.each(zones.map(zone => [zone]))('refuses exactly the skipped and the doubled times of %s', zone => {
    for (const change of changes(zone)) {
      // From an hour before the change to two hours after it, in steps of five minutes of wall time.
      const before = Date.parse(`${wallClock(change - 3_600_000, zone)}Z`);
      for (let wall = before; wall <= before + 3 * 3_600_000; wall += 300_000) {
        const local = new Date(wall).toISOString().slice(0, 16);
        let times = 0;
        for (let epoch = change - 4 * 3_600_000; epoch <= change + 4 * 3_600_000; epoch += 300_000)
          if (wallClock(epoch, zone) === `${local}:00`) times++;
        const read = readMoment(local, { timeZone: zone });
        expect([local, read.ok ? 'once' : read.code]).toEqual([local, ['gap', 'once', 'twice'][times]]);
      }
    }
  });

  it.each([
    ['Europe/Lisbon', '2024-03-31T01:30', '2024-10-27T01:30', '+01:00', '+00:00'],
    ['America/New_York', '2024-03-10T02:30', '2024-11-03T01:30', '-04:00', '-05:00'],
    ['Pacific/Auckland', '2024-09-29T02:30', '2024-04-07T02:30', '+13:00', '+12:00'],
  ])('in %s says what to write instead', (timeZone, gap, twice, first, second) => {
    const refusal = (text: string) => {
      const read = readMoment(text, { timeZone });
      return read.ok ? [] : [read.code, say(read.why)];
    };
    expect(refusal(gap)).toEqual(['gap', expect.stringContaining('did not exist')]);
    expect(refusal(twice)).toEqual([
      'twice',
      `'${twice}' came twice in ${timeZone}: write ${twice}${first} or ${twice}${second}`,
    ]);
    const [a, b] = [first, second].map(offset => readMoment(`${twice}${offset}`, { timeZone }));
    if (!a?.ok || !b?.ok) throw new Error('both readings are times');
    expect(b.value.epoch - a.value.epoch).toBe(3_600_000);
  });

  it('counts a night over the clock change in order', () => {
    const context = { date: '2023-11-04', timeZone: 'America/Chicago', started: '23:34' };
    const epochs = ['23:40', '00:08', '01:52-05:00', '01:00-06:00', '02:00'].map(text => {
      const read = readMoment(text, context);
      if (!read.ok) throw new Error(say(read.why));
      return read.value.epoch;
    });
    expect(epochs).toEqual([...epochs].sort((a, b) => a - b));
    expect(epochs[4] === undefined || epochs[0] === undefined ? 0 : epochs[4] - epochs[0]).toBe(
      (3 * 60 + 20) * 60_000,
    );
  });

  it.each([
    ['23:34', '00:08', '2023-11-05'],
    ['23:34', '11:33', '2023-11-05'],
    ['23:34', '11:34', '2023-11-04'],
    ['09:00', '08:00', '2023-11-04'],
    ['13:00', '00:59', '2023-11-05'],
    ['12:00', '00:00', '2023-11-04'],
    [undefined, '00:10', '2023-11-04'],
  ])('started %s: %s is on %s', (started, text, date) => {
    const read = readMoment(text, { date: '2023-11-04', timeZone: 'America/Bogota', started });
    expect(read).toMatchObject({ ok: true, value: { date } });
    expect(read.ok && read.moved).toBe(date === '2023-11-05' ? 1 : undefined);
  });

  it('puts the night after the last day of a month, of February in a leap year and of a year on the right day', () => {
    for (const [date, next] of [
      ['2024-02-28', '2024-02-29'],
      ['2023-02-28', '2023-03-01'],
      ['2023-12-31', '2024-01-01'],
    ] as const)
      expect(readMoment('00:10', { date, timeZone: 'UTC', started: '23:00' })).toMatchObject({
        value: { date: next },
      });
  });

  it('does not look at the order of lines', () => {
    const context = { date: '2023-11-04', timeZone: 'America/Bogota', started: '23:34' };
    const times = ['23:50', '00:10', '23:40', '01:00'];
    const read = (list: readonly string[]) => list.map(text => [text, readMoment(text, context)]);
    expect(new Map(read([...times].reverse()) as [string, unknown][])).toEqual(
      new Map(read(times) as [string, unknown][]),
    );
  });
});

describe('dates of any precision', () => {
  it.each([
    ['2024', 'year'],
    ['2024-03', 'month'],
    ['2024-02-29', 'day'],
  ])('%s stays as precise as written', (text, precision) => {
    expect(readWhen(text, { timeZone: 'UTC' })).toEqual({ ok: true, value: { text, iso: text, precision } });
  });

  it.each([
    '2023-02-29',
    '2024-13',
    '2024-00',
    '2024-04-31',
    '24',
    '2024-3',
    '03/14/2024',
    '14.03.2024',
    'yesterday',
  ])('%s is refused', text => expect(readWhen(text, { timeZone: 'UTC' }).ok).toBe(false));

  it('knows the calendar as Date.UTC does', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1900, max: 2100 }),
        fc.integer({ min: 0, max: 13 }),
        fc.integer({ min: 0, max: 32 }),
        (year, month, day) => {
          const text = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
          const date = new Date(Date.UTC(year, month - 1, day));
          expect(isCalendarDate(text)).toBe(date.toISOString().startsWith(text));
        },
      ),
    );
  });

  it('knows every zone of the platform and no other word', () => {
    for (const zone of Intl.supportedValuesOf('timeZone')) expect(isTimeZone(zone), zone).toBe(true);
    for (const word of ['Europe/Lisboa', 'Lisbon', '', '+01:00', 'Z0', 'Europe/', 'local', '../etc']) {
      expect(isTimeZone(word), word).toBe(false);
    }
  });
});
