import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { message, quoted } from '../../findings/message.js';
import { checkDigit } from '../labels/gs1-value.js';

/** What a site knows of one kind of device, by its device identifier. */
export interface CatalogueRow {
  /** 14 digits (GS1), or as the agency writes it. */
  readonly di: string;
  readonly description?: string;
  readonly kind?: string;
  readonly maker?: string;
  /** The maker's catalogue number. */
  readonly reference?: string;
  /** Sizes as the trade writes them: `7 Fr`, `26 cm`. */
  readonly sizes?: readonly string[];
  readonly implant?: boolean;
  /** Safety in the magnet, as the maker words it. */
  readonly mri?: string;
  /** How long it is meant to stay, as the maker words it: `up to 6 months`. */
  readonly dwell?: string;
  /** Line in the catalogue, from 1. */
  readonly line: number;
}

/** The same without where it stands. */
export type CatalogueDetails = Omit<CatalogueRow, 'line'>;

/** The columns of a catalogue; all but `di` may be missing or empty. */
const catalogueColumns = [
  'di',
  'description',
  'kind',
  'maker',
  'reference',
  'sizes',
  'implant',
  'mri',
  'dwell',
] as const;

const yes = new Set(['yes', 'true', '1', 'y']);
const no = new Set(['no', 'false', '0', 'n']);

/**
 * The device identifier as labels give it: a GS1 number of 8, 12 or 13 digits filled up to 14 with zeros,
 * others without spaces. Nothing when no agency writes it so.
 */
export function normalDi(text: string): string | undefined {
  const di = text.replaceAll(' ', '');
  if (/^(\d{8}|\d{12,14})$/.test(di)) return di.padStart(14, '0');
  const hibc = /^[A-Z][A-Z0-9]{4,21}[0-9]$/;
  const isbt = /^([A-NP-Z0-9]{5}[A-Z0-9]{11}|[A-Za-z0-9]{10})$/;
  return hibc.test(di) || isbt.test(di) ? di : undefined;
}

/** Reads one line of a catalogue; a line without a usable identifier gives findings only. */
export function catalogueRow(
  record: Readonly<Record<string, unknown>>,
  line: number,
  path: string,
): { row?: CatalogueRow; findings: Finding[] } {
  const findings: Finding[] = [];
  const at = { line };
  const text = (column: string): string | undefined => {
    const value = record[column];
    if (value === undefined || value === null || value === '') return undefined;
    if (typeof value === 'string') return value.trim() === '' ? undefined : value.trim();
    if (typeof value === 'number' || typeof value === 'boolean') return String(value);
    const params = {
      line: `${line}`,
      column,
      found: message(Array.isArray(value) ? 'expected.list' : 'found.object'),
      expected: message('expected.text'),
    };
    findings.push(finding('catalogue.value', path, params, at));
    return undefined;
  };
  const written = text('di') ?? '';
  const di = normalDi(written);
  const expected = message('listed.identifier');
  if (di === undefined) {
    const params = {
      line: `${line}`,
      found: written === '' ? message('found.nothing') : quoted(written.slice(0, 40)),
      expected,
    };
    return { findings: [...findings, finding('catalogue.identifier', path, params, at)] };
  }
  if (/^\d{14}$/.test(di) && checkDigit(di.slice(0, -1)) !== di.at(-1)) {
    const params = {
      line: `${line}`,
      found: di,
      expected: message('listed.checkDigit', { digit: checkDigit(di.slice(0, -1)) }),
    };
    findings.push(
      finding('catalogue.identifier', path, params, {
        ...at,
        severity: 'warning',
        remedy: message('answer.lineKept'),
      }),
    );
  }
  const list = record['sizes'];
  const sizes = (Array.isArray(list) ? list.map(String) : (text('sizes') ?? '').split(/[;|]/))
    .map(size => size.trim())
    .filter(size => size !== '');
  const implantText = text('implant')?.toLowerCase();
  const implant =
    implantText === undefined ? undefined : yes.has(implantText) ? true : no.has(implantText) ? false : null;
  if (implant === null) {
    const params = {
      line: `${line}`,
      column: 'implant',
      found: quoted(implantText ?? ''),
      expected: message('expected.yesNo'),
    };
    findings.push(finding('catalogue.value', path, params, at));
  }
  const plain: {
    -readonly [K in 'description' | 'kind' | 'maker' | 'reference' | 'mri' | 'dwell']?: string;
  } = {};
  for (const column of ['description', 'kind', 'maker', 'reference', 'mri', 'dwell'] as const) {
    const value = text(column);
    if (value !== undefined) plain[column] = value;
  }
  const row: CatalogueRow = {
    di,
    ...plain,
    ...(sizes.length > 0 && { sizes }),
    ...(typeof implant === 'boolean' && { implant }),
    line,
  };
  return { row, findings };
}

/** True when two rows say the same of the device; the line does not count. */
export function sameDetails(a: CatalogueRow, b: CatalogueRow): boolean {
  const plain = (row: CatalogueRow) => JSON.stringify(catalogueColumns.map(column => row[column] ?? null));
  return plain(a) === plain(b);
}
