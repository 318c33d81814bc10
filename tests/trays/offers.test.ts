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
    ...(offer.most !== undefined && { count: 1 + (pick % offer.most) }),
  });
};

describe('what is offered', () => {
  it('is something that the tally follows, whatever was done before', () => {
    const done = new Set<string>();
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.nat(things.length - 1), { minLength: 1, maxLength: 6 }),
        fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 14 }),
        (cast, taps) => {
          const devices = Object.fromEntries(cast.map(index => [`d${index}`, things[index] ?? {}]));
          let events: readonly Plain[] = [];
          for (const [which, pick] of taps) {
            const offers = traysOf(playOf(devices, events)).flatMap(placed => placed.offers);
            const offer = offers[which % Math.max(1, offers.length)];
            if (!offer) return;
            events = [...events, choose(offer, pick)];
            done.add(offer.do);
          }
          const said = playOf(devices, events).findings.filter(({ severity }) => severity === 'error');
          expect(
            said.map(found => `${found.code} ${found.path}`),
            JSON.stringify(events),
          ).toEqual([]);
        },
      ),
      { numRuns: 300 },
    );
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
});
