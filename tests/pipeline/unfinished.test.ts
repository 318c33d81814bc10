import { describe, expect, it } from 'vitest';
import { caseTrays } from '../../src/pipeline/case-trays.js';
import { openUnfinished } from '../../src/pipeline/open-unfinished.js';
import { unconfiguredSite } from '../../src/site/site.js';

const NOW = '2024-03-14T12:00:00Z';
const record = (more: { devices?: string; events?: string; rest?: string }) => `casetally: 1
case: { id: HB-0193, date: 2024-03-14, timeZone: Europe/Lisbon }
devices:
  needle: { kind: access needle, size: 21 G }
  wire: { kind: guidewire, diameter: 0.035 in }
${more.devices ?? ''}
events:
  - { at: "10:00", do: puncture, device: needle }
  - { at: "10:01", do: insert, device: wire, through: needle }
${more.events ?? ''}
${more.rest ?? ''}
`;
const traysOf = (text: string) => caseTrays(new TextEncoder().encode(text), unconfiguredSite, NOW);
const placed = (text: string) => {
  const found = traysOf(text);
  if (!('placed' in found)) return found.findings.map(({ code, path }) => `${code} ${path}`);
  return found.placed.map(({ device, tray }) => `${device} ${tray}`);
};
const told = (text: string) => traysOf(text).findings.map(({ code, path }) => `${code} ${path}`);

describe('where devices are while a record is being entered', () => {
  const there = ['needle in the patient', 'wire in the patient'];

  it.each([
    [
      'a depth',
      { events: '  - { at: "10:02", do: advance, device: wire, depth: far in }' },
      'events[2].depth',
    ],
    [
      'a volume',
      { events: '  - { at: "10:02", do: aspirate, device: needle, volume: ten }' },
      'events[2].volume',
    ],
    ['a target of which nothing is said yet', { rest: 'targets: { duct: {} }' }, 'targets.duct.what'],
    ['an access of which nothing is said yet', { rest: 'access: [{ key: liver }]' }, 'access[0].site'],
    [
      'a field that no access has',
      { rest: 'access: [{ key: liver, site: right flank, colour: red }]' },
      'access[0].colour',
    ],
  ])('is told, though %s cannot be read, which is said', (_what, more, path) => {
    expect(placed(record(more))).toEqual(there);
    expect(told(record(more)).map(line => line.split(' ')[1])).toContain(path);
  });

  it.each([
    ['a size', '  drain: { kind: drainage catheter, size: large }', 'devices.drain.size'],
    [
      'since when it is inside',
      '  drain: { kind: drainage catheter, carried: { date: soon } }',
      'devices.drain.carried.date',
    ],
    [
      'the length of a part',
      '  drain: { kind: drainage catheter, parts: { s: { kind: stiffening cannula, length: some } } }',
      'devices.drain.parts.s.length',
    ],
  ])('is told, though of a device %s cannot be read', (_what, devices, path) => {
    const text = record({ devices });
    expect(placed(text).filter(line => !line.startsWith('drain'))).toEqual(there);
    expect(placed(text).some(line => line.startsWith('drain'))).toBe(true);
    expect(told(text).map(line => line.split(' ')[1])).toContain(path);
  });

  it('keeps a device inside of which only the date cannot be read', () => {
    const text = record({ devices: '  drain: { kind: drainage catheter, carried: { date: soon } }' });
    expect(placed(text)).toContain('drain in the patient');
  });

  it.each([
    ['what was done', '  - { at: "10:02", do: advanse, device: wire }'],
    ['with which device', '  - { at: "10:02", do: remove, device: { wire: 1 } }'],
    ['when', '  - { at: "10:7", do: remove, device: wire }'],
    ['whether it came out whole', '  - { at: "10:02", do: remove, device: wire, state: hole }'],
    ['over what', '  - { at: "10:02", do: remove, device: needle, over: { wire: 1 } }'],
  ])('is not told where nobody can read %s: it could be anywhere', (_what, events) => {
    const found = traysOf(record({ events }));
    expect('placed' in found).toBe(false);
    expect(found.findings.some(({ path }) => path.startsWith('events[2]'))).toBe(true);
  });

  it('is not told where a kind or how many there are cannot be read, or nothing can', () => {
    for (const devices of [
      '  drain: { size: 8 Fr }',
      '  drain: { kind: drainage catheter, count: some }',
      '  drain: 8 Fr',
    ])
      expect('placed' in traysOf(record({ devices })), devices).toBe(false);
    for (const text of [
      '',
      '[]',
      'devices: {',
      'casetally: 1\ndevices: [drain]\n',
      'targets: none\ndevices: none\nevents: 3\n',
    ])
      expect('placed' in traysOf(text), text).toBe(false);
  });

  it('leaves the text as it was read', () => {
    const text = record({ rest: 'access: [{ key: liver }]' });
    const once = openUnfinished(text, unconfiguredSite, NOW);
    expect(openUnfinished(text, unconfiguredSite, NOW).unread).toEqual(once.unread);
    expect(once.unread.map(({ path }) => path)).toEqual(['access[0].site']);
    expect(once.record?.access).toMatchObject([{ key: 'liver', site: { text: '-' } }]);
  });
});
