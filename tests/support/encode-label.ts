import { isoDay, isoMonth } from '../../src/devices/labels/dates.js';
import { identifierAt } from '../../src/devices/labels/gs1-table.js';
import { keepsToStandard } from '../../src/devices/labels/gs1-value.js';
import { checkCharacter } from '../../src/devices/labels/hibc-check.js';
import { GS } from '../../src/devices/labels/source.js';
import type { Issuer } from '../../src/devices/labels/types.js';
import { CasetallyError } from '../../src/findings/errors.js';

/** The parts to write on a label. Dates are YYYY-MM-DD; YYYY-MM where the agency has a form for it. */
export interface LabelToEncode {
  readonly issuer: Issuer;
  readonly di: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly expires?: string;
  readonly manufactured?: string;
  readonly distinct?: string;
}

/**
 * Writes a label: `print` as people read it, `scan` as a scanner sends it (GS1 with separators).
 * @throws CasetallyError `usage` when a part does not fit the agency's form; callers check data first
 */
export function encodeLabel(parts: LabelToEncode, form: 'print' | 'scan'): string {
  if (parts.issuer === 'gs1') return encodeGs1(parts, form);
  return parts.issuer === 'hibcc' ? encodeHibc(parts, form) : encodeIccbba(parts, form);
}

function refuse(what: string): never {
  throw new CasetallyError(
    'usage',
    `A label cannot be written: the ${what} does not fit the form of its agency`,
  );
}

function encodeGs1(parts: LabelToEncode, form: 'print' | 'scan'): string {
  const { di, lot, serial, expires, manufactured, distinct } = parts;
  if (distinct !== undefined) refuse('donation identification number');
  const elements: [string, string][] = [['01', di]];
  if (manufactured !== undefined) elements.push(['11', shortDate(manufactured)]);
  if (expires !== undefined) elements.push(['17', shortDate(expires)]);
  if (lot !== undefined) elements.push(['10', lot]);
  if (serial !== undefined) elements.push(['21', serial]);
  for (const [ai, value] of elements) {
    const entry = identifierAt(ai, 0);
    if (entry && !keepsToStandard(entry, value, '2000-01-01')) refuse(entry.name);
  }
  if (form === 'print') return elements.map(([ai, value]) => `(${ai})${value}`).join('');
  // Of these only a lot has no predefined length and something after it.
  return elements.map(([ai, value]) => ai + value + (ai === '10' && serial !== undefined ? GS : '')).join('');
}

const isDay = (date: string) =>
  isoDay(Number(date.slice(0, 4)), Number(date.slice(5, 7)), Number(date.slice(8))) === date;
const isMonth = (date: string) => isoMonth(Number(date.slice(0, 4)), Number(date.slice(5))) === date;

/** YYYY-MM-DD as YYMMDD; YYYY-MM with day 00. */
function shortDate(date: string): string {
  if (!isDay(date) && !isMonth(date)) refuse('date');
  return `${date.slice(2, 4)}${date.slice(5, 7)}${date.slice(8, 10) || '00'}`;
}

function encodeHibc(parts: LabelToEncode, form: 'print' | 'scan'): string {
  const { di, lot, serial, expires, manufactured, distinct } = parts;
  if (!/^[A-Z][A-Z0-9]{3}[A-Z0-9]{1,18}[0-9]$/.test(di)) refuse('device identifier');
  if (distinct !== undefined) refuse('donation identification number');
  for (const [what, value] of [
    ['lot', lot],
    ['serial number', serial],
  ] as const) {
    if (value !== undefined && !/^[A-Z0-9]{1,18}$/.test(value)) refuse(what);
  }
  const segments = [`+${di}`];
  if (lot !== undefined || expires !== undefined) segments.push(`$$${flaggedDate(expires)}${lot ?? ''}`);
  if (serial !== undefined) segments.push(`S${serial}`);
  if (manufactured !== undefined) {
    if (!isDay(manufactured)) refuse('production date');
    segments.push(`16D${manufactured.replaceAll('-', '')}`);
  }
  const text = segments.join('/');
  const check = checkCharacter(text);
  return `${text}${form === 'print' && check === ' ' ? '_' : check}`;
}

/** An expiry date as it follows $$: month and year, or 3 and the day; 7 stands for none. */
function flaggedDate(expires: string | undefined): string {
  if (expires === undefined) return '7';
  const short = shortDate(expires);
  return expires.length === 7 ? short.slice(2, 4) + short.slice(0, 2) : `3${short}`;
}

function encodeIccbba(parts: LabelToEncode, form: 'print' | 'scan'): string {
  const { di, lot, serial, expires, manufactured, distinct } = parts;
  const blood = /^[A-Za-z0-9]{10}$/.test(di);
  if (!blood && !/^[A-NP-Z0-9]{5}[A-Z0-9]{11}$/.test(di)) refuse('device identifier');
  if (lot !== undefined && !(blood ? /^[A-Za-z0-9]{10}$/ : /^[A-Z0-9]{1,18}$/).test(lot)) refuse('lot');
  if (serial !== undefined && (!/^[A-Z0-9]{6}$/.test(serial) || serial === '000000')) refuse('serial number');
  if (distinct !== undefined && !/^[A-NP-Z1-9][A-NP-Z0-9]{2}\d{10}00$/.test(distinct))
    refuse('donation number');
  const structures = [
    blood ? `=)${di}` : `=/${di}`,
    serial === undefined ? '' : `=,${serial}`,
    distinct === undefined ? '' : `=${distinct}`,
    expires === undefined ? '' : `=>${dayOfYear(expires)}`,
    manufactured === undefined ? '' : `=}${dayOfYear(manufactured)}`,
    lot === undefined ? '' : blood ? `&)${lot}` : `&,1${lot}`,
  ].filter(structure => structure !== '');
  const header =
    form === 'scan' && structures.length > 1 ? `=+${String(structures.length).padStart(2, '0')}000` : '';
  return header + structures.join('');
}

/** YYYY-MM-DD as the year without its thousands digit and the day of the year. */
function dayOfYear(date: string): string {
  if (!isDay(date)) refuse('date');
  const day =
    (Date.parse(`${date}T00:00:00Z`) - Date.parse(`${date.slice(0, 4)}-01-01T00:00:00Z`)) / 86_400_000 + 1;
  return `${date.slice(1, 4)}${String(day).padStart(3, '0')}`;
}
