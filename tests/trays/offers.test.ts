import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../src/devices/details.js';
import { playEvents } from '../../src/devices/tally/play.js';
import type { Play } from '../../src/devices/tally/state.js';
import type { Offer } from '../../src/trays/offers.js';
import { eventOf } from '../../src/trays/taps.js';
import { traysOf } from '../../src/trays/trays.js';
import { recordOf } from '../cases/record.js';

type Plain = Readonly<Record<string, unknown>>;

const things: readonly Plain[] = [
  { kind: 'access needle' },
  { kind: 'guidewire' },
  { kind: 'guidewire' },
  { kind: 'angiographic catheter' },
  { kind: 'introducer sheath', parts: { dilator: { kind: 'dilator' } } },
  { kind: 'peel-away sheath', parts: { halves: { kind: 'sheath half', count: 2 } } },
  { kind: 'dilator' },
  { kind: 'balloon catheter' },
  { kind: 'stent' },
  { kind: 'ureteric stent' },
  {
    kind: 'locking drain',
    parts: { lock: { kind: 'retention thread' }, stiff: { kind: 'stiffening cannula' } },
  },
  { kind: 'locking drain', carried: { date: '2024-01-05' } },
  { kind: 'caval filter' },
  { kind: 'coil', count: 4 },
  { kind: 'particles', count: 2 },
  { kind: 'snare' },
  { kind: 'balloon gastrostomy tube' },
  { kind: 'drainage bag' },
  { kind: 'angiographic catheter', use: 'unopened' },
  { kind: 'guidewire', use: 'opened unused' },
];

const playOf = (devices: Readonly<Record<string, Plain>>, events: readonly Plain[]): Play => {
  const record = recordOf({ devices, events });
  return playEvents(record, describeDevices(record).devices);
};

const choose = (offer: Offer, pick: number): Plain => {
  const one = (keys: readonly string[] | undefined) => keys?.[pick % (keys.length + 1)];
  return eventOf(offer, '10:00', {
    ...(one(offer.over) !== undefined && { over: one(offer.over) as string }),
    ...(one(offer.through) !== undefined && { through: one(offer.through) as string }),
    ...(offer.replaces && { replaces: offer.replaces[pick % offer.replaces.length] as string }),
    ...(offer.with && { with: offer.with.filter((_, n) => (pick >> n) % 3 === 0) }),
    ...(offer.most !== undefined && { count: 1 + (pick % offer.most) }),
  });
};

/** Which of `things` lie there, and what is tapped: which of the offers, and how. */
const cases = fc.tuple(
  fc.uniqueArray(fc.nat(things.length - 1), { minLength: 1, maxLength: 6 }),
  fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 14 }),
);

const tapped = (cast: readonly number[], taps: readonly (readonly [number, number])[]) => {
  const devices = Object.fromEntries(cast.map(index => [`d${index}`, things[index] ?? {}]));
  let events: readonly Plain[] = [];
  for (const [which, pick] of taps) {
    const offers = traysOf(playOf(devices, events)).flatMap(placed => placed.offers);
    const offer = offers[which % Math.max(1, offers.length)];
    if (!offer) break;
    events = [...events, choose(offer, pick)];
  }
  return { devices, events };
};

describe('what is offered', () => {
  it('is something that the tally follows, whatever was done before', () => {
    fc.assert(
      fc.property(cases, ([cast, taps]) => {
        const { devices, events } = tapped(cast, taps);
        const said = playOf(devices, events).findings.filter(({ severity }) => severity === 'error');
        expect(
          said.map(found => `${found.code} ${found.path}`),
          JSON.stringify(events),
        ).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('is each kind of thing that can be done: the rows above reach them', () => {
    // A fixed seed: what random rows reach differs from run to run.
    const rows = fc.sample(cases, { numRuns: 300, seed: 7 });
    const done = new Set(rows.flatMap(row => tapped(...row).events.map(event => event['do'])));
    expect([...done].sort()).toEqual(
      expect.arrayContaining([
        'deploy',
        'detach',
        'exchange',
        'insert',
        'lock',
        'peel away',
        'puncture',
        'remove',
      ]),
    );
  });

  it('for what came out is how it went in, and no puncture but with needles', () => {
    const devices = {
      needle: { kind: 'access needle' },
      wire: { kind: 'guidewire' },
      dil: { kind: 'dilator' },
    };
    const there = ['needle', 'wire', 'dil'];
    const placed = traysOf(
      playOf(devices, [
        { at: '10:00', do: 'puncture', device: 'needle' },
        { at: '10:01', do: 'insert', device: 'wire', through: 'needle' },
        { at: '10:02', do: 'insert', device: 'dil', over: 'wire' },
        ...[...there].reverse().map(device => ({ at: '10:03', do: 'remove', device })),
      ]),
    );
    const acts = (key: string) => placed.find(({ device }) => device === key)?.offers.map(offer => offer.do);
    expect(there.map(acts)).toEqual([['puncture', 'insert'], ['insert'], ['insert']]);
  });
});
