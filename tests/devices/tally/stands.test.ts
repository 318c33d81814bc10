import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../../src/devices/details.js';
import { playEvents } from '../../../src/devices/tally/play.js';
import { recordOf } from '../../cases/record.js';

/** What is inside just before each event, and where it runs: `09:02 cath over wire through sheath`. */
function standing(devices: Record<string, unknown>, events: Record<string, unknown>[]): string[] {
  const timed = events.map((event, index) => ({ at: `09:${String(index).padStart(2, '0')}`, ...event }));
  const record = recordOf({ devices, events: timed });
  const lines: string[] = [];
  playEvents(record, describeDevices(record).devices, ({ states }, { event }) => {
    const inside = [...states.values()].filter(state => state.inside > 0);
    const said = inside.map(
      ({ key, over, through }) =>
        `${key}${over ? ` over ${over}` : ''}${through ? ` through ${through}` : ''}`,
    );
    lines.push(`${event.at.clock} ${said.join(', ')}`.trim());
  });
  return lines;
}

describe('everything as it stands just before an event', () => {
  it('is told in the order of the times, from what was in before the case', () => {
    const devices = { wire: { kind: 'guidewire' }, old: { kind: 'drain', carried: {} } };
    const events = [
      { at: '09:30', do: 'remove', device: 'wire' },
      { at: '09:10', do: 'insert', device: 'wire', through: 'old' },
      { at: '09:20', do: 'remove', device: 'old' },
    ];
    expect(standing(devices, events)).toEqual(['09:10 old', '09:20 wire through old, old', '09:30 wire']);
  });

  it('tells what runs over and through what, until that comes out', () => {
    const devices = {
      sheath: { kind: 'introducer sheath' },
      wire: { kind: 'guidewire' },
      cath: { kind: 'catheter' },
      micro: { kind: 'microcatheter' },
    };
    const events = [
      { do: 'insert', device: 'sheath' },
      { do: 'insert', device: 'wire', through: 'sheath' },
      { do: 'insert', device: 'cath', over: 'wire', through: 'sheath' },
      { do: 'insert', device: 'micro', through: 'cath' },
      { do: 'remove', device: 'cath', over: 'micro' },
      { do: 'insert', device: 'cath', over: 'micro', through: 'sheath' },
      { do: 'remove', device: 'micro' },
      { do: 'remove', device: 'sheath' },
      { do: 'remove', device: 'wire' },
      { do: 'insert', device: 'micro', over: 'cath' },
      { do: 'insert', device: 'wire' },
      { do: 'remove', device: 'wire' },
      { do: 'image' },
    ];
    expect(standing(devices, events)).toEqual([
      '09:00',
      '09:01 sheath',
      '09:02 sheath, wire through sheath',
      '09:03 sheath, wire through sheath, cath over wire through sheath',
      '09:04 sheath, wire through sheath, cath over wire through sheath, micro through cath',
      '09:05 sheath, wire through sheath, micro through sheath',
      '09:06 sheath, wire through sheath, cath over micro through sheath, micro through sheath',
      '09:07 sheath, wire through sheath, cath through sheath',
      '09:08 wire, cath',
      '09:09 cath',
      '09:10 cath, micro over cath',
      '09:11 wire, cath, micro over cath',
      '09:12 cath, micro over cath',
    ]);
  });

  it('tells what was set free in the patient as running in nothing, and a balloon still on its wire', () => {
    const kinds = ['stent', 'caval filter', 'detachable coil', 'balloon catheter', 'catheter', 'guidewire'];
    const freed = (verb: string, first: string) =>
      kinds.map(kind => {
        const devices = { it: { kind }, wire: { kind: 'guidewire' }, sheath: { kind: 'introducer sheath' } };
        const runs = { device: 'it', over: 'wire', through: 'sheath' };
        const events = [
          { do: 'insert', device: 'wire', with: ['sheath'] },
          { do: first, ...runs },
          ...(first === verb ? [] : [{ do: verb, device: 'it' }]),
          { do: 'image' },
        ];
        const [line = ''] = standing(devices, events).slice(-1);
        const [, itself = ''] = /\b(it[^,]*)/.exec(line) ?? [];
        return itself;
      });
    const runs = 'it over wire through sheath';
    const free = ['it', 'it', 'it', runs, runs, 'it'];
    expect(freed('deploy', 'insert')).toEqual(free);
    expect(freed('detach', 'insert')).toEqual(free);
    expect(freed('release', 'insert')).toEqual(free);
    expect(freed('withdraw', 'insert')).toEqual(kinds.map(() => runs));
    expect(freed('deploy', 'deploy')).toEqual(['it', 'it', 'it', '', '', '']);
  });
});

it('takes for the way in of what no event put in what puts things in', () => {
  const record = recordOf({
    devices: { wire: { kind: 'guidewire' }, stent: { kind: 'stent' }, old: { kind: 'stent', carried: {} } },
    events: [
      { at: '09:00', do: 'deploy', device: 'stent' },
      { at: '09:01', do: 'deploy', device: 'old' },
    ],
  });
  const { states } = playEvents(record, describeDevices(record).devices);
  const ways = [...states.values()].map(({ key, entryVerbs }) => [key, [...entryVerbs].join(' ')]);
  expect(ways).toEqual([
    ['wire', 'puncture insert exchange'],
    ['stent', 'deploy'],
    ['old', 'puncture insert exchange'],
  ]);
});
