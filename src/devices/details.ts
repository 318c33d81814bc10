import { type Finding, finding } from '../findings/finding.js';
import { message, type Param } from '../findings/message.js';
import { grouped } from '../record/grouped.js';
import { printQuantity, type Quantity, readQuantity, readSize, type Size } from '../record/quantity.js';
import type { CaseRecord, DeviceEntry } from '../record/schema/record.js';
import type { When } from '../record/time.js';
import type { DeviceKind } from '../trade/devices/kind.js';
import { traitsOf } from '../trade/devices/traits.js';
import type { Match } from '../trade/names.js';
import { mergeDetails, type TypedDetails } from './catalogue/merge.js';
import type { CatalogueRow } from './catalogue/row.js';
import { kindNamed, kindOfFamily, type SiteKind, suggestKind } from './kinds.js';
import { decodeLabel } from './labels/decode.js';
import { typedIdentifierFindings } from './labels/typed.js';
import type { LabelOptions } from './labels/types.js';
import type { DeviceDetails } from './types.js';

/** What describing devices needs besides the record. */
export interface DetailOptions {
  /** YYYY-MM-DD: two-digit years on labels are placed in the century nearest to it; the day of the case when absent. */
  readonly today?: string;
  /** Kinds that the site adds to the built-in table. */
  readonly siteKinds?: readonly SiteKind[];
  /** Rows of the site's catalogue by device identifier. */
  readonly catalogue?: ReadonlyMap<string, CatalogueRow>;
  /** How labels are read at this site. */
  readonly labels?: Omit<LabelOptions, 'today' | 'path'>;
}

/** Devices described, and everything there is to say about the descriptions. */
export interface DescribedDevices {
  /** By key, in the order of the record. */
  readonly devices: ReadonlyMap<string, DeviceDetails>;
  readonly findings: readonly Finding[];
}

/** Each device of the record with what its label and the catalogue add, by key. Findings: see `describeDevices`. */
export function deviceDetails(record: CaseRecord, options: DetailOptions = {}): Map<string, DeviceDetails> {
  return new Map(describeDevices(record, options).devices);
}

/**
 * Puts together typed entry, decoded label and catalogue for each device. The label counts before what was typed
 * (a contradiction is an error that names both values), both before the catalogue.
 */
export function describeDevices(record: CaseRecord, options: DetailOptions = {}): DescribedDevices {
  const findings: Finding[] = [];
  const devices = new Map<string, Described>();
  for (const [key, entry] of Object.entries(record.devices ?? {})) {
    const described = describe(key, entry, { ...options, today: options.today ?? record.case.date });
    devices.set(key, described.details);
    findings.push(...described.findings);
  }
  return { devices: toldApart(devices), findings };
}

/** Devices that have the same name are numbered in the order of the record. */
function toldApart(devices: ReadonlyMap<string, Described>): Map<string, DeviceDetails> {
  const alike = grouped(devices.values(), ({ name }) => name);
  return new Map(
    [...devices].map(([key, details]) => {
      const { name } = details;
      const keys = (alike.get(name) ?? []).map(other => other.key);
      const n = `${keys.indexOf(key) + 1}`;
      const called: Param =
        keys.length > 1
          ? message('name.nth', { name: details.said, n, total: `${keys.length}` })
          : details.said;
      return [key, { ...details, called }];
    }),
  );
}

/** A device before it is told apart from others. */
type Described = Omit<DeviceDetails, 'called'>;

function describe(
  key: string,
  entry: DeviceEntry,
  options: DetailOptions & { readonly today: string },
): { details: Described; findings: Finding[] } {
  const path = `devices.${key}`;
  const label =
    entry.label === undefined
      ? undefined
      : decodeLabel(entry.label, { ...options.labels, today: options.today, path: `${path}.label` });
  const di = label?.di ?? entry.udi;
  const row = di === undefined ? undefined : options.catalogue?.get(di);
  const { details: merged, findings } = mergeDetails(key, path, typedOf(entry), label, row);
  const {
    kind,
    row: known,
    findings: unknown,
  } = kindOf(key, entry, merged.kind ?? entry.kind, options.siteKinds);
  const size = entry.size ?? sizeOf(row);
  const diameter = entry.diameter ?? size?.diameter;
  const length = lengthOf(entry, kind, size) ?? (entry.size ? undefined : lengthIn(row));
  const mri = entry.mri ?? merged.mri;
  const name = nameOf(entry.kind, kind, size, diameter, length);
  const details: Described = {
    key,
    entry,
    kind: entry.kind,
    ...(known && { row: known.row.name }),
    traits: traitsOf(kind, entry.kind, merged.description),
    family: kind.family,
    name,
    said: { device: name, kind: entry.kind, ...(known && { row: known.row.name }) },
    ...only('description', merged.description),
    ...only('maker', merged.maker),
    ...only('model', entry.model),
    ...only('reference', merged.reference),
    ...(size && { size }),
    ...(diameter && { diameter }),
    ...(length && { length }),
    ...only('di', merged.di),
    ...only('lot', merged.lot),
    ...only('serial', merged.serial),
    ...only('expires', merged.expires),
    ...only('manufactured', merged.manufactured),
    ...only('distinct', merged.distinct),
    ...(label && { label }),
    ...(row && { listed: row }),
    ...only('mri', mri),
    implant: merged.implant ?? kind.implant,
    count: entry.count ?? 1,
    carried: entry.carried !== undefined,
    ...(kind.outside && { outside: true }),
  };
  const typed =
    label?.di === undefined && entry.udi !== undefined
      ? typedIdentifierFindings(entry.udi, `${path}.udi`)
      : [];
  return { details, findings: [...(label?.findings ?? []), ...typed, ...findings, ...unknown] };
}

