import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../../src/devices/details.js';
import { tallyDevices } from '../../../src/devices/tally/tally.js';
import { isInside } from '../../../src/devices/types.js';
import { recordOf } from '../../cases/record.js';

interface Line {
  do: string;
  device: string;
  [field: string]: unknown;
}

const kinds = [
  'guidewire',
  'catheter',
  'introducer sheath',
  'locking drain',
  'stent',
  'balloon catheter',
  'snare',
];
const SIZES = [1, 1, 1, 2, 3];

/** Steps that are always legal: what each number does depends on what is possible at that point. */
const steps = fc.array(fc.record({ device: fc.nat(5), act: fc.nat(9) }), { minLength: 1, maxLength: 40 });
const casts = fc.array(fc.record({ kind: fc.nat(kinds.length - 1), count: fc.nat(SIZES.length - 1) }), {
  minLength: 1,
  maxLength: 6,
});

/** Plays legal steps on a model of its own and ends with a line in `left` for everything still inside. */
function legalCase(cast: { kind: number; count: number }[], acts: { device: number; act: number }[]) {
  const devices = cast.map(({ kind, count }, index) => {
    const name = kinds[kind]!;
    const thread = name === 'locking drain';
    const size = thread ? 1 : SIZES[count]!;
    return { key: `d${index}`, name, size, thread, in: 0, out: 0, threadOut: !thread, threadOpen: false };
  });
  const events: Line[] = [];
  for (const { device, act } of acts) {
    const one = devices[device % devices.length]!;
    const wires = devices.filter(d => d.name === 'guidewire' && d.in > 0 && d !== one).map(d => d.key);
    const over = wires.length > 0 && act % 2 === 0 ? { over: wires[0] } : {};
    if (act < 4 && one.in < one.size && !one.threadOpen) {
      events.push({ do: 'insert', device: one.key, count: 1, ...over });
      one.in += 1;
      one.out = Math.max(0, one.out - Math.max(0, one.in + one.out - one.size));
    } else if (act < 8 && one.in > 0) {
      events.push({ do: 'remove', device: one.key, count: 1, ...over });
      one.in -= 1;
      one.out += 1;
      if (one.in === 0 && one.thread && !one.threadOut) one.threadOpen = true;
    } else if (one.threadOpen) {
      events.push({ do: 'remove', device: one.key, part: 'lock' });
      one.threadOpen = false;
      one.threadOut = true;
    } else if (one.in > 0) events.push({ do: 'reposition', device: one.key });
  }
  for (const one of devices) if (one.threadOpen) events.push({ do: 'remove', device: one.key, part: 'lock' });
  for (const one of devices) {
    const never = one.size - one.in - one.out;
    if (never > 0) events.push({ do: 'discard', device: one.key, count: never });
  }
  const left = devices
    .filter(one => one.in > 0)
    .map(one => ({ device: one.key, purpose: 'temporary', latest: '2 weeks' }));
  return { devices, events, left };
}

function tallyOf(made: ReturnType<typeof legalCase>, events: readonly Line[]) {
  const record = recordOf({
    devices: Object.fromEntries(
      made.devices.map(one => [
        one.key,
        {
          kind: one.name,
          count: one.size,
          ...(one.thread && { parts: { lock: { kind: 'retention thread' } } }),
        },
      ]),
    ),
    // One minute an event, in order; 60 are never reached.
    events: events.map((event, index) => ({ at: `09:${String(index).padStart(2, '0')}`, ...event })),
    left: made.left.length > 0 ? made.left : 'none',
  });
  return tallyDevices(record, describeDevices(record).devices);
}

const summary = (tally: ReturnType<typeof tallyOf>) =>
  tally.entries.map(e => `${e.device}.${e.part ?? ''} ${e.count} ${e.state}`);

describe('the tally', () => {
  it('ends every legal sequence with each device in exactly one state, as many as there were, and no error', () => {
    fc.assert(
      fc.property(casts, steps, (cast, acts) => {
        const made = legalCase(cast, acts);
        const tally = tallyOf(made, made.events);
        expect(tally.findings.filter(f => f.severity === 'error').map(f => `${f.code} ${f.path}`)).toEqual(
          [],
        );
        for (const one of made.devices) {
          const rows = tally.entries.filter(e => e.device === one.key && e.part === undefined);
          expect(rows.reduce((sum, row) => sum + row.count, 0)).toBe(one.size);
          expect(new Set(rows.map(row => row.state)).size).toBe(rows.length);
          const inside = rows.filter(row => isInside(row.state)).reduce((sum, row) => sum + row.count, 0);
          expect(inside).toBe(one.in);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('never hides a removal that is taken out: something is then unaccounted or in situ, with an error', () => {
    fc.assert(
      fc.property(casts, steps, fc.nat(), (cast, acts, choice) => {
        const made = legalCase(cast, acts);
        const removals = made.events.flatMap((event, index) => (event.do === 'remove' ? [index] : []));
        fc.pre(removals.length > 0);
        const gone = removals[choice % removals.length]!;
        const before = tallyOf(made, made.events);
        const after = tallyOf(
          made,
          made.events.filter((_, index) => index !== gone),
        );
        const key = made.events[gone]!.device;
        // One that is in the patient at the end anyway is in situ with or without that removal.
        const stays = made.left.some(line => line.device === key);
        if (!stays) expect(summary(after)).not.toEqual(summary(before));
        const held = after.entries.filter(
          e => e.device === key && (e.state === 'unaccounted' || e.state.startsWith('in situ')),
        );
        expect(held.length).toBeGreaterThan(0);
        // `left` has no number: of several alike that stay, one more that stays contradicts nothing, but is in the tally.
        const several = made.devices.some(one => one.key === key && one.size > 1);
        const said = after.findings.filter(f => f.severity === 'error');
        const changed = JSON.stringify(summary(after)) !== JSON.stringify(summary(before));
        expect(said.length > 0 || (stays && several && changed)).toBe(true);
      }),
      { numRuns: 150 },
    );
  });

  it('does not depend on the order of lines with different times', () => {
    fc.assert(
      fc.property(casts, steps, fc.array(fc.nat(), { minLength: 60, maxLength: 60 }), (cast, acts, keys) => {
        const made = legalCase(cast, acts);
        const timed = made.events.map((event, index) => ({
          at: `09:${String(index).padStart(2, '0')}`,
          ...event,
        }));
        const shuffled = timed
          .map((event, index) => [keys[index]!, event] as const)
          .sort((a, b) => a[0] - b[0])
          .map(([, event]) => event);
        expect(summary(tallyOf(made, shuffled))).toEqual(summary(tallyOf(made, timed)));
      }),
      { numRuns: 100 },
    );
  });
});
