import type { CaseEvent } from '../../record/schema/record.js';
import type { DeviceFamily } from '../types.js';

export type Verb = CaseEvent['do'];

/** What a verb does to the device it names. */
export interface VerbRow {
  /** For messages: `is inflated at 09:46`. */
  readonly done: string;
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

const row = (done: string, effect: VerbRow['effect'], needsDevice = true, runs = true): VerbRow => ({
  done,
  effect,
  needsDevice,
  runs,
});

/** Every verb of the record. */
export const verbs: Readonly<Record<Verb, VerbRow>> = {
  puncture: row('used to puncture', 'enters', false),
  insert: row('inserted', 'enters'),
  advance: row('advanced', 'inside'),
  withdraw: row('withdrawn', 'inside'),
  remove: row('removed', 'leaves'),
  exchange: row('exchanged in', 'swaps'),
  reposition: row('repositioned', 'inside'),
  inflate: row('inflated', 'inside'),
  deflate: row('deflated', 'inside'),
  deploy: row('deployed', 'enters-if-placed'),
  detach: row('detached', 'enters-if-placed'),
  capture: row('captured', 'inside'),
  retrieve: row('retrieved', 'leaves'),
  cut: row('cut', 'any'),
  fracture: row('broken', 'any'),
  'peel away': row('peeled away', 'leaves'),
  lock: row('locked', 'inside'),
  unlock: row('unlocked', 'inside'),
  release: row('released', 'enters-if-placed'),
  set: row('set', 'inside'),
  flush: row('flushed', 'any', false),
  aspirate: row('aspirated', 'inside', false),
  sample: row('used to sample', 'inside', false),
  inject: row('injected', 'enters-if-placed', false),
  image: row('imaged', 'any', false, false),
  measure: row('used to measure', 'any', false, false),
  attempt: row('attempted', 'any', false),
  cross: row('passed across', 'inside', false),
  open: row('opened', 'any', true, false),
  discard: row('discarded', 'any', true, false),
  lose: row('lost', 'any', true, false),
  count: row('counted', 'any', false, false),
  note: row('noted', 'any', false, false),
};

const placed: ReadonlySet<DeviceFamily> = new Set(['stent', 'filter', 'embolic', 'closure', 'anchor']);

/** True when the verb alone puts the device into the patient: a coil deployed, particles injected. */
export function entersByItself(verb: Verb, family: DeviceFamily): boolean {
  if (verbs[verb].effect === 'enters' || verbs[verb].effect === 'swaps') return true;
  if (verbs[verb].effect !== 'enters-if-placed') return false;
  return verb === 'inject' ? family === 'embolic' : placed.has(family);
}
