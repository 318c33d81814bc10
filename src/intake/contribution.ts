import type { Finding } from '../findings/finding.js';
import type { SourceKind } from '../record/schema/sources.js';

export { type SourceKind, sourceKinds } from '../record/schema/sources.js';

/** A value as it would be typed in a case file: text, with its unit and its digits as they stand. */
export type Typed = string | boolean | readonly Typed[] | { readonly [name: string]: Typed };

/** One value that a source gives. */
export interface GivenValue {
  /** Fields of the record, from the outside in: `['radiation', 'fluoroscopyTime']`, `['devices', 'drain', 'lot']`. */
  readonly path: readonly string[];
  readonly value: Typed;
  /**
   * What becomes of it. `set`: the field is this. `add`: the list at the path has this entry. `propose`: somebody may
   * take it over; it stands in the file as a comment and asserts nothing. `propose-entry`: as `propose`, an entry of
   * the list at the path.
   */
  readonly as: 'set' | 'add' | 'propose' | 'propose-entry';
  /** When the source says that it was so (a result, a weighing), ISO 8601 with offset or a date. */
  readonly at?: string;
  /** What the source said it with, where that is not the value: a label, a line of dictation. */
  readonly said?: string;
}

/** Whom and which case a source speaks of, as far as it says so: held against the record before anything is taken. */
export interface About {
  readonly identifiers?: readonly { readonly system?: string; readonly value: string }[];
  readonly name?: string;
  readonly birthDate?: string;
  readonly sex?: string;
  readonly accession?: string;
  readonly study?: string;
}

/** What one source gives to a record. Sources are read into this, and `merge` alone puts it into a record. */
export interface Contribution {
  readonly from: SourceKind;
  /** When the source was made or last changed, ISO 8601 with offset. */
  readonly at: string;
  /** Which one: name of the kit, number of the order, file of the dose report, who dictated. */
  readonly by?: string;
  readonly about?: About;
  readonly values: readonly GivenValue[];
  /** What could not be read or understood of it. */
  readonly findings: readonly Finding[];
}
