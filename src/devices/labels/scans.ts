import { decodeLabel } from './decode.js';
import type { DecodedLabel, LabelOptions } from './types.js';

/**
 * Reads the symbols of one package that were scanned one by one (device identifier and production data in
 * symbols of their own), in any order, as one label. HIBC symbols are joined only where the link character
 * agrees. Symbols that cannot be joined (different agencies, lost separators) are given back one by one.
 */
export function decodeScans(texts: readonly string[], options: LabelOptions): readonly DecodedLabel[] {
  const single = texts.map(text => decodeLabel(text, options));
  if (single.length < 2) return single;
  const agency = single[0]?.issuer;
  const alike = single.every(label => label.issuer === agency && label.readings === undefined);
  const identified = single.filter(label => label.di !== undefined);
  if (!alike || identified.length !== 1) return single;
  const identifierFirst = [...identified, ...single.filter(label => label.di === undefined)];
  if (agency === 'hibcc') return [decodeLabel(identifierFirst.map(label => label.text).join('\n'), options)];
  const joined = decodeLabel(identifierFirst.map(label => label.carrierHRF ?? '').join(''), options);
  const { carrierAIDC: _, ...printed } = joined;
  const raw = identifierFirst.map(label => label.carrierAIDC).filter(part => part !== undefined);
  const complete = raw.length === texts.length;
  const bytes = complete && { carrierAIDC: btoa(raw.map(part => atob(part)).join('')) };
  // What was said of a symbol is said of all, but what the others answer and what the whole says again.
  const answered = ['label.needs', 'label.no-device-identifier', 'label.bare-number'];
  const gone = new Set<string>([...answered, ...printed.findings.map(f => f.code)]);
  const kept = identifierFirst.flatMap(label => label.findings).filter(f => !gone.has(f.code));
  const findings = [...printed.findings, ...kept];
  return [{ ...printed, text: texts.join('\n'), findings, ...bytes }];
}
