import type { CatalogueDetails } from '../../devices/catalogue/row.js';
import { sameDeviceKind } from '../../trade/devices/table.js';
import type { Contribution, GivenValue } from '../contribution.js';
import { deviceKey } from '../device-key.js';
import type { ScannedDevice, ScanTray } from './tray.js';

/** A device that the record has already, as far as a scan may be of it. */
export interface DeviceThere {
  readonly key: string;
  readonly kind?: string;
  readonly reference?: string;
  /** True where it has a label, an identifier, a lot or a serial number, or came from before: it is no other. */
  readonly identified: boolean;
}

/** What scanning gives to a record. */
export interface Scans {
  readonly contribution: Contribution;
  /** What each device of the tray is called in the record, in its order; undefined where nobody said what it is. */
  readonly keys: readonly (string | undefined)[];
}

/**
 * Scanned devices as devices of a record. A label goes to the one device there that it can be of, put on the table by a
 * kit for instance; else it is a device of its own. What a device is comes from whoever scanned it, else the catalogue;
 * one that nobody names is left out, as a record has no device without a kind.
 * @param rows of the catalogue, by device identifier
 * @param at when it was scanned, ISO 8601 with offset
 */
export function scanContribution(
  tray: ScanTray,
  there: readonly DeviceThere[],
  rows: ReadonlyMap<string, CatalogueDetails>,
  at: string,
): Scans {
  const used = new Set(there.map(({ key }) => key));
  const free = there.filter(({ identified }) => !identified);
  const placed = tray.devices.map(device => {
    const row = rows.get(device.label.di ?? '');
    const kind = device.kind ?? row?.kind ?? row?.description;
    if (kind === undefined) return undefined;
    const fitting = free.filter(
      other =>
        other.kind !== undefined &&
        sameDeviceKind(other.kind, kind) &&
        (row?.reference === undefined || other.reference === undefined || other.reference === row.reference),
    );
    const [only] = fitting;
    const own = only && fitting.length === 1 ? only : undefined;
    if (own) free.splice(free.indexOf(own), 1);
    // Where the catalogue has no kind, its description was taken for one.
    const description = row?.description === kind ? undefined : row?.description;
    return { device, kind, description, key: own?.key ?? deviceKey(kind, used), isThere: own !== undefined };
  });
  const values = placed.flatMap(one => {
    if (!one) return [];
    const { device, kind, description, key, isThere } = one;
    const set = (name: string, value: string): GivenValue => ({
      ...{ path: ['devices', key, name], value, as: 'set' },
      said: device.symbols.join(' '),
    });
    return [
      ...(isThere ? [] : [set('kind', kind)]),
      ...(isThere || description === undefined ? [] : [set('description', description)]),
      set('label', labelText(device)),
      ...(device.count > 1 ? [set('count', `${device.count}`)] : []),
    ];
  });
  return {
    contribution: { from: 'scan', at, values, findings: [] },
    keys: placed.map(one => one?.key),
  };
}

/** As it was scanned; of two symbols of one label, both. */
const labelText = ({ symbols, label }: ScannedDevice): string =>
  symbols.length === 1
    ? (symbols[0] ?? '')
    : ((label.issuer === 'gs1' ? label.carrierHRF : undefined) ?? symbols.join('\n'));
