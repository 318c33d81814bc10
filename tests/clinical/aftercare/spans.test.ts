import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CarePlan, ServiceRequest, Task } from 'fhir/r4.js';
import ICAL from 'ical.js';
import { DateTime } from 'luxon';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { aftercareOf, plainCalendar } from '../../../src/clinical/aftercare/aftercare.js';
import { assess } from '../../../src/clinical/assess.js';
import { toR5 } from '../../../src/fhir/r5/versions.js';
import { mapped } from '../../fhir/cases.js';
import { caseText, recordOf } from '../../support/case-text.js';
import { testTools } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'spans-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A case on a Thursday evening in March. Lisbon is at universal time until 31 March 2024. */
function late(aftercare: string, { date = '2024-03-14', ended = '22:30', more = '' } = {}): string {
  return caseText({ head: `  ended: "${ended}"`, more: `aftercare: [${aftercare}]\n${more}` })
    .replace('date: 2024-05-14', `date: ${date}`)
    .replace('started: "09:00"', 'started: "21:00"');
}

async function cli(text: string, ...args: string[]): Promise<string> {
  const file = join(folder, 'case.yaml');
  writeFileSync(file, text);
  let out = '';
  const keep = (words: string) => {
    out += words;
  };
  await run([args[0] ?? '', file, ...args.slice(1)], { out: keep, err: () => {}, color: false });
  return out;
}

const plan = (text: string) => aftercareOf(recordOf(text));
const requests = (text: string) =>
  mapped(text)
    .set.entries.map(({ resource }) => resource)
    .filter((resource): resource is ServiceRequest => resource.resourceType === 'ServiceRequest')
    .filter(({ identifier }) => !identifier?.[0]?.value?.includes('planned'));
const tasks = (text: string) =>
  mapped(text)
    .set.entries.map(({ resource }) => resource)
    .filter((resource): resource is Task => resource.resourceType === 'Task');

describe('a span in hours', () => {
  const text = late(
    '{ do: Film of the chest, due: 4 hours, by: ward }, { do: Check the groin, every: 15 min, for: 4 hours, by: ward }',
  );

  it('has a clock time in the text', async () => {
    const out = await cli(text, 'aftercare', '--format', 'text');
    expect(out).toContain('Friday 15 March 2024, 02:30  Film of the chest\n');
    expect(out).toContain('    Due: Friday 15 March 2024, 02:30 (4 hours)\n');
    expect(out).toContain('Thursday 14 March 2024, 22:30  Check the groin\n');
    expect(out).toContain('    Until: Friday 15 March 2024, 02:30\n');
  });

  it('in JSON', async () => {
    const items = JSON.parse(await cli(text, 'aftercare', '--format', 'json'));
    expect(items).toMatchObject([
      {
        what: 'Check the groin',
        start: '2024-03-14T22:30:00+00:00',
        every: '15 min',
        until: { date: '2024-03-15T02:30:00+00:00', written: '4 hours', counted: true },
      },
      { what: 'Film of the chest', due: { date: '2024-03-15T02:30:00+00:00', counted: true } },
    ]);
  });

  it('in the calendar, as another parser reads it', async () => {
    const out = await cli(text, 'aftercare', '--format', 'ics');
    const events = new ICAL.Component(ICAL.parse(out)).getAllSubcomponents('vevent').map(component => {
      const event = new ICAL.Event(component);
      return [event.summary, String(event.startDate), event.duration.toString(), event.uid];
    });
    expect(events).toEqual([
      ['Check the groin', '2024-03-14T22:30:00Z', 'PT4H', expect.stringMatching(/T-1\/aftercare-2@/)],
      ['Film of the chest', '2024-03-15T02:30:00Z', 'PT0S', expect.stringMatching(/T-1\/aftercare-1@/)],
    ]);
    expect(out).toMatch(/\r\nDTSTAMP:\d{8}T\d{6}Z\r\n/);
    expect(await cli(text, 'aftercare', '--format', 'ics')).toBe(out);
  });

  it.each([
    [
      'en-GB',
      'until Friday 15 March 2024, 02:30 (4 hours after the case)',
      'Due Friday 15 March 2024, 02:30',
    ],
    ['en-US', 'until Friday, March 15, 2024, 02:30 (4 hours after the case)', 'Due Friday, March 15'],
    [
      'de',
      'bis Freitag, 15. März 2024, 02:30 Uhr (4 Stunden nach dem Fall)',
      'Fällig: Freitag, 15. März 2024',
    ],
    ['es', 'hasta viernes, 15 de marzo de 2024, 02:30 (4 horas después', 'Previsto: viernes, 15 de marzo'],
  ])('in the report for the ward (%s)', async (language, until, due) => {
    const out = await cli(text, 'report', '--audience', 'ward', '--format', 'text', '--language', language);
    const words = out.replace(/\s+/g, ' ');
    expect(words).toContain(until);
    expect(words).toContain(due);
  });

  it('in FHIR R4 and R5', () => {
    const end = '2024-03-15T02:30:00+00:00';
    const [groin, film] = requests(text);
    expect(film?.occurrenceDateTime).toBe(end);
    const timing = {
      repeat: {
        boundsPeriod: { start: '2024-03-14T22:30:00+00:00', end },
        frequency: 1,
        period: 15,
        periodUnit: 'min',
      },
      code: { text: '15 min' },
    };
    expect(groin?.occurrenceTiming).toEqual(timing);
    expect(toR5(groin ?? { resourceType: 'ServiceRequest' })?.resource).toMatchObject({
      occurrenceTiming: timing,
    });
    const { validator } = testTools();
    for (const resource of [...requests(text), ...tasks(text)]) {
      const { issues } = validator.validateText(JSON.stringify(resource));
      expect(issues.filter(({ severity }) => severity === 'error')).toEqual([]);
    }
    expect(tasks(text).map(({ restriction }) => restriction?.period)).toEqual([
      { start: '2024-03-14T22:30:00+00:00', end },
      { end },
    ]);
  });
});

