import { aftercareOf } from '../../../src/clinical/aftercare/aftercare.js';
import type { Assessment } from '../../../src/clinical/assessment.js';
import { describeDevices } from '../../../src/devices/details.js';
import type { EndState, TallyEntry } from '../../../src/devices/types.js';
import type { Finding } from '../../../src/findings/finding.js';
import { message } from '../../../src/findings/message.js';
import { parseCase } from '../../../src/record/parse.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';

/** Reads a case that must be readable. */
export function read(text: string): CaseRecord {
  const parsed = parseCase(text);
  if (!parsed.record) throw new Error(JSON.stringify(parsed.findings, null, 1));
  return parsed.record;
}

/**
 * An assessment written out by hand for these tests: what the report is given, not how it is worked out.
 * @param states end state by device key, or `device.part`
 */
export function assessment(
  record: CaseRecord,
  states: Readonly<Record<string, EndState>> = {},
  findings: readonly Finding[] = [],
): Assessment {
  const { devices } = describeDevices(record);
  const left = record.left === 'none' ? [] : (record.left ?? []);
  const entries = Object.entries(states).map(([path, state]): TallyEntry => {
    const [device = '', part] = path.split('.');
    const index = (record.events ?? []).findLastIndex(e => e.device === device && e.part === part);
    const event = record.events?.[index];
    const leftIndex = left.findIndex(entry => entry.device === device && entry.part === part);
    const leftEntry = left[leftIndex];
    return {
      device,
      ...(part !== undefined && { part }),
      name: device,
      state,
      why: message('end.on', { device: path }),
      ...(event && { event: { index, path: `events[${index}]`, event } }),
      count: 1,
      carried: false,
      ...(leftEntry && { left: { index: leftIndex, entry: leftEntry } }),
    };
  });
  return {
    devices,
    tally: { entries, findings: [] },
    aftercare: aftercareOf(record),
    calculations: [],
    notChecked: [],
    allergies: [],
    findings,
  };
}

/** The states of `fullCase`. */
export const fullStates: Readonly<Record<string, EndState>> = {
  needle: 'removed intact',
  stiff: 'removed intact',
  balloon: 'removed with a part missing',
  stent: 'in situ intended',
  drain: 'in situ temporary',
  'drain.lock': 'retained unintended',
  spheres: 'discarded unused opened',
  old: 'removed intact',
};
