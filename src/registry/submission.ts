import { createHash } from 'node:crypto';
import type { RegistryOptions } from './options.js';

/** What became of a case that was given to a build. */
export type CaseFate =
  /** Its entries are in the file, all or those that lack nothing. */
  | 'entered'
  /** An error holds it back, or an entry of it. */
  | 'held back'
  /** Its report is preliminary. */
  | 'waiting'
  /** A later version of it is there, or the same one once more. */
  | 'superseded'
  /** It has nothing that a registry holds. */
  | 'without devices';

/** A case as far as a submission is made of it. */
export interface SubmittedCase {
  /** Pseudonym of the case. */
  readonly pseudonym: string;
  readonly fate: CaseFate;
  /** FHIR JSON, an entry each, with the date of its case at the agreed precision. */
  readonly entries: readonly { readonly date: string; readonly json: string }[];
}

/** What is in a registry build: enough to check a transfer without opening the entries, and no number of the site's. */
export interface RegistryManifest {
  readonly registry: string;
  /** Format of the entries: FHIR R4 DeviceUseStatement, one JSON object a line, with its device and procedure contained. */
  readonly format: 'application/fhir+ndjson';
  readonly entries: number;
  /** Cases that entries are of. */
  readonly cases: number;
  /** First and last date in the entries, at their precision. */
  readonly from?: string;
  readonly to?: string;
  readonly sha256: string;
  readonly keyId: string;
  readonly settings: Pick<RegistryOptions, 'dates' | 'serials' | 'lots' | 'ages'>;
  /** Pseudonyms of the cases that are not in the file, or not with all entries, because of an error. */
  readonly heldBack: readonly string[];
  /** Cases whose report is preliminary. */
  readonly waiting: number;
  /** Files that could not be read as a whole case. */
  readonly unreadable: number;
}

/** A registry build: the lines and what describes them. */
export interface RegistrySubmission {
  readonly ndjson: string;
  readonly manifest: RegistryManifest;
}

/** Joins the entries of many cases; sorting makes the file independent of their order. */
export function registrySubmission(
  cases: readonly SubmittedCase[],
  unreadable: number,
  name: string,
  options: RegistryOptions,
): RegistrySubmission {
  const entries = cases.flatMap(one => one.entries);
  const ndjson = entries
    .map(({ json }) => `${json}\n`)
    .sort()
    .join('');
  const dates = entries.map(({ date }) => date).sort();
  const [from] = dates;
  const to = dates.at(-1);
  const pseudonyms = (some: (one: SubmittedCase) => boolean) =>
    [...new Set(cases.filter(some).map(({ pseudonym }) => pseudonym))].sort();
  return {
    ndjson,
    manifest: {
      registry: name,
      format: 'application/fhir+ndjson',
      entries: entries.length,
      cases: pseudonyms(one => one.entries.length > 0).length,
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      sha256: createHash('sha256').update(ndjson, 'utf8').digest('hex'),
      keyId: options.keyId,
      settings: { dates: options.dates, serials: options.serials, lots: options.lots, ages: options.ages },
      heldBack: pseudonyms(({ fate }) => fate === 'held back'),
      waiting: pseudonyms(({ fate }) => fate === 'waiting').length,
      unreadable,
    },
  };
}
