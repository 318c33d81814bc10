import type { deviceFamilies } from '../../record/schema/devices.js';
import { listOf } from '../names.js';

type DeviceFamily = (typeof deviceFamilies)[number];

/** What the trade means by the French number of a kind: its outside, or what passes through it. */
export type FrenchMeans = 'outer' | 'lumen';

/**
 * What a rule needs to know of a device beside its family.
 * - `balloon-held`: stays where it is by its own balloon
 * - `locking`: held by a loop that a thread locks
 * - `peelable`: comes apart along its length
 * - `guiding`: other devices run through it; the largest wire stated is not its lumen
 * - `ureteric`: lies in the ureter from end to end, and is chosen by its length
 * - `rapid exchange`: a short part of it runs on the wire
 * - `thin wall`, `regular wall`: of a needle
 */
export type Trait =
  | 'balloon-held'
  | 'locking'
  | 'peelable'
  | 'guiding'
  | 'ureteric'
  | 'rapid exchange'
  | 'thin wall'
  | 'regular wall';

/** One kind of device. */
export interface DeviceKind {
  /** As written in a record. */
  readonly name: string;
  readonly family: DeviceFamily;
  /** Meant to stay for longer than the case, unless the record says otherwise. */
  readonly implant: boolean;
  readonly french: FrenchMeans;
  /** Used by number (coils, vials, swabs); a record usually says how many. */
  readonly counted: boolean;
  /** Stays outside the patient, or on the skin: nothing of it needs a way out. */
  readonly outside: boolean;
  readonly traits: readonly Trait[];
  readonly aliases: readonly string[];
}

const traitMarks: Readonly<Record<string, Trait>> = {
  b: 'balloon-held',
  k: 'locking',
  p: 'peelable',
  g: 'guiding',
  u: 'ureteric',
  r: 'rapid exchange',
  t: 'thin wall',
};

/**
 * One row. Marks: i implant, l French is the lumen, n counted, o outside the patient; k locking loop, b held by a
 * balloon, p peels away, g guides others, u lies in the ureter, r rapid exchange, t thin wall.
 */
export function k(name: string, family: DeviceFamily, marks = '', aliases = ''): DeviceKind {
  return {
    name,
    family,
    implant: marks.includes('i'),
    french: marks.includes('l') ? 'lumen' : 'outer',
    counted: marks.includes('n'),
    outside: marks.includes('o'),
    traits: [...marks].flatMap(mark => traitMarks[mark] ?? []),
    aliases: listOf(aliases),
  };
}
