import { rowsOf } from '../devices/by-device.js';
import { isInside, isOpen, type TallyEntry } from '../devices/types.js';
import type { MappingContext } from './context.js';

/** What the tally says of a device (or, with `part`, of one part of it). */
export interface DeviceState {
  readonly rows: readonly TallyEntry[];
  /** Known to be inside; what is unaccounted for or missing is not. */
  readonly inside: boolean;
  readonly unaccounted: boolean;
  /** Was in the patient before the case. */
  readonly carried: boolean;
  /** It was never in the patient: unopened, or opened and discarded. */
  readonly unused: boolean;
  readonly inserted?: string;
  readonly removed?: string;
}

/** Sums up the tally rows of a device or part. */
export function stateOf(context: MappingContext, device: string, part?: string): DeviceState {
  const rows = rowsOf(context.assessment.tally, device).filter(row => row.part === part);
  const inserted = rows.find(row => row.inserted)?.inserted?.iso;
  const removed = rows.findLast(row => row.removed)?.removed?.iso;
  const unused = rows.length > 0 && rows.every(row => row.state.startsWith('discarded unused'));
  return {
    rows,
    inside: rows.some(row => isInside(row.state)),
    unaccounted: rows.some(row => isOpen(row.state)),
    carried: rows.some(row => row.carried) || context.assessment.devices.get(device)?.carried === true,
    unused,
    ...(inserted !== undefined && { inserted }),
    ...(removed !== undefined && { removed }),
  };
}
