import type { Finding } from '../../findings/finding.js';
import type { EntryDifference } from '../held/compare.js';
import type { EntryPresence } from '../held/reconcile.js';
import type { Receipt } from '../receipt/receipt.js';
import type { ServerIssue } from './issues.js';
import type { Verdict } from './verdict.js';

/** One request that was made, for support: no header, no body, no query. */
export interface Attempt {
  readonly requestId: string;
  readonly serverRequestId?: string;
  /** ISO time, UTC. */
  readonly at: string;
  readonly durationMs: number;
  readonly status?: number;
  readonly verdict: Verdict;
}

/** The destination has the case; the receipt proves it. 'delivered-already': it had it before this send. */
export interface Delivered {
  readonly state: 'delivered' | 'delivered-already';
  readonly receipt: Receipt;
  readonly attempts: readonly Attempt[];
  readonly findings: readonly Finding[];
}

/** The destination has the case not, or not for certain, or only in part. */
export interface NotDelivered {
  readonly state:
    | 'not-sent'
    | 'refused'
    | 'partial'
    | 'conflict'
    | 'outcome-unknown'
    | 'throttled'
    | 'unreachable'
    | 'destination-paused';
  /** Absent for 'not-sent'. */
  readonly verdict?: Verdict;
  /** What the server said, placed on the entries of the submission. */
  readonly issues: readonly ServerIssue[];
  /** The answer that decided, as it came; may hold patient data. */
  readonly answer?: string;
  /** What the destination holds of it, where that was asked. */
  readonly presence?: readonly EntryPresence[];
  /** What it holds differs from what was sent. */
  readonly differences?: readonly EntryDifference[];
  readonly attempts: readonly Attempt[];
  readonly findings: readonly Finding[];
}

export type SendOutcome = Delivered | NotDelivered;

/** True when the destination has the case. */
export function isDelivered(outcome: SendOutcome): outcome is Delivered {
  return outcome.state === 'delivered' || outcome.state === 'delivered-already';
}

/**
 * The exit code of a command that sent: 0 accepted, 1 not sent because of findings, 3 the destination refused,
 * 4 the destination could not be reached or its answer is not known.
 */
export function sendExitCode({ state }: SendOutcome): 0 | 1 | 3 | 4 {
  switch (state) {
    case 'delivered':
    case 'delivered-already':
      return 0;
    case 'not-sent':
      return 1;
    case 'refused':
    case 'partial':
    case 'conflict':
    case 'destination-paused':
      return 3;
    case 'outcome-unknown':
    case 'throttled':
    case 'unreachable':
      return 4;
  }
}
