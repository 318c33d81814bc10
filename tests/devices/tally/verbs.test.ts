import { describe, expect, it } from 'vitest';
import { entersByItself, type Verb } from '../../../src/devices/tally/verbs.js';
import { deviceFamilies, eventVerbs } from '../../../src/record/schema/devices.js';
import { accountOf } from './account.js';

/** Codes and places of what is said of one event at 09:00, and whether the catheter came to be inside. */
function askedBy(event: Record<string, unknown>) {
  const { said, marks } = accountOf({
    devices: { cath: { kind: 'catheter' }, wire: { kind: 'guidewire' } },
    events: [{ at: '09:00', ...event }],
  });
  const about = said.filter(line => line.includes(' events[0]')).map(line => line.split(/[ :]/)[1]);
  return { said: about, enters: marks.some(line => line.startsWith('in 1 cath')) };
}

/**
 * What each verb asks of the record: that it names a device, that the device is inside, and that the wire which it ran
 * over is. Common practice, no source.
 */
const asks: Record<Verb, string> = {
  puncture: 'wire',
  insert: 'device, wire',
  advance: 'device, inside, wire',
  withdraw: 'device, inside, wire',
  remove: 'device, inside, wire',
  exchange: 'device, what came out, wire',
  reposition: 'device, inside, wire',
  inflate: 'device, inside, wire',
  deflate: 'device, inside, wire',
  deploy: 'device, inside, wire',
  detach: 'device, inside, wire',
  capture: 'device, inside, wire',
  retrieve: 'device, inside, wire',
  cut: 'device, wire',
  fracture: 'device, wire',
  'peel away': 'device, inside, wire',
  lock: 'device, inside, wire',
  unlock: 'device, inside, wire',
  release: 'device, inside, wire',
  set: 'device, inside, wire',
  flush: 'wire',
  aspirate: 'inside, wire',
  sample: 'inside, wire',
  inject: 'inside, wire',
  image: '',
  measure: '',
  attempt: 'wire',
  cross: 'inside, wire',
  open: 'device',
  discard: 'device',
  lose: 'device, inside',
  count: '',
  ablate: 'inside, wire',
  tunnel: 'wire',
  compress: '',
  resuscitate: '',
  'hand over': '',
  note: '',
};

describe('what an event asks of the record', () => {
  it.each(eventVerbs)('%s', verb => {
    const codes: Record<string, string> = {
      'tally.not-inserted': 'inside',
      'tally.exchange-unsaid': 'what came out',
      'tally.over-not-inside': 'wire',
      'tally.no-wire': 'wire',
    };
    const alone = askedBy({ do: verb }).said.includes('tally.no-device') ? ['device'] : [];
    const named = askedBy({ do: verb, device: 'cath' }).said;
    const over = askedBy({ do: verb, device: 'cath', over: 'wire' }).said.filter(
      code => !named.includes(code),
    );
    const rest = [...named, ...over]
      .filter(code => code !== 'tally.unaccounted')
      .map(code => codes[code!] ?? code);
    expect([...alone, ...rest].join(', ')).toBe(asks[verb]);
  });

  it('puts a catheter in by what enters, and by being moved on inside', () => {
    const entering = eventVerbs.filter(verb => askedBy({ do: verb, device: 'cath' }).enters);
    expect(entering).toEqual(['puncture', 'insert', 'advance', 'exchange', 'cross']);
  });
});

// Common practice, no source: a stent deployed or a coil detached is in, particles are in once they are injected.
it('takes for placed by the verb alone only what is made to be set free inside', () => {
  const placing = (verb: Verb) => deviceFamilies.filter(family => entersByItself(verb, family));
  const setFree = ['stent', 'filter', 'embolic', 'closure', 'anchor'];
  expect(Object.fromEntries(eventVerbs.map(verb => [verb, placing(verb)]))).toEqual({
    ...Object.fromEntries(eventVerbs.map(verb => [verb, []])),
    puncture: [...deviceFamilies],
    insert: [...deviceFamilies],
    exchange: [...deviceFamilies],
    deploy: setFree,
    detach: setFree,
    release: setFree,
    inject: ['embolic'],
  });
});
