import type { DeviceUseStatement } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { countedFrom, dueDate } from '../../src/clinical/aftercare/due-date.js';
import { paperLines } from '../e2e/roundtrip/paper.js';
import { exampleFiles, knownExample } from '../support/examples.js';
import { caseText, mapped, resourceOf } from './cases.js';

/*
 * A device that was left with a date gives an item of aftercare, unless a written item comes back to it by that day:
 * common practice, no source.
 */
const DRAIN = (left: string, aftercare = '') =>
  caseText(`
devices: { drain: { kind: drainage catheter, size: 8.5 Fr x 25 cm, parts: { lock: { kind: retention thread } } } }
events: [{ at: "09:10", do: insert, device: drain }]
left: [${left}]
${aftercare === '' ? '' : `aftercare: [${aftercare}]`}`);

const STAYS = '{ device: drain, purpose: temporary, until: { condition: cavity closed }, latest: 4 weeks }';
const keysOf = (text: string) => mapped(text).assessment.aftercare.map(({ key }) => key);

describe('what was left', () => {
  it.each([
    ['nothing', ''],
    ['care without a day', '{ do: Flush, device: drain, every: 8 hours, by: ward }'],
    ['a day that is earlier', '{ do: Ultrasound, device: drain, due: 7 days, by: interventional radiology }'],
    ['a day that is later', '{ do: Remove the drain, device: drain, latest: 6 weeks, by: referrer }'],
    ['the same day, about nothing in particular', '{ do: Clinic, latest: 4 weeks, by: referrer }'],
  ])('keeps an item of its own beside %s', (_, aftercare) => {
    expect(keysOf(DRAIN(STAYS, aftercare))).toContain('left-1');
  });

  it.each([
    ['latest', '{ do: Remove the drain, device: drain, latest: 4 weeks, by: referrer }'],
    ['due', '{ do: Remove the drain, device: drain, due: 2024-04-11, by: referrer }'],
  ])('has none where a written item about the device is %s on that day', (_, aftercare) => {
    expect(keysOf(DRAIN(STAYS, aftercare))).toEqual(['aftercare-1']);
  });

  it('keeps one for a part whose device stays as well, and not where the part is all that stays', () => {
    const written = '{ do: Remove the rest, device: drain, latest: 4 weeks, by: referrer }';
    const thread = '{ device: drain, part: lock, purpose: unintended, latest: 4 weeks }';
    expect(keysOf(DRAIN(`${STAYS}, ${thread}`, written))).toEqual(['aftercare-1', 'left-2']);
    expect(keysOf(DRAIN(thread, written))).toEqual(['aftercare-1']);
  });

  it('tells condition and latest day with the device, for each place that it stays in', () => {
    const second =
      '{ device: drain, count: 1, purpose: intended, until: { condition: grown in }, latest: 9 weeks }';
    const note = (left: string) =>
      resourceOf(
        mapped(DRAIN(left, '{ do: Remove the drain, device: drain, latest: 4 weeks, by: referrer }')).set,
        'use/drain',
        'DeviceUseStatement',
      ).note?.map(({ text }) => text);
    expect(note(STAYS)).toEqual(expect.arrayContaining(['Until: cavity closed', 'At the latest: 4 weeks']));
    expect(note(second)).toEqual(expect.arrayContaining(['Until: grown in', 'At the latest: 9 weeks']));
  });
});

const covered = exampleFiles.flatMap(file => {
  const prepared = knownExample(file);
  const { left } = prepared.record;
  const paths = new Set(prepared.assessment.aftercare.map(({ path }) => path));
  return (left === 'none' || left === undefined ? [] : left).flatMap((entry, index) =>
    (entry.until || entry.latest) && !paths.has(`left[${index}]`) ? [{ file, prepared, entry }] : [],
  );
});

describe('an entry whose day a written item covers', () => {
  it('is among the examples often enough', () => {
    expect(covered.length).toBeGreaterThan(7);
  });

  it.each(covered.map(one => [one.file, one.entry.device, one] as const))(
    '%s: condition and latest day of %s are on paper under what stays inside, and in the resources',
    (_file, device, { prepared, entry }) => {
      const uses = prepared.resources.entries.flatMap(({ role, resource }) =>
        role === `use/${[device, entry.part].filter(Boolean).join('/')}`
          ? [resource as DeviceUseStatement]
          : [],
      );
      expect(uses).toHaveLength(1);
      const notes = uses.flatMap(({ note }) => (note ?? []).map(({ text }) => text)).join('\n');
      const inside = paperLines(prepared.reports.record.html)
        .filter(({ section }) => section === 'inside')
        .map(({ text }) => text)
        .join('\n');
      for (const said of [entry.until?.condition, entry.until?.date?.text, entry.latest?.text]) {
        if (said === undefined) continue;
        expect(notes).toContain(said);
        // A day as written is printed in the way of the language.
        if (!/^\d{4}-/.test(said)) expect(inside).toContain(said);
      }
      const latest = entry.latest && dueDate(entry.latest, countedFrom(prepared.record))?.date;
      if (latest !== undefined) {
        const written = (style: object) =>
          new Date(latest).toLocaleDateString('en-GB', { ...style, timeZone: 'UTC' });
        const day = `${written({ weekday: 'long' })} ${written({ dateStyle: 'long' })}`;
        expect((prepared.reports.patient?.text ?? '').replace(/\s+/g, ' ')).toMatch(
          new RegExp(`(?:come out or be changed|looked at or changed|seen about it) by ${day}`),
        );
      }
    },
  );
});
