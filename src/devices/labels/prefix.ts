/** Symbologies in which GS1 data is marked as such. Source: GS1 General Specifications, symbology identifiers. */
const gs1Prefixes = new Set([']C1', ']d2', ']Q3', ']e0', ']J1']);
/** Retail symbols that hold a bare trade item number. */
const retailPrefixes = new Set([']E0', ']E3', ']E4']);
/** Other symbologies that a scanner may name: Code 39, Code 128, Data Matrix, QR, Aztec, PDF417, DotCode, DataBar. */
const otherPrefix = /^\](A[0-7]|C[024]|E[12]|d[0-6]|Q[0-6]|z[0-9A-C]|L[0-5]|J[0-5]|e[1-3]|I[0-3]|F[0-6]|X0)$/;

export type PrefixKind = 'gs1' | 'retail' | 'other' | 'unknown' | 'none';

/** What the three characters of a symbology prefix (ISO/IEC 15424) say; `none` where there is no prefix. */
export function prefixKind(prefix: string): PrefixKind {
  if (prefix === '') return 'none';
  if (gs1Prefixes.has(prefix)) return 'gs1';
  if (retailPrefixes.has(prefix)) return 'retail';
  return otherPrefix.test(prefix) ? 'other' : 'unknown';
}
