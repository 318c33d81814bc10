import { describe, expect, it } from 'vitest';
import { messageOf, remedyOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { parseCase } from '../../src/record/parse.js';
import { readMoment } from '../../src/record/time.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { small } from './small.js';

const dateOf = (time: string, started: string) => {
  const read = readMoment(time, { date: '2024-03-14', timeZone: 'Europe/Lisbon', started });
  return read.ok ? read.value.date : read.why;
};

describe('a bare time around midnight', () => {
  it.each([
    ['23:50', '00:10', '2024-03-13'],
    ['18:11', '00:10', '2024-03-13'],
    ['18:10', '00:10', '2024-03-14'],
    ['12:30', '00:10', '2024-03-14'],
    ['00:05', '00:10', '2024-03-14'],
    ['23:30', '05:00', '2024-03-13'],
    ['22:30', '05:00', '2024-03-14'],
    ['23:59', '06:00', '2024-03-14'],
    ['23:59', '09:00', '2024-03-14'],
    ['00:20', '22:00', '2024-03-15'],
    ['23:50', '2024-03-15T00:10', '2024-03-14'],
  ])('%s of a case that started at %s is of %s', (time, started, date) => {
    expect(dateOf(time, started)).toBe(date);
  });
});

/** The small case with its events from before midnight to after it; `start` is the line of its start. */
const acrossMidnight = (start: string) =>
  small('  started: "09:00"\n  ended: "10:00"\n', start)
    .replace('drugs: none', 'drugs: [{ drug: cefazolin, dose: 2 g, route: intravenous, at: "23:40" }]')
    .replace('"09:10"', '"23:50"')
    .replace('"09:12"', '"23:52"')
    .replace('"09:12"', '"00:12"')
    .replace('"09:14"', '"00:14"');

describe('a case across midnight', () => {
  it('that started just after it has what came before on the day before, and says so once', () => {
    const { record, findings } = parseCase(acrossMidnight('  started: "00:10"\n'));
    const drugs = record?.drugs === 'none' ? [] : record?.drugs;
    expect(drugs?.[0]?.at?.iso).toBe('2024-03-13T23:40:00+00:00');
    expect(record?.events?.map(e => e.at.iso.slice(0, 16))).toEqual([
      '2024-03-13T23:50',
      '2024-03-13T23:52',
      '2024-03-14T00:12',
      '2024-03-14T00:14',
    ]);
    const notes = findings.filter(f => f.code === 'record.time-day-before');
    expect(notes.map(f => messageOf(f))).toEqual([
      "'23:40' to '23:52' are read as the day before, 2024-03-13: more than eighteen hours after the start of the case (00:10).",
    ]);
  });

  it('without a start names the start as remedy, and no order of events', () => {
    const { findings } = checkCase(acrossMidnight('  ended: "00:20"\n'), unconfiguredSite);
    const remedy = 'Add case.started, or write the date in front of the times.';
    const start = findings.find(f => f.code === 'record.start-missing');
    expect([start?.path, start && remedyOf(start)]).toEqual(['case', remedy]);
    const stopping = findings.filter(f => f.severity === 'error');
    expect(stopping.map(f => f.code)).toContain('tally.not-inserted');
    expect([...new Set(stopping.map(f => remedyOf(f)))]).toEqual([remedy]);
  });

  it('with a start late in the evening is whole', () => {
    const { findings } = checkCase(
      acrossMidnight('  started: "23:45"\n  ended: "00:20"\n'),
      unconfiguredSite,
    );
    expect(findings.filter(f => f.severity === 'error')).toEqual([]);
  });

  it('a long day without a start is not taken for a night', () => {
    const day = small('  started: "09:00"\n  ended: "10:00"\n', '  ended: "19:00"\n');
    expect(parseCase(day).findings.map(f => f.code)).not.toContain('record.start-missing');
  });
});
