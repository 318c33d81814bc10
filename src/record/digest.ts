import { createHash } from 'node:crypto';
import { isList, type Plain, plainRecord } from './plain.js';
import type { CaseRecord } from './schema/record.js';

/**
 * Digest of what a record says, however its file was written: `sha256:` and the hexadecimal SHA-256 of its canonical
 * form. Order of fields, spacing, quotes, comments and YAML or JSON make no difference; any changed value does.
 */
export function recordDigest(record: CaseRecord): string {
  return `sha256:${createHash('sha256').update(canonicalRecord(record), 'utf8').digest('hex')}`;
}

/**
 * The canonical form: JSON of the plain record, fields in code unit order, no white space (RFC 8785 for such data).
 * Events stand in the order of time; those of the same time keep the order of their lines, which is a fact.
 */
function canonicalRecord(record: CaseRecord): string {
  const events = record.events?.toSorted((a, b) => a.at.epoch - b.at.epoch);
  return canonical(plainRecord(events ? { ...record, events } : record));
}

function canonical(value: Plain): string {
  if (typeof value === 'string') return JSON.stringify(value);
  if (isList(value)) return `[${value.map(canonical).join(',')}]`;
  const fields = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${fields.map(([name, field]) => `${JSON.stringify(name)}:${canonical(field)}`).join(',')}}`;
}
