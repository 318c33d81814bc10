import type { DeviceDetails, DeviceTally } from '../devices/types.js';
import type { Finding } from '../findings/finding.js';
import type { AftercareItem } from './aftercare.js';

/** Everything worked out from a case record: what the report, the resources and the findings are made of. */
export interface Assessment {
  /** By device key, in the order of the record. */
  readonly devices: ReadonlyMap<string, DeviceDetails>;
  readonly tally: DeviceTally;
  readonly aftercare: readonly AftercareItem[];
  readonly findings: readonly Finding[];
}
