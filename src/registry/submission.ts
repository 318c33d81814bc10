import { createHash } from 'node:crypto';
import { type Finding, stops } from '../findings/finding.js';
import type { RegistryEntry } from './entry.js';
import type { RegistryOptions } from './options.js';

/** What is in a registry build: enough to check a transfer without opening the entries. */
export interface RegistryManifest {
  readonly registry: string;
  /** Format of the entries: FHIR R4 DeviceUseStatement, one JSON object a line, with its device and procedure contained. */
  readonly format: 'application/fhir+ndjson';
  readonly entries: number;
  readonly cases: number;
  /** First and last date in the entries, at their precision. */
  readonly from?: string;
  readonly to?: string;
  readonly sha256: string;
  readonly keyId: string;
  readonly settings: Pick<RegistryOptions, 'dates' | 'serials' | 'lots' | 'ages'>;
  /** Cases with entries that lack a mandatory element; they are not in the file. */
  readonly heldBack: readonly string[];
}

/** A registry build: the lines and what describes them. */
export interface RegistrySubmission {
  readonly ndjson: string;
  readonly manifest: RegistryManifest;
  readonly findings: readonly Finding[];
}

/** Joins entries of many cases. Entries with an error are held back and named; sorting makes the file independent of the order of cases. */
export function registrySubmission(
  cases: readonly { readonly id: string; readonly entries: readonly RegistryEntry[] }[],
  name: string,
  options: RegistryOptions,
): RegistrySubmission {
  const findings = cases.flatMap(c => c.entries.flatMap(entry => entry.findings));
  const faulty = (entry: RegistryEntry) => entry.findings.some(stops);
  const good = cases.flatMap(c => c.entries.filter(entry => !faulty(entry)));
  const lines = good.map(entry => JSON.stringify(entry.resource)).sort();
  const ndjson = lines.map(line => `${line}\n`).join('');
  const dates = good.map(entry => entry.date).sort();
  const [from] = dates;
  const to = dates.at(-1);
  return {
    ndjson,
    findings,
    manifest: {
      registry: name,
      format: 'application/fhir+ndjson',
      entries: lines.length,
      cases: cases.length,
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      sha256: createHash('sha256').update(ndjson, 'utf8').digest('hex'),
      keyId: options.keyId,
      settings: { dates: options.dates, serials: options.serials, lots: options.lots, ages: options.ages },
      heldBack: [...new Set(cases.filter(c => c.entries.some(faulty)).map(c => c.id))].sort(),
    },
  };
}
