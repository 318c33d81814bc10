import { createHash } from 'node:crypto';
import { compareText } from '../findings/finding.js';
import type { RegistryDefinition } from './definition/schema.js';
import type { EntryElements } from './entry/elements.js';
import { batchText, mediaTypeOf } from './format/batch.js';
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
  readonly entries: readonly EntryElements[];
}

/** What is in a registry build: enough to check a transfer without opening the entries, and no number of the site's. */
export interface RegistryManifest {
  readonly registry: string;
  /** Media type of the entries: FHIR R4 DeviceUseStatement, one JSON object a line, where no definition says otherwise. */
  readonly format: string;
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

/** A registry build: the entries, in the format of the registry, and what describes them. */
export interface RegistrySubmission {
  readonly text: string;
  readonly manifest: RegistryManifest;
}

/** How entries are written where no definition says it. */
const PLAIN = { elements: {}, format: { kind: 'fhir ndjson' } } as const;

/** Joins the entries of many cases; sorting makes the file independent of their order. */
export function registrySubmission(
  cases: readonly SubmittedCase[],
  unreadable: number,
  name: string,
  options: RegistryOptions,
  definition: Pick<RegistryDefinition, 'elements' | 'format'> = PLAIN,
): RegistrySubmission {
  const entries = cases.flatMap(one => one.entries);
  const text = batchText(
    entries.toSorted((a, b) => compareText(a.entry, b.entry)),
    definition,
    options,
  );
  const dates = entries.map(({ date }) => date).sort();
  const [from] = dates;
  const to = dates.at(-1);
  const pseudonyms = (some: (one: SubmittedCase) => boolean) =>
    [...new Set(cases.filter(some).map(({ pseudonym }) => pseudonym))].sort();
  return {
    text,
    manifest: {
      registry: name,
      format: mediaTypeOf(definition),
      entries: entries.length,
      cases: pseudonyms(one => one.entries.length > 0).length,
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      sha256: createHash('sha256').update(text, 'utf8').digest('hex'),
      keyId: options.keyId,
      settings: { dates: options.dates, serials: options.serials, lots: options.lots, ages: options.ages },
      heldBack: pseudonyms(({ fate }) => fate === 'held back'),
      waiting: pseudonyms(({ fate }) => fate === 'waiting').length,
      unreadable,
    },
  };
}
