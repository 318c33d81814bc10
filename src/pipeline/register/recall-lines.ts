import { parse } from 'csv-parse/sync';
import { normalDi } from '../../devices/catalogue/row.js';
import { CasetallyError, reason } from '../../findings/errors.js';
import type { RecallLine } from '../../register/store/register.js';

/** Names of the columns, and the elements of a FHIR Device that hold the same. */
const COLUMNS = ['di', 'lot', 'serial', 'expiresFrom', 'expiresTo'] as const;
type Column = (typeof COLUMNS)[number];

/**
 * Reads the lines of a recall: CSV with a head (di, lot, serial, expiresFrom, expiresTo, any of them), or JSON: an array
 * of such objects, one object a line, or FHIR Devices.
 *
 * @throws CasetallyError 'usage' with the line, for one that names nothing or a column that is not known.
 */
export function recallLines(text: string, file: string): RecallLine[] {
  const plain = text.replace(/^\uFEFF/, '').trim();
  const rows = /^[[{]/.test(plain) ? jsonRows(plain, file) : csvRows(plain, file);
  const lines = rows.map(({ line, row }) => recallLineOf(line, row, file));
  if (lines.length === 0) throw refused(file, 1, 'it has no line');
  return lines;
}

interface NumberedRow {
  readonly line: number;
  readonly row: Readonly<Record<string, unknown>>;
}

const refused = (file: string, line: number, why: string) =>
  new CasetallyError(
    'usage',
    `${file}, line ${line}: ${why}. A line of a recall names di, lot, serial, expiresFrom or expiresTo (YYYY-MM-DD or YYYY-MM).`,
  );

function csvRows(text: string, file: string): NumberedRow[] {
  try {
    const found: { info: { lines: number }; record: Record<string, string> }[] = parse(text, {
      columns: head => (head as string[]).map(name => name.trim()),
      info: true,
      skip_empty_lines: true,
      trim: true,
      delimiter: /^[^\n]*;/.test(text) && !/^[^\n]*,/.test(text) ? ';' : ',',
    });
    const rows = found.map(({ info, record }) => ({ line: info.lines, row: record }));
    const unknown = Object.keys(rows[0]?.row ?? {}).filter(name => !COLUMNS.some(column => column === name));
    if (unknown.length > 0) throw refused(file, 1, `the column '${unknown.join("', '")}' is not known`);
    return rows;
  } catch (error) {
    if (error instanceof CasetallyError) throw error;
    throw refused(file, 1, `it cannot be read as CSV (${reason(error)})`);
  }
}

function jsonRows(text: string, file: string): NumberedRow[] {
  const read = (part: string, line: number): unknown => {
    try {
      return JSON.parse(part);
    } catch (error) {
      throw refused(file, line, `it is no JSON (${reason(error)})`);
    }
  };
  if (text.startsWith('[')) {
    const all = read(text, 1);
    return (Array.isArray(all) ? all : []).map((row, n) => ({
      line: n + 1,
      row: objectOf(row, n + 1, file),
    }));
  }
  return text
    .split(/\r?\n/)
    .flatMap((part, n) =>
      part.trim() === '' ? [] : [{ line: n + 1, row: objectOf(read(part, n + 1), n + 1, file) }],
    );
}

function objectOf(value: unknown, line: number, file: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw refused(file, line, 'it is no object');
  const row = value as Readonly<Record<string, unknown>>;
  return row['resourceType'] === 'Device' ? ofDevice(row) : row;
}

function ofDevice(device: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const carriers = device['udiCarrier'];
  const first: unknown = Array.isArray(carriers) ? carriers[0] : undefined;
  const di =
    typeof first === 'object' && first !== null && 'deviceIdentifier' in first
      ? first.deviceIdentifier
      : undefined;
  const expires = device['expirationDate'];
  const day = typeof expires === 'string' ? expires.slice(0, 10) : undefined;
  return {
    ...(di !== undefined && { di }),
    ...(device['lotNumber'] !== undefined && { lot: device['lotNumber'] }),
    ...(device['serialNumber'] !== undefined && { serial: device['serialNumber'] }),
    ...(day !== undefined && { expiresFrom: day, expiresTo: day }),
  };
}

/** One line of a recall. @throws CasetallyError 'usage' where it names nothing, or no date is one. */
export function recallLineOf(line: number, row: Readonly<Record<string, unknown>>, file: string): RecallLine {
  const found: Partial<Record<Column, string>> = {};
  for (const column of COLUMNS) {
    const value = row[column];
    if (value === undefined || value === null || value === '') continue;
    if (typeof value !== 'string' && typeof value !== 'number')
      throw refused(file, line, `${column} is no text`);
    found[column] = String(value).trim();
  }
  for (const column of ['expiresFrom', 'expiresTo'] as const)
    if (found[column] !== undefined && !/^\d{4}-\d{2}(?:-\d{2})?$/.test(found[column]))
      throw refused(file, line, `${column} is no date`);
  if (found.di === undefined && found.lot === undefined && found.serial === undefined)
    throw refused(file, line, 'it names no device: di, lot and serial are all empty');
  const di = found.di === undefined ? undefined : (normalDi(found.di) ?? found.di);
  return { line, ...found, ...(di !== undefined && { di }) };
}
