import type { NotChecked } from '../devices/sizes/context.js';
import type { DeviceDetails, DeviceTally } from '../devices/types.js';
import type { Finding } from '../findings/finding.js';
import type { AftercareItem } from './aftercare/aftercare.js';
import type { Calculation } from './calculation.js';
import type { FoundAllergy } from './drugs/reactions.js';

/** Everything worked out from a case record: what the report, the resources and the findings are made of. */
export interface Assessment {
  /** By device key, in the order of the record. */
  readonly devices: ReadonlyMap<string, DeviceDetails>;
  readonly tally: DeviceTally;
  readonly aftercare: readonly AftercareItem[];
  /** Figures worked out from the record, each with its inputs and source. */
  readonly calculations: readonly Calculation[];
  /** Size checks that could not be made, and why. */
  readonly notChecked: readonly NotChecked[];
  /** Allergies that reactions of this case showed. */
  readonly allergies: readonly FoundAllergy[];
  readonly findings: readonly Finding[];
}
