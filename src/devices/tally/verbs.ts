import type { CaseEvent } from '../../record/schema/record.js';
import type { DeviceFamily } from '../types.js';

export type Verb = CaseEvent['do'];

/** What a verb does to the device it names. */
export interface VerbRow {
  /**
   * `enters`, `leaves`, `swaps` (exchange); `enters-if-placed`: entry in itself for what is set free inside
   * (stents, coils, particles), else only for what is inside; `inside`: only for what is inside; `any`.
   */
  readonly effect: 'enters' | 'enters-if-placed' | 'leaves' | 'swaps' | 'inside' | 'any';
  /** An event with this verb and no device says nothing that can be followed. */
  readonly needsDevice: boolean;
  /** `over` and `through` say where it runs at that moment. */
  readonly runs: boolean;
}

const row = (effect: VerbRow['effect'], needsDevice = true, runs = true): VerbRow => ({
  effect,
  needsDevice,
  runs,
});

const INSIDE = 'inside';

/** Every verb of the record. */
export const verbs: Readonly<Record<Verb, VerbRow>> = {
  puncture: row('enters', false),
  insert: row('enters'),
  advance: row(INSIDE),
  withdraw: row(INSIDE),
  remove: row('leaves'),
  exchange: row('swaps'),
  reposition: row(INSIDE),
  inflate: row(INSIDE),
  deflate: row(INSIDE),
  deploy: row('enters-if-placed'),
  detach: row('enters-if-placed'),
  capture: row(INSIDE),
  retrieve: row('leaves'),
  cut: row('any'),
  fracture: row('any'),
  'peel away': row('leaves'),
  lock: row(INSIDE),
  unlock: row(INSIDE),
  release: row('enters-if-placed'),
  set: row(INSIDE),
  flush: row('any', false),
  aspirate: row(INSIDE, false),
  sample: row(INSIDE, false),
  inject: row('enters-if-placed', false),
  image: row('any', false, false),
  measure: row('any', false, false),
  attempt: row('any', false),
  cross: row(INSIDE, false),
  open: row('any', true, false),
  discard: row('any', true, false),
  lose: row('any', true, false),
  count: row('any', false, false),
  ablate: row(INSIDE, false),
  tunnel: row('any', false),
  compress: row('any', false, false),
  resuscitate: row('any', false, false),
  'hand over': row('any', false, false),
  note: row('any', false, false),
};

const placed: ReadonlySet<DeviceFamily> = new Set(['stent', 'filter', 'embolic', 'closure', 'anchor']);

/** True when the verb alone puts the device into the patient: a coil deployed, particles injected. */
export function entersByItself(verb: Verb, family: DeviceFamily): boolean {
  if (verbs[verb].effect === 'enters' || verbs[verb].effect === 'swaps') return true;
  if (verbs[verb].effect !== 'enters-if-placed') return false;
  return verb === 'inject' ? family === 'embolic' : placed.has(family);
}
