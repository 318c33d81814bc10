import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../../src/devices/details.js';
import { lineContextOf } from '../../../src/intake/lines/context.js';
import { linesContribution } from '../../../src/intake/lines/contribute.js';
import { readLines } from '../../../src/intake/lines/read.js';
import { parseCase, parseCaseData } from '../../../src/record/parse.js';

const text = readFileSync(
  join(import.meta.dirname, '../../../examples/biliary-drainage-and-stent.yaml'),
  'utf8',
);
const { record } = parseCase(text);
if (!record) throw new Error('the example must be readable');
const context = lineContextOf(record, describeDevices(record).devices);
const at = '2024-03-14T10:30:00Z';

describe('lines and a record', () => {
  it('devices are where the events of the record left them', () => {
    const inside = context.devices?.filter(one => (one.inside ?? 0) > 0).map(({ key }) => key);
    expect(inside).toEqual(['stent', 'drain']);
    const { readings } = readLines(['10:20 drain flushed with 10 of saline', '10:21 balloon down'], context);
    expect(readings.map(({ certainty }) => certainty)).toEqual(['understood', 'uncertain']);
  });

  it('a target is named by its words, and stands by its key', () => {
    const own = { ...context, targets: { cbd: ['common bile duct', 'stricture'] } };
    const { readings } = readLines(['10:20 stiff wire in across the stricture'], own);
    expect(readings[0]?.events).toEqual([{ at: '10:20', do: 'insert', device: 'stiff', across: 'cbd' }]);
  });

  it('a time that the clocks did not show is said', () => {
    const time = { date: '2024-03-31', timeZone: 'Europe/Lisbon' };
    const { readings } = readLines(['01:30 drain flushed'], { ...context, time });
    expect(readings[0]?.why.map(({ key }) => key)).toEqual(['reading.skipped']);
  });

  it('no time of the line before is taken for the next: the time of receipt, or none', () => {
    const lines = ['10:20 drain flushed with 10 of saline', 'drain clamped'];
    expect(readLines(lines, context).readings[1]?.events[0]).toEqual({
      do: 'set',
      device: 'drain',
      to: 'clamped',
    });
    expect(readLines(lines, { ...context, at: '10:25' }).readings[1]?.events[0]?.at).toBe('10:25');
  });
});

describe('what lines give', () => {
  const lines = [
    '10:20 drain flushed with 10 of saline',
    '10:21 drain almost out',
    '10:22 9 Fr sheath in',
    '10:23 fentanyl 50 mikes IV',
    '10:24 wibble',
  ];
  const read = readLines(lines, context);

  it('proposals, which assert nothing', () => {
    const { from, values, findings } = linesContribution(read, context, { at });
    expect(from).toBe('line');
    expect(values.map(({ path, as }) => [path.join('.'), as])).toEqual([
      ['events', 'propose-entry'],
      ['events', 'propose-entry'],
      ['devices.sheath9', 'propose'],
      ['events', 'propose-entry'],
      ['drugs', 'propose-entry'],
    ]);
    expect(values.map(({ said }) => said)).toEqual([lines[0], lines[1], lines[2], lines[2], lines[3]]);
    expect(findings.map(({ code }) => code)).toEqual(['lines.uncertain', 'lines.not-understood']);
  });

  it('entries only where they were asked for, and were understood', () => {
    const { values } = linesContribution(read, context, { at, accept: true });
    expect(values.map(({ as }) => as)).toEqual(['add', 'propose-entry', 'set', 'add', 'add']);
  });

  it('an event of a device that is only proposed stays a proposal, as does one across what is no target', () => {
    const shaky = readLines(
      ['10:20 9 Fr sheath in?', '10:21 9 Fr sheath out', '10:22 stiff wire in across the valve'],
      context,
    );
    const { values } = linesContribution(shaky, context, { at, accept: true });
    expect(values.map(({ as }) => as)).toEqual([
      'propose',
      'propose-entry',
      'propose-entry',
      'propose-entry',
    ]);
  });

  it('what was taken over is read by the record as it stands', () => {
    const { values } = linesContribution(read, context, { at, accept: true });
    const taken = values.filter(({ as }) => as === 'add' || as === 'set');
    const of = (name: string) => taken.filter(({ path }) => path[0] === name);
    const data = {
      casetally: '1',
      case: {
        id: 'L-1',
        status: 'completed',
        date: '2024-03-14',
        timeZone: 'Europe/Lisbon',
        kind: 'biliary drainage',
      },
      ...{
        patient: {
          identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '1' }],
          name: 'Vela Quintanar',
        },
      },
      devices: {
        drain: { kind: 'drainage catheter' },
        ...Object.fromEntries(of('devices').map(({ path, value }) => [path[1], value])),
      },
      events: of('events').map(({ value }) => value),
      drugs: of('drugs').map(({ value }) => value),
    };
    const { findings } = parseCaseData(data);
    const mine = findings.filter(({ path }) => /^(?:events|drugs|devices)/.test(path ?? ''));
    expect(mine).toEqual([]);
  });
});
