import type { CatalogueDetails } from '../../../src/devices/catalogue/row.js';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import type { LabelOptions } from '../../../src/devices/labels/types.js';
import type { Finding } from '../../../src/findings/finding.js';
import { scanContribution } from '../../../src/intake/scan/contribution.js';
import { devicesIn } from '../../../src/intake/scan/there.js';
import {
  type ScannedDevice,
  type ScanOutcome,
  type ScanTray,
  scanned,
} from '../../../src/intake/scan/tray.js';
import { bringIn } from '../../../src/pipeline/intake/bring-in.js';
import { isGroup, treeIn, valueAt } from '../../../src/record/tree.js';
import type { Site } from '../../../src/site/site.js';

/** What of scanning is not in the record yet. */
export interface OpenScan {
  /** Symbols that wait for the one with the device identifier. */
  readonly waiting: readonly string[];
  /** A device of which nobody has said what it is. */
  readonly unnamed?: ScannedDevice;
  /** Key of the device whose label came again; '' for one that is not in the record yet. */
  readonly asked?: string;
}

/** What is scanned, and into what. */
export interface ScanGiven {
  readonly text: string;
  readonly open: OpenScan;
  readonly line: string;
  /** Milliseconds since 1970. */
  readonly now: number;
  /** What the catalogue of the site knows of the device. */
  readonly rows?: readonly CatalogueDetails[];
}

/** What became of one line of a scanner. */
export interface ScanStep {
  readonly open: OpenScan;
  readonly outcome: Exclude<ScanOutcome['kind'], 'asks' | 'not-read'> | 'asks' | 'same-serial' | 'not-read';
  /** The device that it is about, where it is in the record. */
  readonly key?: string;
  /** What its label says: identifier, lot, serial number. */
  readonly label?: string;
  /** The record with it; absent where nothing changes. */
  readonly text?: string;
  readonly findings: readonly Finding[];
}

/**
 * One line of a scanner, or `yes`, `no` or a kind of device to a question, held against the record: what was scanned
 * before, here or on another device, is what the record has labels of.
 */
export function scanInto({ text, open, line, now: moment, rows = [] }: ScanGiven, site: Site): ScanStep {
  const now = new Date(moment).toISOString();
  const { separators } = site.devices;
  const labels: LabelOptions = {
    ...{ today: now.slice(0, 10), entry: 'scan' },
    ...(separators && { separatorAliases: separators }),
  };
  const there = devicesIn(text, labels);
  const before = labelled(text, labels);
  const keys: (string | undefined)[] = before.map(({ key }) => key);
  const devices = [...before.map(({ device }) => device), ...(open.unnamed ? [open.unnamed] : [])];
  const asked = open.asked === undefined ? -1 : open.asked === '' ? before.length : keys.indexOf(open.asked);
  const tray: ScanTray = { devices, waiting: open.waiting, ...(asked >= 0 && { asked }) };
  const step = scanned(tray, line, { ...labels, known: there.serials });
  const { outcome } = step;
  const at = 'device' in outcome && outcome.device >= 0 ? outcome.device : undefined;
  const device = at === undefined ? undefined : step.tray.devices[at];
  const key = at === undefined ? undefined : keys[at];
  const told = {
    ...(key !== undefined && { key }),
    ...(device && { label: numbersOf(device) }),
  };
  const rest = { waiting: step.tray.waiting };
  if (outcome.kind === 'asks')
    return {
      open: { ...rest, ...unnamedOf(open), ...(outcome.serial ? {} : { asked: key ?? '' }) },
      ...{ outcome: outcome.serial ? 'same-serial' : 'asks', findings: [], ...told },
    };
  const findings = outcome.kind === 'not-read' ? outcome.findings : (device?.label.findings ?? []);
  if (!device) return { open: { ...rest, ...unnamedOf(open) }, outcome: outcome.kind, findings, ...told };
  const others = there.devices
    .filter(other => key === undefined || other.key === key)
    .map(other => (other.key === key ? { ...other, identified: false } : other));
  const alone = { devices: [device], waiting: [] };
  const scans = scanContribution(alone, others, new Map(rows.map(row => [row.di, row])), now);
  const [written] = scans.keys;
  if (written === undefined)
    return { open: { ...rest, unnamed: device }, outcome: outcome.kind, findings, ...told };
  const brought = bringIn(text, { contributions: [scans.contribution], kits: [] }, site, now);
  return {
    open: rest,
    outcome: outcome.kind,
    ...{ ...told, key: written, findings: [...findings, ...brought.findings] },
    ...(brought.text !== undefined && brought.text !== text && { text: brought.text }),
  };
}

const unnamedOf = ({ unnamed }: OpenScan) => (unnamed ? { unnamed } : {});

const numbersOf = ({ label }: ScannedDevice) =>
  [label.di, label.lot && `LOT ${label.lot}`, label.serial && `SN ${label.serial}`]
    .filter(one => one)
    .join(', ');

/** Devices of the record that have a label, as if they had been scanned just now. */
function labelled(
  text: string,
  options: LabelOptions,
): { readonly key: string; readonly device: ScannedDevice }[] {
  const list = valueAt(treeIn(text), ['devices']);
  if (!isGroup(list)) return [];
  return Object.entries(list).flatMap(([key, entry]) => {
    const label = valueAt(entry, ['label']);
    if (typeof label !== 'string') return [];
    const kind = valueAt(entry, ['kind']);
    const device: ScannedDevice = {
      symbols: label.split('\n'),
      label: decodeLabel(label, options),
      count: Number(valueAt(entry, ['count']) ?? 1),
      ...(typeof kind === 'string' && { kind }),
    };
    return [{ key, device }];
  });
}
