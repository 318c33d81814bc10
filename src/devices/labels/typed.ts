import { type Finding, finding } from '../../findings/finding.js';
import { elementNamed } from './element.js';
import { checkDigit } from './gs1-value.js';

/**
 * A trade item number of GS1 as people type it: 12, 13 or 14 digits and nothing else, or with its application identifier
 * before it; a record keeps no spaces around it. Identifiers of HIBC and ICCBBA have letters, and shorter numbers may be
 * the maker's own.
 */
const TRADE_ITEM = /^(?:\(01\)\s*)?(\d{12,14})$/;

/** What a typed device identifier says of itself: its check digit. Source: GS1 General Specifications. */
export function typedIdentifierFindings(udi: string, path: string): Finding[] {
  const digits = TRADE_ITEM.exec(udi)?.[1];
  if (digits === undefined) return [];
  const expected = checkDigit(digits.slice(0, -1));
  const found = digits.slice(-1);
  if (found === expected) return [];
  const what = elementNamed('device identifier');
  const at = `${udi.length}`;
  return [finding('label.check-digit', path, { what, at, found, expected }, { severity: 'warning' })];
}
