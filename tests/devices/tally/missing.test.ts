import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../../src/devices/details.js';
import { tallyDevices } from '../../../src/devices/tally/tally.js';
import { isInside } from '../../../src/devices/types.js';
import { caseText, recordOf } from '../../support/case-text.js';

/** What the tally makes of devices and events: `wire removed intact`, and its errors and warnings. */
function tally(more: string) {
  const record = recordOf(caseText({ more }));
  const { entries, findings } = tallyDevices(record, describeDevices(record).devices);
  return {
    entries,
    ends: entries.map(({ device, part, state, count }) => `${count} ${part ?? device} ${state}`),
    said: findings
      .filter(({ severity }) => severity !== 'information')
      .map(({ severity, code, path }) => `${severity} ${code} ${path}`),
  };
}

const search = 'searched: "field, table and waste", imaging: fluoroscopy of the field, told: the patient';

// Common practice, no source: a thing that is not found is neither out nor known to be in.
describe('what cannot be found', () => {
  const wire =
    'devices: { wire: { kind: guidewire, length: 80 cm } }\nevents: [{ at: "09:04", do: insert, device: wire }]';

  it('is an error while nobody says so, and a warning once the search is recorded', () => {
    expect(tally(wire).said).toEqual(['error tally.unaccounted events[0]']);
    const { ends, said, entries } = tally(`${wire}\nmissing: [{ device: wire, ${search} }]`);
    expect(said).toEqual(['warning tally.missing missing[0]']);
    expect(ends).toEqual(['1 wire missing']);
    expect(entries.some(({ state }) => isInside(state))).toBe(false);
  });

  it('is told of a part, and of one piece of what was broken', () => {
    const drain = `devices: { drain: { kind: drainage catheter, parts: { lock: { kind: retention thread } } } }
events: [{ at: "09:04", do: insert, device: drain }, { at: "09:10", do: unlock, device: drain }, { at: "09:12", do: remove, device: drain }]`;
    expect(tally(drain).said).toEqual([expect.stringContaining('tally.part-unaccounted')]);
    expect(tally(`${drain}\nmissing: [{ device: drain, part: lock, ${search} }]`)).toMatchObject({
      said: ['warning tally.missing missing[0]'],
      ends: ['1 drain removed with a part missing', '1 lock missing'],
    });
    const broken = `devices: { wire: { kind: guidewire } }
events: [{ at: "09:04", do: insert, device: wire }, { at: "09:10", do: fracture, device: wire }, { at: "09:12", do: remove, device: wire, state: part missing }]`;
    expect(tally(broken).said).toContain('error tally.pieces events[1]');
    expect(tally(`${broken}\nmissing: [{ device: wire, ${search} }]`).said).toEqual([
      'warning tally.missing missing[0]',
    ]);
  });

  it('is counted: what nobody searched for stays an error', () => {
    const swabs = `devices: { swab: { kind: swab, family: accessory, count: 10 } }
events: [{ at: "09:04", do: insert, device: swab, count: 10 }, { at: "09:40", do: remove, device: swab, count: 8 }]`;
    const { ends, said } = tally(`${swabs}\nmissing: [{ device: swab, count: 1, ${search} }]`);
    expect(ends.sort()).toEqual(['1 swab missing', '1 swab unaccounted', '8 swab removed intact']);
    expect(said).toContain('warning tally.missing missing[0]');
    expect(said).toContain('error tally.unaccounted events[0]');
  });

  it('outranks the event that lost it, and never what the record says of it elsewhere', () => {
    const lost = `${wire.slice(0, -1)}, { at: "09:10", do: lose, device: wire }]`;
    expect(tally(`${lost}\nmissing: [{ device: wire, ${search} }]`)).toMatchObject({
      ends: ['1 wire missing'],
      said: ['warning tally.missing missing[0]'],
    });
    const out = `${wire.slice(0, -1)}, { at: "09:10", do: remove, device: wire }]`;
    expect(tally(`${out}\nmissing: [{ device: wire, ${search} }]`).said).toEqual([
      'error tally.missing-accounted missing[0]',
    ]);
    expect(
      tally(`${wire}\nleft: [{ device: wire, purpose: unintended }]\nmissing: [{ device: wire, ${search} }]`)
        .said,
    ).toContain('error tally.missing-accounted missing[0]');
  });
});

describe('what was cut', () => {
  const drain = (cut: string, more = '') => `devices:
  drain: { kind: drainage catheter, parts: { lock: { kind: retention thread } } }
events:
  - { at: "09:04", do: insert, device: drain }
  - { at: "09:08", do: cut, device: drain${cut} }
  - { at: "09:10", do: remove, device: drain, pieces: 2 }
  - { at: "09:11", do: remove, device: drain, part: lock }
${more}`;

  it('comes out in pieces, complete or not', () => {
    expect(tally(drain('')).ends[0]).toBe('1 drain removed in pieces, complete');
    const short = tally(drain(', pieces: 3'));
    expect(short.ends[0]).toBe('1 drain removed in pieces, incomplete');
    expect(short.said).toEqual(['error tally.pieces events[1]']);
  });

  it('before it went in is in one piece, and what was cut off is not asked for', () => {
    const line = `devices: { line: { kind: PICC, parts: { tail: { kind: end cut off } } } }
events:
  - { at: "09:00", do: cut, device: line, part: tail }
  - { at: "09:01", do: cut, device: line }
  - { at: "09:04", do: insert, device: line }
left: [{ device: line, purpose: temporary, latest: 6 weeks }]`;
    const { ends, said } = tally(line);
    expect(said).toEqual([]);
    expect(ends).toEqual(['1 line in situ temporary', '1 tail removed intact']);
  });
});

it('takes a second injection of cement or an embolic for more of the same', () => {
  for (const kind of ['bone cement', 'microspheres', 'n-butyl cyanoacrylate']) {
    const { ends, said } = tally(`devices: { filler: { kind: ${kind}, family: embolic } }
events: [{ at: "09:04", do: inject, device: filler, volume: 2 mL }, { at: "09:08", do: inject, device: filler, volume: 1 mL }]
left: [{ device: filler, purpose: intended }]`);
    expect(said, kind).toEqual([]);
    expect(ends).toEqual(['1 filler in situ intended']);
  }
});
