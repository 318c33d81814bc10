import type { DeviceDetails } from '../../devices/types.js';
import { compareText, type Finding, finding } from '../../findings/finding.js';

/** Where a serial number was seen. */
interface Sighting {
  readonly case: string;
  /** YYYY-MM-DD */
  readonly date: string;
  readonly patient: string;
  readonly device: string;
  readonly carried: boolean;
}

/** Serial numbers of many cases: one names one device, which is in one person and placed once. */
export class SerialsSeen {
  readonly #seen = new Map<string, Sighting[]>();

  /** @param patient any text that stands for the patient within the build */
  add(device: DeviceDetails, at: Omit<Sighting, 'device' | 'carried'>): void {
    const { di, serial, distinct } = device;
    if (di === undefined || serial === undefined) return;
    const key = JSON.stringify([di, serial, distinct ?? '']);
    const sighting = { ...at, device: device.key, carried: device.carried };
    this.#seen.set(key, [...(this.#seen.get(key) ?? []), sighting]);
  }

  /** Findings by case: the same serial number in two people, or placed in two cases of one. */
  findings(): Map<string, Finding[]> {
    const found = new Map<string, Finding[]>();
    for (const [key, sightings] of this.#seen) {
      const [di, serial] = JSON.parse(key) as [string, string];
      const ordered = sightings.toSorted(
        (a, b) => compareText(a.date, b.date) || compareText(a.case, b.case),
      );
      for (const [n, one] of ordered.entries()) {
        const before = ordered
          .slice(0, n)
          .find(other => other.case !== one.case && (other.patient !== one.patient || !one.carried));
        if (!before) continue;
        const params = { device: one.device, di, serial, case: before.case };
        const said = finding('label.serial-other-case', `devices.${one.device}.label`, params);
        found.set(one.case, [...(found.get(one.case) ?? []), said]);
      }
    }
    return found;
  }
}
