import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { type AftercareOptions, aftercareOf, plainCalendar } from '../../src/clinical/aftercare/aftercare.js';
import { checkAftercare } from '../../src/clinical/aftercare/checks.js';
import {
  dueDate,
  lastWorkingDay,
  nextWorkingDay,
  onWorkingDays,
} from '../../src/clinical/aftercare/due-date.js';
import { dayOf, undated } from '../../src/clinical/aftercare/order.js';
import { ageOn } from '../../src/clinical/age.js';
import { describeDevices } from '../../src/devices/details.js';
import { say } from '../../src/findings/say.js';
import { readQuantity } from '../../src/record/quantity.js';
import type { Term } from '../../src/record/schema/fields.js';
import { caseText, recordOf } from '../support/case-text.js';

function span(text: string): Term {
  const read = readQuantity(text, ['duration']);
  if (!read.ok) throw new Error(say(read.why));
  return { text, span: read.value };
}
const dueOn = (caseDate: string, text: string) => dueDate(span(text), { date: caseDate })?.date;

const day = fc
  .date({ min: new Date('1970-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
  .map(d => d.toISOString().slice(0, 10));
const unit = fc.constantFrom('days', 'weeks', 'months', 'years');

// Luxon is a general-purpose date library of its own: it keeps a shorter month's last day as well.
describe('due dates against luxon', () => {
  it('agree for every day, number and unit', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: 0, max: 400 }), unit, (date, n, name) => {
        expect(dueOn(date, `${n} ${name}`)).toBe(
          DateTime.fromISO(date, { zone: 'utc' })
            .plus({ [name]: n })
            .toISODate(),
        );
      }),
      { numRuns: 2000 },
    );
  });

  it.each([
    ['2024-01-31', '1 month', '2024-02-29'],
    ['2023-01-31', '1 month', '2023-02-28'],
    ['2024-02-29', '1 year', '2025-02-28'],
    ['2024-02-29', '4 years', '2028-02-29'],
    ['2024-12-31', '2 months', '2025-02-28'],
    ['2024-02-28', '2 days', '2024-03-01'],
    // The clocks change on 31 March and 27 October 2024 in Europe, and on 7 April and 6 October in Adelaide.
    ['2024-03-30', '2 days', '2024-04-01'],
    ['2024-10-26', '2 days', '2024-10-28'],
    ['2024-04-06', '1 week', '2024-04-13'],
    ['2024-05-14', '0 days', '2024-05-14'],
  ])('%s and %s is %s', (date, text, expected) => {
    expect(dueOn(date, text)).toBe(expected);
    const [n, name] = text.split(' ');
    const there = (zone: string) =>
      DateTime.fromISO(date, { zone })
        .plus({ [name?.replace(/s$/, '') ?? '']: Number(n) })
        .toISODate();
    expect(['Europe/Lisbon', 'Australia/Adelaide', 'America/Halifax'].map(there)).toEqual(
      Array(3).fill(expected),
    );
  });

  it.each(['48 hours', '30 min', '1.5 weeks', '< 6 weeks', '99999 months', '9999 years'])(
    '%s is no day',
    text => {
      expect(dueOn('2024-05-14', text)).toBeUndefined();
    },
  );

  it('ages agree, a birthday on 29 February aside: luxon completes the year a day earlier', () => {
    fc.assert(
      fc.property(day, day, (a, b) => {
        const [birth, then] = [a, b].sort() as [string, string];
        fc.pre(!birth.endsWith('02-29'));
        const { years } = DateTime.fromISO(then, { zone: 'utc' }).diff(
          DateTime.fromISO(birth, { zone: 'utc' }),
          'years',
        );
        expect(ageOn(birth, then)).toBe(Math.floor(years));
      }),
      { numRuns: 2000 },
    );
    expect([ageOn('2004-02-29', '2022-02-28'), ageOn('2004-02-29', '2022-03-01')]).toEqual([17, 18]);
  });
});