// Luxon is a date library of its own, with the time zones of the platform.
describe('hours pass whatever the clocks do', () => {
  it.each([
    ['2024-03-30', '23:30', '4 hours'],
    ['2024-10-26', '23:30', '3 hours'],
    ['2024-10-26', '23:30', '150 min'],
    ['2024-12-31', '23:50', '30 min'],
    ['2024-02-28', '22:00', '26.5 hours'],
  ])('%s %s and %s', (date, ended, written) => {
    const [item] = plan(late(`{ do: See, due: ${written}, by: ward }`, { date, ended }));
    const [n, unit] = written.split(' ');
    const there = DateTime.fromISO(`${date}T${ended}`, { zone: 'Europe/Lisbon' }).plus({
      [unit === 'min' ? 'minutes' : 'hours']: Number(n),
    });
    expect(item?.due?.date).toBe(there.toISO({ suppressMilliseconds: true })?.replace('Z', '+00:00'));
  });

  it('are counted from the last event or the signature where the end is not recorded', () => {
    const bare = late('{ do: See, due: 1 hour, by: ward }').replace(/ {2}ended: .*\n/, '');
    expect(plan(bare)[0]?.due).toBeUndefined();
    const signed = bare.replace('author: op }', 'author: op, signedAt: "23:15" }');
    expect(plan(signed)[0]?.due?.date).toBe('2024-03-15T00:15:00+00:00');
    const events =
      'devices: { w: { kind: guidewire } }\nevents: [{ at: "22:05", do: insert, device: w }, { at: "22:20", do: remove, device: w }]';
    expect(plan(`${signed}${events}`)[0]?.due?.date).toBe('2024-03-14T23:20:00+00:00');
  });

  it('are given in the zone of the site where the record has none', () => {
    const record = recordOf(
      late('{ do: See, due: 4 hours, by: ward }', { date: '2024-03-30', ended: '2024-03-30T23:30+00:00' })
        .replace(/ {2}timeZone: .*\n/, '')
        .replace('"21:00"', '"21:00Z"'),
    );
    const due = (timeZone?: string) =>
      aftercareOf(record, new Map(), { ...plainCalendar, timeZone })[0]?.due?.date;
    expect(due('Europe/Lisbon')).toBe('2024-03-31T04:30:00+01:00');
    expect(due()).toBe('2024-03-31T03:30:00+00:00');
  });

  it('go on from the first time, which may be later', () => {
    const until = (fields: string) => plan(late(`{ do: See, by: ward, ${fields} }`))[0]?.until?.date;
    expect(until('due: 4 hours, every: 6 hours, for: 24 hours')).toBe('2024-03-16T02:30:00+00:00');
    expect(until('due: 1 day, every: 24 hours, for: 3 days')).toBe('2024-03-18');
    expect(until('due: 1 day, every: 6 hours, for: 24 hours')).toBe('2024-03-16');
    // The day has no clock time to count from.
    expect(until('due: 1 day, every: 1 hour, for: 4 hours')).toBeUndefined();
    expect(until('every: 8 hours, for: as long as the drain stays')).toBeUndefined();
    expect(until('when: it bleeds, for: 4 hours')).toBeUndefined();
  });
});

