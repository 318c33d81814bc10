import { type ExactObject, objectAt, textAt } from '../answer/exact-json.js';
import type { SentEntry, Submission } from '../request/submission.js';

/** The case of a submission: its main procedure, and when it was. */
export interface SentCase {
  readonly procedure: SentEntry & { readonly resource: ExactObject };
  /** FHIR dateTime; absent where the record names none. */
  readonly start?: string;
  /** True when the submission withdraws the case. */
  readonly withdrawn: boolean;
}

/** Undefined for a submission without a procedure that is no part of another. */
export function caseIn({ entries }: Pick<Submission, 'entries'>): SentCase | undefined {
  for (const entry of entries) {
    const { type, resource } = entry;
    if (type !== 'Procedure' || !resource || resource['partOf'] !== undefined) continue;
    // R5 calls it an occurrence.
    const period = objectAt(resource, 'performedPeriod') ?? objectAt(resource, 'occurrencePeriod');
    const start =
      textAt(period, 'start') ??
      textAt(resource, 'performedDateTime') ??
      textAt(resource, 'occurrenceDateTime');
    const withdrawn = textAt(resource, 'status') === 'entered-in-error';
    return { procedure: { ...entry, resource }, ...(start !== undefined && { start }), withdrawn };
  }
  return undefined;
}
