import type { LabelledDevice } from './labels/case-findings.js';
import { type DeviceDetails, type DeviceTally, isInside } from './types.js';

/** The devices of a case as the checks on labels need them: what was used, what stays, what came from before. */
export function labelledDevices(
  devices: ReadonlyMap<string, DeviceDetails>,
  tally: DeviceTally,
): LabelledDevice[] {
  return [...devices.values()].map(device => {
    const rows = tally.entries.filter(entry => entry.device === device.key && entry.part === undefined);
    const { di, lot, serial, expires, distinct } = device;
    return {
      key: device.key,
      path: `devices.${device.key}`,
      ...(di !== undefined && { di }),
      ...(lot !== undefined && { lot }),
      ...(serial !== undefined && { serial }),
      ...(expires !== undefined && { expires }),
      ...(distinct !== undefined && { distinct }),
      implant: device.implant,
      leftInSitu: rows.some(row => isInside(row.state)),
      // What an earlier case opened, and what was put back unopened, is not used up in this one.
      used: !device.carried && rows.some(row => row.state !== 'discarded unused unopened'),
    };
  });
}