function only<K extends string>(key: K, value: string | undefined): { readonly [P in K]?: string } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [P in K]: string });
}

/** What a person typed, as far as a label or the catalogue can say it too. */
function typedOf(entry: DeviceEntry): TypedDetails {
  return {
    ...only('description', entry.description),
    ...only('maker', entry.maker),
    ...only('reference', entry.reference),
    ...(entry.implant !== undefined && { implant: entry.implant }),
    ...only('di', entry.udi),
    ...only('lot', entry.lot),
    ...only('serial', entry.serial),
    ...only('expires', dayOf(entry.expires)),
    ...only('manufactured', dayOf(entry.manufactured)),
  };
}

/** Labels know days and months; a year alone, or an hour, is cut to what can be compared. */
function dayOf(when: When | undefined): string | undefined {
  return when === undefined || when.precision === 'year' ? undefined : when.iso.slice(0, 10);
}

function kindOf(
  key: string,
  entry: DeviceEntry,
  name: string,
  siteKinds: readonly SiteKind[] | undefined,
): { kind: DeviceKind; row?: Match<DeviceKind>; findings: Finding[] } {
  const path = `devices.${key}.kind`;
  const found = kindNamed(name, siteKinds);
  // A family that was written outranks a row that was only near.
  const near = found?.how === 'qualified' && entry.family !== undefined && entry.family !== found.row.family;
  if (found && !near) {
    const kind = entry.family ? { ...found.row, family: entry.family } : found.row;
    const read =
      found.how === 'listed'
        ? []
        : [finding('device.kind-read', path, { device: key, kind: name, row: found.row.name })];
    return { kind, row: found, findings: read };
  }
  if (entry.family) return { kind: kindOfFamily(name, entry.family), findings: [] };
  const params = { device: key, kind: name, suggestion: suggestKind(name, siteKinds) };
  // Nothing is known of it: it counts as something that must not be forgotten inside.
  return {
    kind: kindOfFamily(name, 'catheter'),
    findings: [finding('device.kind-unknown', path, params)],
  };
}

/** The length of the device itself: of a balloon its shaft, of a stent the stent and not its delivery system. */
function lengthOf(entry: DeviceEntry, kind: DeviceKind, size: Size | undefined): Quantity | undefined {
  if (kind.family === 'balloon' || kind.family === 'embolic') return entry.length;
  return kind.family === 'stent' ? (size?.length ?? entry.length) : (entry.length ?? size?.length);
}

function sizeOf(row: CatalogueRow | undefined): Size | undefined {
  for (const text of row?.sizes ?? []) {
    const read = readSize(text);
    if (read.ok && !isLengthOnly(text)) return read.value;
  }
  return undefined;
}

function lengthIn(row: CatalogueRow | undefined): Quantity | undefined {
  const text = row?.sizes?.find(isLengthOnly);
  const read = text === undefined ? undefined : readQuantity(text, ['length']);
  return read?.ok ? read.value : undefined;
}

/** A catalogue lists sizes in any order: what is written in cm is how long a device is, never how thick. */
const isLengthOnly = (text: string) => /^[\d.\s]+cm$/.test(text.trim());

/** `8.5 Fr drainage catheter, 35 cm`; `3 mm x 40 mm balloon catheter, 135 cm`; `0.035 in guidewire, 145 cm`. */
function nameOf(
  kind: string,
  { family }: DeviceKind,
  size: Size | undefined,
  diameter: Quantity | undefined,
  length: Quantity | undefined,
): string {
  const nominal = size?.length && (size.diameter.unit === 'mm' || family === 'balloon');
  const calibre = nominal
    ? `${printQuantity(size.diameter)} x ${printQuantity(size.length)}`
    : size
      ? size.upTo
        ? `${size.diameter.value}–${printQuantity(size.upTo)}`
        : printQuantity(size.diameter)
      : diameter && printQuantity(diameter);
  const front = calibre === undefined ? kind : `${calibre} ${kind}`;
  const said = nominal && length === size.length;
  return length && !said ? `${front}, ${printQuantity(length)}` : front;
}
