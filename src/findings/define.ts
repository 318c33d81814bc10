/** FHIR IssueSeverity (required binding of OperationOutcome.issue.severity). */
export type Severity = 'fatal' | 'error' | 'warning' | 'information';

/** One row of the message catalogue. `{name}` in message and remedy is filled from the finding's params. */
export interface CatalogueEntry {
  readonly severity: Severity;
  readonly message: string;
  readonly remedy: string;
  readonly basis: string;
}

/** The basis of a rule that the trade follows without one published source. */
export const COMMON_PRACTICE = 'common practice, no source';
/** The basis of a rule about Casetally's own record format. */
export const RECORD_FORMAT = 'the case record format';

/** Keeps the literal wording in the type, so that missing params are compile errors. */
export function define<const T extends Record<string, CatalogueEntry>>(entries: T): T {
  return entries;
}
