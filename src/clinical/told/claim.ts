import type { DeviceDetails } from '../../devices/types.js';
import type { Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Figure } from './figure.js';
import type { Told } from './texts.js';

/** A recorded value, and where it stands. */
export interface Recorded {
  readonly quantity: Quantity;
  readonly place: string;
}

/** A figure in its clause. */
export interface Spot {
  readonly told: Told;
  readonly clause: string;
  readonly figure: Figure;
  readonly before: string;
  readonly after: string;
}

export interface Case {
  readonly record: CaseRecord;
  readonly devices: ReadonlyMap<string, DeviceDetails>;
}

/** What a figure in a text is about: the recorded values of which it must be one. Absent: not about these. */
export type Claim = (spot: Spot, of: Case) => readonly Recorded[] | undefined;
