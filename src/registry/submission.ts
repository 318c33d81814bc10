import { createHash } from 'node:crypto';
import type { RegistryDefinition } from './definition/schema.js';
import type { EntryElements } from './entry/elements.js';
import { batchPieces, mediaTypeOf } from './format/batch.js';
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

/** How entries are written where no definition says it. */
const PLAIN = { elements: {}, format: { kind: 'fhir ndjson' } } as const;

type Format = Pick<RegistryDefinition, 'elements' | 'format'>;

/** Gathers what the manifest of a build says, case by case and line by line. */
export class Submission {
  readonly #of: { readonly name: string; readonly options: RegistryOptions; readonly format: Format };
  readonly #heldBack = new Set<string>();
  readonly #hash = createHash('sha256');
  #waiting = 0;
  #cases = 0;
  #entries = 0;
  #from: string | undefined;
  #to: string | undefined;

  constructor(name: string, options: RegistryOptions, format: Format = PLAIN) {
    this.#of = { name, options, format };
  }

  /**
   * A case that counts.
   * @param pseudonym of it
   * @param entries how many lines are of it
   */
  addCase(pseudonym: string, fate: CaseFate, entries: number): void {
    if (fate === 'held back') this.#heldBack.add(pseudonym);
    if (fate === 'waiting') this.#waiting += 1;
    if (entries > 0) this.#cases += 1;
  }

  /** The lines in the format of the registry, piece by piece; in the order of their entries the file is always the same. */
  pieces(lines: Iterable<EntryElements>): Iterable<string> {
    return batchPieces(lines, this.#of.format, this.#of.options);
  }

  /** The pieces, counted for the manifest on their way: to be gone through once, and whole. */
  *counted(lines: Iterable<EntryElements>): Generator<string> {
    const dated = (line: EntryElements) => {
      this.#entries += 1;
      if (this.#from === undefined || line.date < this.#from) this.#from = line.date;
      if (this.#to === undefined || line.date > this.#to) this.#to = line.date;
      return line;
    };
    function* noted(): Generator<EntryElements> {
      for (const line of lines) yield dated(line);
    }
    for (const piece of this.pieces(noted())) {
      this.#hash.update(piece, 'utf8');
      yield piece;
    }
  }

  /**
   * Of all that was counted; once.
   * @param unreadable files that could not be read as a whole case
   */
  manifest(unreadable: number): RegistryManifest {
    const { name, options, format } = this.#of;
    const [from, to] = [this.#from, this.#to];
    return {
      registry: name,
      format: mediaTypeOf(format),
      entries: this.#entries,
      cases: this.#cases,
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      sha256: this.#hash.digest('hex'),
      keyId: options.keyId,
      settings: { dates: options.dates, serials: options.serials, lots: options.lots, ages: options.ages },
      heldBack: [...this.#heldBack].sort(),
      waiting: this.#waiting,
      unreadable,
    };
  }
}
