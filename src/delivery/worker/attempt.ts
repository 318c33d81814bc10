import { isDelivered, type NotDelivered, type SendOutcome } from '../answer/outcome.js';
import type { Destination } from '../destination/destination.js';
import { entriesFound, lookAtOnce, type Reconciliation } from '../held/reconcile.js';
import type { Lease, Outbox, OutboxItem } from '../outbox/outbox.js';
import { receiptOf } from '../receipt/receipt-of.js';
import { readSubmission, type Submission } from '../request/submission.js';
import { needsAsking, outcomeAfterAsking, sendChecked } from '../send/deliver.js';
import type { SubmitDeps } from '../send/send.js';
import { asOfNow, withReadVersions } from './versions.js';

/** What came of working on one item: an outcome, 'too early' to believe a search, or a lease that was lost. */
export type AttemptResult =
  | { readonly kind: 'outcome'; readonly outcome: SendOutcome }
  | { readonly kind: 'too-early'; readonly askAgainAt: number }
  | { readonly kind: 'lease-lost' };

/**
 * Works on one item: when an earlier send may have taken effect, the destination is asked first, and nothing
 * is sent before it is believed to hold nothing; then one send, and asking again where the answer calls for it.
 */
export async function attemptItem(
  lease: Lease,
  destination: Destination,
  outbox: Outbox,
  deps: SubmitDeps,
): Promise<AttemptResult> {
  const { item } = lease;
  const submission = readSubmission(item.payload);
  if (submission && item.unknownSince !== undefined) {
    const asked = await askFirst(item, item.unknownSince, submission, destination, deps);
    if (asked) return asked;
  }
  const now = submission
    ? await asOfNow(item, submission, outbox, destination, deps)
    : { text: item.payload };
  if ('askAgainAt' in now) return { kind: 'too-early', askAgainAt: now.askAgainAt };
  // Written down before a byte goes out, so that a crash from here on leaves 'unknown' standing.
  if (!(await outbox.begin(lease, deps.clock()))) return { kind: 'lease-lost' };
  const sent = await sendChecked(now.text, destination, deps);
  if (!submission) return { kind: 'outcome', outcome: sent };
  if (isDelivered(sent) || !asksAtOnce(sent)) return concluded(sent, item, submission, destination, deps);
  const seen = await lookAtOnce(submission, destination, deps);
  const outcome = outcomeAfterAsking(sent, seen, submission, destination, deps);
  return concluded(outcome, item, submission, destination, deps);
}

/** The outcome for the item as it was taken in: the versions that were asked for do not make it another one. */
async function concluded(
  outcome: SendOutcome,
  item: OutboxItem,
  submission: Submission,
  destination: Destination,
  deps: SubmitDeps,
): Promise<AttemptResult> {
  if (!isDelivered(outcome)) return { kind: 'outcome', outcome };
  const { receipt } = outcome;
  const read =
    receipt.how === 'reconciled' ? await withReadVersions(receipt, submission, destination, deps) : receipt;
  return { kind: 'outcome', outcome: { ...outcome, receipt: { ...read, digest: item.digest } } };
}

/** Where the server has answered for certain, what it holds is looked at now, for the person who will see it. */
function asksAtOnce(outcome: NotDelivered): boolean {
  return needsAsking(outcome) && (outcome.state === 'partial' || outcome.state === 'conflict');
}

/** Undefined when the destination holds nothing and the item may be sent. */
async function askFirst(
  item: OutboxItem,
  since: number,
  submission: Submission,
  destination: Destination,
  deps: SubmitDeps,
): Promise<AttemptResult | undefined> {
  const seen = await lookAtOnce(submission, destination, deps);
  const believedAt = since + destination.searchLagMs;
  if (seen.mayLag && seen.verdict !== 'no-answer' && deps.clock() < believedAt) {
    return { kind: 'too-early', askAgainAt: believedAt };
  }
  if (seen.verdict === 'all') {
    const outcome = found(item, since, seen, submission, destination);
    return concluded(outcome, item, submission, destination, deps);
  }
  if (seen.verdict === 'none') return undefined;
  return {
    kind: 'outcome',
    outcome: outcomeAfterAsking(stillUnknown(seen), seen, submission, destination, deps),
  };
}

function found(
  item: OutboxItem,
  since: number,
  seen: Reconciliation,
  submission: Submission,
  destination: Destination,
): SendOutcome {
  const receipt = receiptOf(submission, destination, [], entriesFound(seen), [], 'reconciled');
  const dated = { ...receipt, requestId: item.id, sentAt: new Date(since).toISOString() };
  return { state: 'delivered-already', receipt: dated, attempts: [], findings: [] };
}

/** Where an item stands whose send may have taken effect, when asking has not settled it. */
function stillUnknown(seen: Reconciliation): NotDelivered {
  return {
    state: 'outcome-unknown',
    verdict: {
      state: 'outcome-unknown',
      processed: 'maybe',
      next: 'reconcile-then-resend',
      scope: 'record',
      reason: 'connection-lost',
    },
    issues: [],
    presence: seen.entries,
    attempts: [],
    findings: [],
  };
}
