import type { DeviceDetails } from '../../devices/types.js';
import { compareText, type Finding, finding } from '../../findings/finding.js';

/** Where a serial number was seen. */
export interface Sighting {
  readonly di: string;
  readonly serial: string;
  readonly case: string;
  /** YYYY-MM-DD */
  readonly date: string;
  readonly patient: string;
  readonly device: string;
  readonly carried: boolean;
}

/**
 * The serial number of a device as it was seen in a case; undefined for a device without one.
 * @param at `patient`: any text that stands for the patient within the build
 * @returns `key` is the same wherever it is the same device
 */
export function sightingOf(
  device: DeviceDetails,
  at: Pick<Sighting, 'case' | 'date' | 'patient'>,
): { readonly key: string; readonly sighting: Sighting } | undefined {
  const { di, serial, distinct } = device;
  if (di === undefined || serial === undefined) return undefined;
  const sighting = { di, serial, ...at, device: device.key, carried: device.carried };
  return { key: JSON.stringify([di, serial, distinct ?? '']), sighting };
}

/**
 * Serial numbers of many cases: one names one device, which is in one person and placed once.
 * @param sightings all of one serial number
 * @returns by case: the same serial number in two people, or placed in two cases of one
 */
export function serialFindings(sightings: readonly Sighting[]): (readonly [string, Finding])[] {
  const ordered = sightings.toSorted((a, b) => compareText(a.date, b.date) || compareText(a.case, b.case));
  // The first that contradicts a later one is one of three, so that nobody need be held against everybody.
  const [first] = ordered;
  const before: Sighting[] = [];
  const found: [string, Finding][] = [];
  for (const one of ordered) {
    const other = before.find(
      ({ case: of, patient }) => of !== one.case && (patient !== one.patient || !one.carried),
    );
    if (other) {
      const params = { device: one.device, di: one.di, serial: one.serial, case: other.case };
      found.push([one.case, finding('label.serial-other-case', `devices.${one.device}.label`, params)]);
    }
    const isNew = (what: 'case' | 'patient') =>
      one[what] !== first?.[what] && before.every(seen => seen[what] === first?.[what]);
    if (one === first || isNew('case') || isNew('patient')) before.push(one);
  }
  return found;
}
