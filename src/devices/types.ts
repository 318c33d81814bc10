import type { Finding } from '../findings/finding.js';
import type { Message, Param } from '../findings/message.js';
import type { Quantity, Size } from '../record/quantity.js';
import type { deviceFamilies } from '../record/schema/devices.js';
import type { Coded } from '../record/schema/fields.js';
import type { CaseEvent, DeviceEntry, LeftEntry, MissingEntry } from '../record/schema/record.js';
import type { Moment } from '../record/time.js';
import type { Trait } from '../trade/devices/kind.js';
import type { CatalogueRow } from './catalogue/row.js';
import type { DecodedLabel } from './labels/types.js';

export type DeviceFamily = (typeof deviceFamilies)[number];

/** One device of the record with what its label and the catalogue add; the one description used downstream. */
export interface DeviceDetails {
  /** Key in the record's `devices`. */
  readonly key: string;
  readonly entry: DeviceEntry;
  readonly kind: string;
  /** Name of its row in the table of kinds; absent for a kind that is not there. */
  readonly row?: string;
  readonly traits: ReadonlySet<Trait>;
  readonly family: DeviceFamily;
  /** For people: `8.5 Fr drainage catheter, 35 cm`. */
  readonly name: string;
  /** The same for messages, which say it in any language. */
  readonly said: Param;
  /** The name, with a number where several devices of the case have the same: for reports and notes, never the key. */
  readonly called: Param;
  readonly description?: string;
  readonly maker?: string;
  readonly model?: string;
  readonly reference?: string;
  readonly size?: Size;
  /** Outer diameter, or for a sheath what passes through it, as the trade states it. */
  readonly diameter?: Quantity;
  readonly length?: Quantity;
  /** UDI device identifier. */
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  /** YYYY-MM-DD or YYYY-MM. */
  readonly expires?: string;
  /** YYYY-MM-DD or YYYY-MM. */
  readonly manufactured?: string;
  /** Donation identification number of a product of human origin. */
  readonly distinct?: string;
  readonly label?: DecodedLabel;
  /** Its row in the site's catalogue. */
  readonly listed?: CatalogueRow;
  readonly mri?: string;
  /** Meant to stay in the body for longer than the case. */
  readonly implant: boolean;
  /** How many alike. */
  readonly count: number;
  /** Brought in by an earlier case. */
  readonly carried: boolean;
  /** Stays outside the patient, or on the skin, by its kind (drainage bag, stopcock). */
  readonly outside?: boolean;
}

/** Where a device, or a part of one, is at the end of the case. */
export type EndState =
  | 'in situ intended'
  | 'in situ temporary'
  | 'removed intact'
  | 'removed in pieces, complete'
  | 'removed in pieces, incomplete'
  | 'removed with a part missing'
  | 'discarded unused opened'
  | 'discarded unused unopened'
  | 'retained unintended'
  | 'missing'
  | 'unaccounted';

/** True for states in which the thing is known to be inside the patient. */
export function isInside(state: EndState): boolean {
  return state === 'in situ intended' || state === 'in situ temporary' || state === 'retained unintended';
}

/** True for what came out without a part of it. */
export function isIncomplete(state: EndState): boolean {
  return state === 'removed with a part missing' || state === 'removed in pieces, incomplete';
}

/** True where nobody knows whether it is inside: nothing is recorded of it, or it was searched for and not found. */
export function isOpen(state: EndState): boolean {
  return state === 'unaccounted' || state === 'missing';
}

/** The event that made a state so. */
export interface TallyEvent {
  /** Place in the record's `events`. */
  readonly index: number;
  /** `events[7]`. */
  readonly path: string;
  readonly event: CaseEvent;
}

/** The account of one device, or of one part of it. */
export interface TallyEntry {
  readonly device: string;
  /** Key of the part; absent for the device itself. */
  readonly part?: string;
  /** For people: `8.5 Fr drainage catheter, 35 cm`, or `retention thread of drain`. */
  readonly name: Param;
  readonly state: EndState;
  /** Why: `removed over the wire at 09:08`. */
  readonly why: Message;
  /** The event that made the state so; absent when none did (unused, carried and untouched, unaccounted). */
  readonly event?: TallyEvent;
  /** First entry into the patient in this case; absent for one carried in, or never in. */
  readonly inserted?: Moment;
  /** When it came out for the last time. */
  readonly removed?: Moment;
  /** How many of a counted device are in this state. */
  readonly count: number;
  readonly carried: boolean;
  /** Where it lies, for what is inside. */
  readonly site?: Coded;
  /** Entry of the record's `left` that speaks of it, and its place there. */
  readonly left?: { readonly index: number; readonly entry: LeftEntry };
  /** Entry of the record's `missing` that speaks of it, and its place there. */
  readonly missing?: { readonly index: number; readonly entry: MissingEntry };
}

/** The account of every device and part of the case. */
export interface DeviceTally {
  /** In the order of the record: each device, then its parts. A counted device may have several rows. */
  readonly entries: readonly TallyEntry[];
  readonly findings: readonly Finding[];
}
