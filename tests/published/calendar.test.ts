import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import ICAL from 'ical.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { exitCodes } from '../../src/cli/exit.js';
import { run } from '../../src/cli/program.js';
import type { AftercareItem } from '../../src/clinical/aftercare/aftercare.js';
import { aftercareCalendar } from '../../src/clinical/aftercare/calendar.js';
import { dayOf } from '../../src/clinical/aftercare/order.js';
import { program } from '../support/built.js';

const root = join(import.meta.dirname, '..', '..');
const examples = readdirSync(join(root, 'examples')).filter(
  name => /\.(?:yaml|json)$/.test(name) && !['site.yaml', 'mistaken.yaml'].includes(name),
);

async function cli(...args: string[]) {
  let [out, err] = ['', ''];
  const code = await run(args, {
    out: text => {
      out += text;
    },
    err: text => {
      err += text;
    },
    color: false,
  });
  return { code, out, err };
}
const aftercare = (name: string, format: string, ...more: string[]) =>
  cli('aftercare', join(root, 'examples', name), '--format', format, ...more);

/** Events as ical.js, a parser of its own, reads them. */
function eventsOf(text: string) {
  return new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map(event => ({
    uid: String(event.getFirstPropertyValue('uid')),
    day: String(event.getFirstPropertyValue('dtstart')),
    type: event.getFirstProperty('dtstart')?.type,
    summary: String(event.getFirstPropertyValue('summary')),
    description: String(event.getFirstPropertyValue('description')),
  }));
}

/** The day of an item, or its time in universal time by JavaScript's own Date. */
function startOf(item: AftercareItem): string {
  const time = (item.due ?? item.latest ?? item.earliest)?.date ?? item.start ?? '';
  const timed = time.includes('T') && (item.until?.date.includes('T') ?? true);
  return timed ? new Date(time).toISOString().replace('.000Z', 'Z') : (dayOf(item) ?? '');
}

describe('casetally aftercare', () => {
  it.each(examples)('%s: the calendar has every dated item and no other', async name => {
    const items = JSON.parse((await aftercare(name, 'json')).out) as AftercareItem[];
    const { code, out } = await aftercare(name, 'ics');
    expect(code).toBe(exitCodes.ok);
    const events = eventsOf(out);
    const dated = items.filter(item => dayOf(item) !== undefined);
    expect(dated.length).toBeGreaterThan(0);
    expect(events.map(({ day }) => day)).toEqual(dated.map(startOf));
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(dated.length);
    for (const [place, item] of dated.entries()) {
      const event = events[place];
      expect(event?.type).toBe(startOf(item).includes('T') ? 'date-time' : 'date');
      expect(event?.summary.startsWith(item.what)).toBe(true);
      expect(event?.description).toContain(`By: ${item.by}`);
      for (const criterion of item.criteria) expect(event?.description).toContain(criterion.action);
      if (item.ifMissed !== undefined) expect(event?.description).toContain(item.ifMissed);
      expect(event?.description).toContain('no computed value is an order');
    }
  });

  // RFC 5545, section 3.1: lines end with CRLF and are no longer than 75 octets without it.
  it.each(examples)('%s: lines are folded as the standard asks', async name => {
    const { out } = await aftercare(name, 'ics');
    expect(out.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(out.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const lines = out.split('\r\n');
    expect(lines.length).toBeGreaterThan(5);
    for (const line of lines) {
      expect(line).not.toContain('\n');
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    }
  });

  it.each(examples)('%s: the text has every item', async name => {
    const items = JSON.parse((await aftercare(name, 'json')).out) as AftercareItem[];
    const { out } = await aftercare(name, 'text');
    for (const item of items) expect(out).toContain(item.what);
    expect(out).toContain('Dates are advice to be confirmed');
  });

  it('names no patient in a calendar', async () => {
    const { out } = await aftercare('ureteric-stent-tumour.yaml', 'ics');
    expect(out).not.toMatch(/Quillfeather|GG0093177|1959/);
  });

  it('moves to the working days of the site', async () => {
    const site = join(root, 'examples', 'site.yaml');
    const { out } = await aftercare('biliary-drainage-and-stent.yaml', 'ics', '--site', site);
    for (const { day } of eventsOf(out))
      expect([0, 6]).not.toContain(new Date(`${day}T00:00:00Z`).getUTCDay());
  });

  it('makes no calendar of half a record, and exits as check does', async () => {
    const { code, out, err } = await aftercare('mistaken.yaml', 'ics');
    expect([code, out]).toEqual([exitCodes.findings, '']);
    expect(err).toMatch(/there\s+is\s+no\s+aftercare\s+plan/);
    expect((await cli('aftercare', join(root, 'README.md'))).code).toBe(exitCodes.usage);
  });

  it('refuses a format that it does not have', async () => {
    expect((await aftercare('gastrostomy.json', 'pdf')).code).toBe(exitCodes.usage);
  });
});

describe('the same bytes in every time zone of the machine', () => {
  const zones = ['UTC', 'Pacific/Auckland', 'America/Los_Angeles', 'Asia/Kolkata'];
  let outputs: string[] = [];

  beforeAll(() => {
    outputs = zones.map(TZ =>
      execFileSync(
        process.execPath,
        [program, 'aftercare', join(root, 'examples/ureteric-stent-tumour.yaml'), '--format', 'ics'],
        { cwd: root, env: { ...process.env, TZ }, encoding: 'utf8' },
      ),
    );
  });

  it('in four of them', () => {
    expect(outputs[0]).toContain('DTSTART;VALUE=DATE:20240131');
    expect(new Set(outputs).size).toBe(1);
  });
});

const item = (what: string, date: string): AftercareItem => ({
  key: 'k',
  path: 'aftercare[0]',
  what,
  due: { date, written: date, counted: false },
  criteria: [],
  by: 'ward',
  urgent: false,
  source: 'aftercare',
});

it('any words come back from the parser as they went in', () => {
  // What a record's text may hold: no control characters, ends trimmed, and blanks folded by nobody.
  const words = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 200 })
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what a record refuses
    .filter(text => text.trim() === text && text !== '' && !/[\u0000-\u001f\u007f]/.test(text));
  fc.assert(
    fc.property(words, what => {
      const text = aftercareCalendar([item(what, '2024-02-29')], {
        title: what,
        caseId: 'c',
        stampedAt: 0,
        deviceName: key => key,
        caution: 'Check.',
      });
      const [event] = eventsOf(text);
      // RFC 7986, section 5.1: NAME is a text; the parser does not know it and leaves its escapes.
      const name = String(new ICAL.Component(ICAL.parse(text)).getFirstPropertyValue('name'));
      expect(name.replace(/\\([,;\\])/g, '$1')).toBe(what);
      expect([event?.summary, event?.day]).toEqual([what, '2024-02-29']);
    }),
    { numRuns: 500 },
  );
});