describe('the last time in what was left', () => {
  const left = (fields: string) =>
    late('{ do: Flush, every: 4 hours, by: ward, device: d }', {
      more: `devices: { d: { kind: lysis catheter } }\nevents: [{ at: "22:05", do: insert, device: d }]\nleft: [{ device: d, purpose: temporary, ${fields} }]`,
    });

  it('is a clock time in the plan and in the account of what stays', async () => {
    const text = left('latest: 24 hours, until: { date: 12 hours }');
    const item = plan(text).find(({ source }) => source === 'left');
    expect(item).toMatchObject({
      due: { date: '2024-03-15T10:30:00+00:00' },
      latest: { date: '2024-03-15T22:30:00+00:00' },
    });
    const words = (await cli(text, 'report', '--audience', 'ward', '--format', 'text')).replace(/\s+/g, ' ');
    expect(words).toContain('At the latest Friday 15 March 2024, 22:30 (24 hours after the case)');
  });
});

describe('what is out of order by the hour', () => {
  const codes = (fields: string) =>
    assess(recordOf(late(`{ do: See, by: ward, ${fields} }`)))
      .findings.filter(({ path }) => path.startsWith('aftercare'))
      .map(({ code }) => code);

  it.each([
    ['earliest: 20 hours, due: 6 hours', ['clinical.due-order']],
    ['due: 4 hours, latest: 230 min', ['clinical.due-order']],
    ['earliest: 4 hours, due: 4 hours, latest: 4 hours', []],
    ['earliest: 20 hours, due: 1 day', []],
    ['due: 2024-03-14T22:15', ['clinical.due-before-case']],
    ['due: 2024-03-14T22:45', []],
    ['due: 2024-03-14', []],
    ['due: 2024-03-13', ['clinical.due-before-case']],
    ['due: < 4 hours', ['clinical.due-uncountable']],
  ])('%s', (fields, expected) => {
    expect(codes(fields)).toEqual(expected);
  });
});

describe('working days', () => {
  const workingDay = (fields: string) =>
    // Two days after the case is a Saturday.
    plan(late(`{ do: See, ${fields} }`))[0]?.due?.workingDay;

  it.each([
    ['due: 2 days, by: referrer', '2024-03-18'],
    ['due: 2 days, by: interventional radiology', '2024-03-18'],
    ['due: 2 days, by: family doctor', '2024-03-18'],
    ['due: 2 days, by: patient', '2024-03-18'],
    ['due: 2 days, by: family doctor, every: 6 months', '2024-03-18'],
    ['due: 2 days, by: ward', undefined],
    ['due: 2 days, by: community nurse, every: 24 hours', undefined],
    ['due: 36 hours, by: referrer', undefined],
    ['due: 2 days, latest: 60 hours, by: referrer', undefined],
  ])('%s: %s', (fields, expected) => {
    expect(workingDay(fields)).toBe(expected);
  });
});

describe('the order of every list', () => {
  const text = late(
    [
      '{ do: seven, when: it bleeds, by: ward }',
      '{ do: six, by: ward }',
      '{ do: five, due: 6 weeks, by: ward }',
      '{ do: four, due: 1 day, by: ward }',
      '{ do: three, due: 20 hours, by: ward }',
      '{ do: two, due: 30 min, by: ward }',
      '{ do: one, every: hourly, by: ward }',
      '{ do: zero, due: 3 days, by: ward, urgent: yes }',
    ].join(', '),
  );
  const wanted = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven'];

  it('is that of urgency', async () => {
    expect(plan(text).map(({ what }) => what)).toEqual(wanted);
    const said = (out: string) =>
      [...out.matchAll(/\b(?:zero|one|two|three|four|five|six|seven)\b/g)].map(([word]) => word);
    const lists = [
      await cli(text, 'aftercare', '--format', 'text'),
      await cli(text, 'aftercare', '--format', 'json'),
      await cli(text, 'report', '--audience', 'ward', '--format', 'text'),
    ];
    for (const out of lists) expect([...new Set(said(out))]).toEqual(wanted);
    expect(said(await cli(text, 'aftercare', '--format', 'ics'))).toEqual(wanted.slice(0, 6));
    const care = mapped(text).set.entries.find(({ role }) => role === 'aftercare')?.resource as CarePlan;
    const displays = care.activity?.map(({ reference }) => reference?.display);
    expect([...new Set(displays)]).toEqual(wanted);
  });
});
