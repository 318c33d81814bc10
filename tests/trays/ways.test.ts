import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../src/devices/details.js';
import { playEvents } from '../../src/devices/tally/play.js';
import { eventOf, waysIn } from '../../src/trays/taps.js';
import { traysOf } from '../../src/trays/trays.js';
import { recordOf } from '../cases/record.js';

type Plain = Readonly<Record<string, unknown>>;

const devices: Readonly<Record<string, Plain>> = {
  needle: { kind: 'access needle', size: '21 G' },
  wire: { kind: 'guidewire', diameter: '0.035 in' },
  fine: { kind: 'microwire', diameter: '0.016 in' },
  sheath: { kind: 'introducer sheath', size: '7 Fr' },
  cobra: { kind: 'angiographic catheter', size: '5 Fr' },
  micro: { kind: 'microcatheter', size: '2.7 Fr' },
  stent: { kind: 'stent' },
  coil: { kind: 'coil', count: 4 },
  drain: { kind: 'locking drain', size: '10 Fr' },
  biopsy: { kind: 'biopsy needle', size: '18 G' },
};

/** What is offered for a device after some events, by verb. */
function offered(key: string, verb: string, events: readonly Plain[]) {
  const record = recordOf({ devices, events: events.map((event, n) => ({ at: `10:0${n}`, ...event })) });
  const placed = traysOf(playEvents(record, describeDevices(record).devices));
  const offers = placed.filter(({ device }) => device === key).flatMap(one => one.offers);
  const offer = offers.find(one => one.do === verb);
  if (!offer) throw new Error(`${verb} is not offered`);
  return offer;
}
const of = (key: string, verb: string, events: readonly Plain[]) => {
  const { over, through, likely, with: along } = offered(key, verb, events);
  return { over, through, likely, with: along };
};

const coaxial = [
  { do: 'insert', device: 'wire' },
  { do: 'insert', device: 'sheath', over: 'wire' },
  { do: 'insert', device: 'cobra', over: 'wire', through: 'sheath' },
  { do: 'insert', device: 'micro', through: 'cobra' },
];

/* What is usual is common practice, no source. */
describe('what a device is offered to run on', () => {
  it('begins with what is usual for what goes in', () => {
    const punctured = [{ do: 'puncture', device: 'needle' }];
    expect(of('wire', 'insert', punctured).likely).toEqual({ through: 'needle' });
    const wired = [...punctured, { do: 'insert', device: 'wire', through: 'needle' }];
    // A sheath goes over the wire, and not through the needle that is still there; nor does a second needle.
    expect(of('sheath', 'insert', wired).likely).toEqual({ over: 'wire' });
    expect(of('drain', 'insert', wired).likely).toEqual({ over: 'wire' });
    expect(of('cobra', 'insert', coaxial.slice(0, 2)).likely).toEqual({ over: 'wire', through: 'sheath' });
    expect(of('stent', 'insert', coaxial.slice(0, 2)).likely).toEqual({ over: 'wire', through: 'sheath' });
    expect(of('coil', 'insert', coaxial).likely).toEqual({ through: 'micro' });
    expect(of('biopsy', 'puncture', coaxial.slice(0, 1)).likely).toBeUndefined();
  });

  it('is never what runs on it, nor what is known to be too narrow', () => {
    expect(of('cobra', 'remove', coaxial)).toMatchObject({
      ...{ over: ['wire'], through: ['sheath'], likely: { over: 'wire', through: 'sheath' } },
    });
    expect(of('sheath', 'remove', coaxial)).toMatchObject({ over: ['wire'], likely: { over: 'wire' } });
    expect(of('sheath', 'remove', coaxial).through).toBeUndefined();
    // 18 G is 1.27 mm, more than any microcatheter of 2.7 Fr (0.9 mm outside) lets through.
    expect(of('biopsy', 'insert', coaxial).through).not.toContain('micro');
    expect(of('biopsy', 'insert', coaxial).through).toContain('sheath');
  });

  it('is the wire in a needle that comes out of the way', () => {
    const events = [
      { do: 'puncture', device: 'needle' },
      { do: 'insert', device: 'fine', through: 'needle' },
    ];
    expect(of('needle', 'remove', events).likely).toEqual({ over: 'fine' });
  });

  it('is for a wire what was put over it last, and else what it came through', () => {
    const events = [
      { do: 'puncture', device: 'needle' },
      { do: 'insert', device: 'wire', through: 'needle' },
    ];
    expect(of('wire', 'remove', events).likely).toEqual({ through: 'needle' });
    const placed = [
      ...events,
      { do: 'remove', device: 'needle' },
      { do: 'insert', device: 'drain', over: 'wire' },
    ];
    expect(of('wire', 'remove', placed)).toMatchObject({ through: ['drain'], likely: { through: 'drain' } });
    expect(of('wire', 'remove', coaxial).likely).toEqual({ through: 'cobra' });
  });

  it('is nothing for what is inside by itself, whatever moved last', () => {
    const events = [
      { do: 'insert', device: 'drain' },
      { do: 'insert', device: 'wire' },
    ];
    expect(of('drain', 'remove', events)).toMatchObject({ over: ['wire'], likely: undefined });
  });
});

it('is found in no time where everything runs on everything', () => {
  const keys = Array.from({ length: 60 }, (_, n) => `c${n}`);
  const record = recordOf({
    devices: Object.fromEntries(keys.map(key => [key, { kind: 'angiographic catheter' }])),
    events: keys.flatMap((key, n) => [
      { at: '10:00', do: 'insert', device: key },
      { at: '10:01', do: 'advance', device: key, over: keys[(n + 1) % 60], through: keys[(n + 2) % 60] },
    ]),
  });
  const placed = traysOf(playEvents(record, describeDevices(record).devices));
  expect(placed).toHaveLength(60);
});

describe('what moves together', () => {
  it('is free to: what is inside comes out, what lies on the table goes in, one of a kind alone', () => {
    expect(of('micro', 'remove', coaxial).with).toEqual(['cobra', 'sheath', 'wire']);
    const before = coaxial.slice(0, 2);
    expect(of('cobra', 'insert', before).with).toEqual(['needle', 'fine', 'micro', 'biopsy']);
    expect(of('cobra', 'advance', coaxial).with).toEqual(['micro', 'sheath', 'wire']);
    expect(of('drain', 'exchange', [{ do: 'insert', device: 'cobra' }]).with).toBeUndefined();
    const locked = [
      { do: 'insert', device: 'drain' },
      { do: 'lock', device: 'drain' },
      ...coaxial.slice(0, 1),
    ];
    expect(of('wire', 'remove', locked).with).toBeUndefined();
  });

  it('does not come out over what comes out with it', () => {
    const offer = offered('cobra', 'remove', coaxial);
    const chosen = { over: 'wire', through: 'sheath', with: ['wire'] };
    expect(waysIn(offer, chosen)).toEqual({ through: 'sheath', with: ['wire'] });
    expect(eventOf(offer, '10:10', { ...chosen, with: ['sheath', 'wire'] })).toEqual({
      ...{ at: '10:10', do: 'remove', device: 'cobra', with: ['sheath', 'wire'] },
    });
    // What goes in together may well run over it.
    expect(waysIn({ do: 'insert' }, { over: 'wire', with: ['wire'] })).toEqual({
      over: 'wire',
      with: ['wire'],
    });
    expect(eventOf(offer, '10:10', { with: [] })).toEqual({ at: '10:10', do: 'remove', device: 'cobra' });
  });
});
