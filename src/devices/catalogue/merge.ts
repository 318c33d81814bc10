import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { lastDay } from '../labels/dates.js';
import { elementNamed } from '../labels/element.js';
import type { DecodedLabel } from '../labels/types.js';
import type { CatalogueRow } from './row.js';

/** What a person typed in about one device, as far as label and catalogue can say it too. */
export interface TypedDetails {
  readonly kind?: string;
  readonly description?: string;
  readonly maker?: string;
  readonly reference?: string;
  readonly sizes?: readonly string[];
  readonly implant?: boolean;
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  /** YYYY-MM-DD or YYYY-MM. */
  readonly expires?: string;
  readonly manufactured?: string;
  readonly distinct?: string;
}

/** All that is known of a device, from wherever. */
export interface DeviceDetails extends TypedDetails {
  readonly mri?: string;
  readonly dwell?: string;
  /** Where each detail came from. */
  readonly from: Readonly<Partial<Record<string, 'label' | 'typed' | 'catalogue'>>>;
}

const labelParts = ['di', 'lot', 'serial', 'expires', 'manufactured', 'distinct'] as const;
const words: Readonly<Record<string, string>> = {
  di: 'device identifier',
  lot: 'lot',
  serial: 'serial number',
  expires: 'expiry date',
  manufactured: 'production date',
  distinct: 'donation identification number',
};

/**
 * Puts together what was typed, what the label says and what the catalogue knows. The label counts before
 * what was typed (which it then contradicts: an error), and both before the catalogue (a warning).
 *
 * @param device key of the device, for messages
 * @param path path of the device in the record
 */
export function mergeDetails(
  device: string,
  path: string,
  typed: TypedDetails,
  label: DecodedLabel | undefined,
  catalogue: CatalogueRow | undefined,
): { details: DeviceDetails; findings: Finding[] } {
  const findings: Finding[] = [];
  const known: Record<string, unknown> = {};
  const from: Record<string, 'label' | 'typed' | 'catalogue'> = {};
  for (const part of labelParts) {
    const onLabel = label?.[part];
    const byHand = typed[part];
    if (onLabel !== undefined && byHand !== undefined && !samePart(part, onLabel, byHand)) {
      const params = { device, what: elementNamed(words[part] ?? part), typed: byHand, label: onLabel };
      findings.push(finding('label.conflict', `${path}.${part}`, params));
    }
    if (onLabel !== undefined) keep(known, from, part, onLabel, 'label');
    else if (byHand !== undefined) keep(known, from, part, byHand, 'typed');
  }
  for (const part of ['kind', 'description', 'maker', 'reference', 'sizes', 'implant'] as const) {
    const byHand = typed[part];
    const listed = catalogue?.[part];
    if (byHand !== undefined && listed !== undefined && !sameText(byHand, listed)) {
      const params = {
        device,
        what: elementNamed(part),
        recorded: shown(byHand),
        source: message('listed.typedIn'),
        catalogue: shown(listed),
      };
      findings.push(finding('catalogue.conflict', `${path}.${part}`, params));
    }
    if (byHand !== undefined) keep(known, from, part, byHand, 'typed');
    else if (listed !== undefined) keep(known, from, part, listed, 'catalogue');
  }
  for (const part of ['mri', 'dwell'] as const) {
    const listed = catalogue?.[part];
    if (listed !== undefined) keep(known, from, part, listed, 'catalogue');
  }
  const di = known['di'];
  if (catalogue !== undefined && typeof di === 'string' && catalogue.di !== di) {
    const source = message(from['di'] === 'label' ? 'listed.onLabel' : 'listed.typedIn');
    const params = {
      device,
      what: elementNamed('device identifier'),
      recorded: di,
      source,
      catalogue: catalogue.di,
    };
    findings.push(finding('catalogue.conflict', `${path}.di`, params));
  }
  return { details: { ...known, from }, findings };
}

function keep(
  known: Record<string, unknown>,
  from: Record<string, 'label' | 'typed' | 'catalogue'>,
  part: string,
  value: unknown,
  source: 'label' | 'typed' | 'catalogue',
): void {
  known[part] = value;
  from[part] = source;
}

/** Lots and serial numbers are case-sensitive; a month agrees with its last day. */
function samePart(part: (typeof labelParts)[number], a: string, b: string): boolean {
  if (part === 'expires') return lastDay(a) === lastDay(b);
  if (part === 'manufactured') return a === b || (a.length !== b.length && a.slice(0, 7) === b.slice(0, 7));
  if (part === 'di') return a.padStart(14, '0') === b.padStart(14, '0');
  return a === b;
}

/** Descriptions agree whatever their capitals and spaces; lists in any order. */
function sameText(a: unknown, b: unknown): boolean {
  const plain = (value: unknown): string =>
    Array.isArray(value)
      ? JSON.stringify(value.map(plain).sort())
      : String(value).toLowerCase().replaceAll(/\s+/g, '').replaceAll(',', '.');
  return plain(a) === plain(b);
}

function shown(value: unknown): Param {
  if (typeof value === 'boolean') return message(value ? 'value.yes' : 'value.no');
  return Array.isArray(value) ? value.map(String).join(', ') : String(value);
}
