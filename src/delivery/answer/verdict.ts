/** Where a submission stands after one exchange. */
type VerdictState =
  | 'delivered'
  | 'partial'
  | 'outcome-unknown'
  | 'refused'
  | 'conflict'
  | 'throttled'
  | 'unreachable'
  | 'destination-paused';

/** What to do next. */
type NextStep =
  /** Done. */
  | 'nothing'
  /** Ask the server by business identifiers what it holds; nothing is sent again by itself. */
  | 'reconcile'
  /** The same, and send again when it holds nothing. */
  | 'reconcile-then-resend'
  /** Ask at Content-Location for the answer. */
  | 'poll'
  /** Search by identifier; one equal resource there means delivered. */
  | 'search-identifier'
  /** Read the current version and compare before anything else. */
  | 're-read'
  /** A fresh token, then once more. */
  | 'renew-token'
  /** Wait, then send again: nothing was processed. */
  | 'wait'
  /** This record needs a person. */
  | 'person'
  /** The destination needs a person; its other records wait too. */
  | 'pause';

/** Stable word for what was seen. */
export type VerdictReason =
  | 'accepted'
  | 'entry-failed'
  | 'batch-instead'
  | 'count-differs'
  | 'echoed'
  | 'unreadable'
  | 'accepted-for-later'
  | 'redirect'
  | 'invalid'
  | 'too-large'
  | 'not-a-transaction-address'
  | 'reference-not-found'
  | 'media-type'
  | 'unauthorised'
  | 'forbidden'
  | 'request-time-out'
  | 'conflict-on-create'
  | 'version-conflict'
  /** Somebody else was writing the same at that moment. */
  | 'written-at-once'
  | 'gone'
  | 'several-matches'
  | 'rate-limit'
  | 'server-error'
  | 'unavailable'
  | 'time-out'
  | 'connection-lost'
  | 'name-not-found'
  | 'not-connected'
  | 'certificate'
  | 'token-refused'
  | 'token-unavailable'
  | 'tls'
  | 'stopped'
  /** By its own word it speaks another release of FHIR. */
  | 'other-version'
  /** By its own word it takes no transactions. */
  | 'transaction-not-declared';

/** The class of one exchange. */
export interface Verdict {
  readonly state: VerdictState;
  readonly processed: 'yes' | 'no' | 'maybe' | 'partly';
  readonly next: NextStep;
  /** Whose fault it is: this record's, or that of everything that goes to the destination. */
  readonly scope: 'record' | 'destination';
  readonly reason: VerdictReason;
  /** The HTTP status, when there was an answer. */
  readonly status?: number;
  /** How long the server asked to wait, in milliseconds. */
  readonly waitMs?: number;
}

/** What accepting is classed as. */
export const ACCEPTED: Verdict = {
  state: 'delivered',
  processed: 'yes',
  next: 'nothing',
  scope: 'record',
  reason: 'accepted',
};
