import type { Finding } from '../../findings/finding.js';
import { stops } from '../../findings/finding.js';
import type { DecodedLabel, Issuer } from './types.js';

/** What `casetally label` prints for one label; absent parts are left out. */
export interface LabelCommandResult {
  readonly issuer?: Issuer;
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  /** YYYY-MM-DD or YYYY-MM. */
  readonly expires?: string;
  readonly manufactured?: string;
  readonly distinct?: string;
  readonly carrierHRF?: string;
  readonly carrierAIDC?: string;
  readonly findings: readonly Finding[];
}

const parts = [
  'issuer',
  'di',
  'lot',
  'serial',
  'expires',
  'manufactured',
  'distinct',
  'carrierHRF',
  'carrierAIDC',
] as const;

/** The object that the label command prints as JSON. */
export function labelCommandResult(decoded: DecodedLabel): LabelCommandResult {
  const known = parts.filter(part => decoded[part] !== undefined).map(part => [part, decoded[part]]);
  return { ...Object.fromEntries(known), findings: decoded.findings };
}

/** 0 valid (warnings allowed), 1 at least one error, 2 not a label; the worst of several counts. */
export function labelExitCode(...decoded: readonly DecodedLabel[]): 0 | 1 | 2 {
  if (decoded.some(label => label.issuer === undefined)) return 2;
  return decoded.some(label => label.findings.some(stops)) ? 1 : 0;
}