describe('working days against luxon', () => {
  const calendar = fc.record({
    weekend: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { maxLength: 6 }),
    holidays: fc.array(
      fc
        .integer({ min: -20, max: 20 })
        .map(n => DateTime.fromISO('2024-05-14', { zone: 'utc' }).plus({ days: n }).toISODate() ?? ''),
      { maxLength: 12 },
    ),
  });
  const near = fc
    .integer({ min: -20, max: 20 })
    .map(n => DateTime.fromISO('2024-05-14', { zone: 'utc' }).plus({ days: n }).toISODate() ?? '');
  const works = (date: string, { weekend, holidays }: { weekend: number[]; holidays: string[] }) =>
    !weekend.includes(DateTime.fromISO(date, { zone: 'utc' }).weekday) && !holidays.includes(date);

  it('are the nearest that are worked, on and back', () => {
    fc.assert(
      fc.property(near, calendar, (date, days) => {
        const step = (n: number) => {
          let d = DateTime.fromISO(date, { zone: 'utc' });
          while (!works(d.toISODate() ?? '', days)) d = d.plus({ days: n });
          return d.toISODate();
        };
        expect([nextWorkingDay(date, days), lastWorkingDay(date, days)]).toEqual([step(1), step(-1)]);
      }),
      { numRuns: 1000 },
    );
  });

  it('never put an item after its latest day or before the case', () => {
    fc.assert(
      fc.property(near, near, near, calendar, (a, b, c, days) => {
        const [caseDate, due, latest] = [a, b, c].sort() as [string, string, string];
        const at = (date: string) => ({ date, written: date, counted: false });
        const put = onWorkingDays({ due: at(due), latest: at(latest) }, caseDate, days);
        const on = (d: typeof put.due) => d?.workingDay ?? d?.date ?? '';
        expect(on(put.latest) <= latest && on(put.latest) >= caseDate).toBe(true);
        // Where no worked day lies between the case and the latest day, the written days stand as they are.
        if (works(on(put.latest), days)) expect(on(put.due) <= on(put.latest)).toBe(true);
        expect(on(put.due) >= caseDate).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  it('leave partial dates and times alone, and a calendar without a worked day', () => {
    expect(nextWorkingDay('2024-05', plainCalendar)).toBe('2024-05');
    expect(nextWorkingDay('2024-05-18T10:00:00Z', plainCalendar)).toBe('2024-05-18T10:00:00Z');
    expect(nextWorkingDay('2024-05-18', { weekend: [1, 2, 3, 4, 5, 6, 7], holidays: [] })).toBe('2024-05-18');
  });
});

const site: AftercareOptions = {
  weekend: [6, 7],
  holidays: ['2024-05-20', '2024-06-13'],
  rules: [
    {
      key: 'change',
      kind: 'ureteric stent',
      what: 'Exchange the stent',
      earliest: '10 weeks',
      due: '12 weeks',
      latest: '3 months',
      by: 'interventional radiology',
      ifMissed: 'ring the patient',
      source: 'stent policy 2024',
    },
    {
      kind: 'drain',
      what: 'Look at the drain site',
      due: '6 days',
      by: 'community nurse',
      source: 'drain policy 2024',
    },
    {
      case: 'Nephrostomy',
      what: 'Ring the patient',
      due: '1 day',
      by: 'ward',
      source: 'day-case policy 2024',
    },
    { case: 'gastrostomy', what: 'Never here', due: '1 day', by: 'ward', source: 'none' },
  ],
  ifMissed: 'tell the booking desk',
};

const STENT = 'devices: { s: { kind: ureteric stent }, d: { kind: nephrostomy catheter } }';
const LEFT =
  'left: [{ device: s, purpose: intended }, { device: d, purpose: temporary, set: free drainage }]';
const plan = (more: string, options = site) =>
  aftercareOf(recordOf(caseText({ more })), describeDevices(recordOf(caseText({ more }))).devices, options);
const check = (more: string, options = site) => {
  const record = recordOf(caseText({ more }));
  const { devices } = describeDevices(record);
  return checkAftercare(record, aftercareOf(record, devices, options), devices, options, 'desk 0132').map(
    f => `${f.code} ${f.path}`,
  );
};

describe('the plan', () => {
  it('adds the rules of the site by kind and family of device, and by kind of case', () => {
    const items = plan(`${STENT}\n${LEFT}`);
    expect(items.map(item => [item.key, item.device, dayOf(item), item.policy])).toEqual([
      ['rule-ring-the-patient', undefined, '2024-05-15', 'day-case policy 2024'],
      // 20 May 2024 is a holiday of the site.
      ['rule-d-look-at-the-drain-site', 'd', '2024-05-21', 'drain policy 2024'],
      ['rule-s-change', 's', '2024-08-06', 'stent policy 2024'],
    ]);
    expect(items[2]).toMatchObject({
      earliest: { date: '2024-07-23' },
      due: { date: '2024-08-06' },
      latest: { date: '2024-08-14' },
      ifMissed: 'ring the patient',
    });
    expect(items[1]?.ifMissed).toBe('tell the booking desk');
  });

  it('gives way to an item of the record with the same key about the same device', () => {
    const more = `${STENT}\n${LEFT}\naftercare: [{ key: change, device: s, do: Exchange, due: 8 weeks, by: referrer }]`;
    expect(
      plan(more)
        .filter(item => item.device === 's')
        .map(item => item.what),
    ).toEqual(['Exchange']);
    const other = more.replace('device: s, do', 'device: d, do');
    expect(
      plan(other)
        .filter(item => item.device === 's')
        .map(item => item.what),
    ).toEqual(['Exchange the stent']);
  });

  it('says when such an item is planned beyond the policy, and whose policy it is', () => {
    const more = (due: string) =>
      `${STENT}\n${LEFT}\naftercare: [{ key: change, device: s, do: Exchange, due: ${due}, by: referrer }]`;
    const policy = (due: string) => check(more(due)).filter(found => found.includes('policy'));
    expect(policy('3 months')).toEqual([]);
    expect(policy('4 months')).toEqual(['clinical.later-than-policy aftercare[0]']);
  });

  it('counts one rule for a device once, and not for its parts', () => {
    const more = `${STENT}\nleft: [{ device: s, purpose: intended }, { device: s, part: tip, purpose: unintended }]`;
    expect(plan(more).filter(item => item.device === 's')).toHaveLength(1);
  });

  it('keeps keys apart', () => {
    const more =
      'aftercare: [{ key: a, do: One, by: ward }, { key: a, do: Two, by: ward }, { key: a-2, do: Three, by: ward }]';
    const keys = plan(more, plainCalendar).map(item => item.key);
    expect(keys).toEqual(['a', 'a-3', 'a-2']);
  });

  it('adds a look at the skin after a substantial dose, unless a person planned one', () => {
    const record = (more: string) => recordOf(caseText({ more }));
    const skin = (more: string, options = plainCalendar) =>
      aftercareOf(record(more), new Map(), options, true).filter(item => item.key === 'skin-review');
    expect(skin('').map(item => [item.source, dayOf(item), item.policy])).toEqual([
      ['site', undefined, expect.stringContaining('from memory')],
    ]);
    expect(skin('aftercare: [{ do: Check the skin of the back, due: 2 weeks, by: ward }]')).toEqual([]);
    const own = { what: 'Skin clinic', due: '4 weeks', by: 'ward', source: 'our dose policy' };
    expect(skin('', { ...plainCalendar, skinReview: own }).map(item => [item.what, dayOf(item)])).toEqual([
      ['Skin clinic', '2024-06-11'],
    ]);
    expect(aftercareOf(record(''), new Map(), plainCalendar, false)).toEqual([]);
  });

  it('names the items that have no day', () => {
    const more =
      'aftercare: [{ do: Flush, every: 8 weeks, by: ward }, { do: See, due: 2024-07, by: ward }, { do: Scan, due: 2 days, by: ward }]';
    expect(undated(plan(more, plainCalendar)).map(item => item.what)).toEqual(['See', 'Flush']);
  });
});

describe('what the plan lacks', () => {
  const left = (fields: string) =>
    `devices: { d: { kind: nephrostomy catheter } }\nleft: [{ device: d, ${fields} }]`;

  it('is an error for a device that nobody comes back to', () => {
    expect(check(left('purpose: temporary'), plainCalendar)).toEqual([
      'clinical.left-without-aftercare left[0]',
    ]);
    expect(check(left('part: tip, purpose: unintended'), plainCalendar)).toEqual([
      'clinical.left-without-aftercare left[0]',
    ]);
    expect(check(left('latest: 12 weeks'), plainCalendar)).toEqual([]);
    expect(check(left('purpose: temporary'))).toEqual([]);
  });

  it('is said of a drain that is capped without a condition to act on', () => {
    const trial = (criteria: string) =>
      `${left('set: capped')}\naftercare: [{ do: Trial, device: d, due: 2 days, by: ward${criteria} }]`;
    expect(check(trial(''))).toEqual(['clinical.capped-without-criteria left[0].set']);
    expect(check(trial(', criteria: [{ measure: fever, is: present, action: open it }]'))).toEqual([]);
    expect(check(trial('').replace('set: capped', 'set: free drainage'))).toEqual([
      'clinical.setting-without-criteria left[0].set',
    ]);
  });

  it.each([
    ['{ measure: urine output, is: under, action: open }', 1],
    ['{ measure: urine output, is: under, value: 0.5 mL/kg/h, over: 6 hours, action: open }', 0],
    ['{ measure: fever, is: present, value: 1, action: open }', 1],
    ['{ measure: fever, is: absent, action: open }', 0],
  ])('is said of the condition %s: %s', (criterion, count) => {
    expect(
      check(`aftercare: [{ do: Trial, by: ward, criteria: [${criterion}] }]`, plainCalendar),
    ).toHaveLength(count);
  });

  it.each([
    ['earliest: 3 weeks, due: 2 weeks', ['clinical.due-order aftercare[0]']],
    [
      'earliest: 3 weeks, due: 4 weeks, latest: 2 weeks',
      ['clinical.due-order aftercare[0]', 'clinical.due-order aftercare[0]'],
    ],
    ['earliest: 2024-06, due: 2024-06-20', []],
    ['due: 2024-05-13', ['clinical.due-before-case aftercare[0]']],
    ['due: 2024-05-14', []],
    ['due: 1.5 weeks', ['clinical.due-uncountable aftercare[0].due']],
    // Hours are counted from the end of the case, which this record does not have.
    ['due: 48 hours', ['clinical.due-uncountable aftercare[0].due']],
  ])('%s', (fields, expected) => {
    expect(check(`aftercare: [{ do: Scan, by: ward, ${fields} }]`, plainCalendar)).toEqual(expected);
  });
});
