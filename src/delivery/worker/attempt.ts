import { isDelivered, type NotDelivered, type SendOutcome } from '../answer/outcome.js';
import type { Session } from '../destination/session.js';
import { entriesFound, lookAtOnce, type Reconciliation } from '../held/reconcile.js';
import type { Lease, Outbox, OutboxItem } from '../outbox/outbox.js';
import { underAnother } from '../patient/under-another.js';
import { receiptOf } from '../receipt/receipt-of.js';
import { readSubmission, type SourceOf, type Submission } from '../request/submission.js';
import { needsAsking, outcomeAfterAsking, sendChecked } from '../send/deliver.js';
import { notASubmission } from '../send/once.js';
import { type AlsoWrote, asOfNow, withReadVersions } from './versions.js';

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
  session: Session,
  outbox: Outbox,
  sourceOf?: SourceOf,
  alsoWrote?: AlsoWrote,
): Promise<AttemptResult> {
  const { item } = lease;
  const submission = readSubmission(item.payload, sourceOf, item);
  if (submission && item.unknownSince !== undefined) {
    const asked = await askFirst(item, item.unknownSince, submission, session);
    if (asked) return asked;
  }
  const now = submission
    ? await asOfNow(item, submission, outbox, session, alsoWrote)
    : { text: item.payload, wrote: undefined };
  if ('askAgainAt' in now) return { kind: 'too-early', askAgainAt: now.askAgainAt };
  const other = submission && (await underAnother(item, submission, outbox));
  if (other) return { kind: 'outcome', outcome: other };
  // Written down before a byte goes out, so that a crash from here on leaves 'unknown' standing.
  if (!(await outbox.begin(lease, session.clock()))) return { kind: 'lease-lost' };
  const toSend = submission && readSubmission(now.text, sourceOf, item);
  if (!submission || !toSend) return { kind: 'outcome', outcome: notASubmission(session) };
  const sent = await sendChecked(toSend, session, now.wrote);
  if (isDelivered(sent) || !asksAtOnce(sent)) return concluded(sent, item, submission, session);
  const seen = await lookAtOnce(submission, session);
  return concluded(outcomeAfterAsking(sent, seen, submission, session), item, submission, session);
}

/** The outcome for the item as it was stored: the versions that were asked for do not make it another one. */
async function concluded(
  outcome: SendOutcome,
  item: OutboxItem,
  submission: Submission,
  session: Session,
): Promise<AttemptResult> {
  if (!isDelivered(outcome)) return { kind: 'outcome', outcome };
  const { receipt } = outcome;
  const read = receipt.how === 'reconciled' ? await withReadVersions(receipt, submission, session) : receipt;
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
  session: Session,
): Promise<AttemptResult | undefined> {
  const seen = await lookAtOnce(submission, session);
  const believedAt = since + session.destination.searchLagMs;
  if (seen.mayLag && seen.verdict !== 'no-answer' && session.clock() < believedAt) {
    return { kind: 'too-early', askAgainAt: believedAt };
  }
  if (seen.verdict === 'all')
    return concluded(found(item, since, seen, submission, session), item, submission, session);
  if (seen.verdict === 'none') return undefined;
  return {
    kind: 'outcome',
    outcome: outcomeAfterAsking(stillUnknown(seen), seen, submission, session),
  };
}

function found(
  item: OutboxItem,
  since: number,
  seen: Reconciliation,
  submission: Submission,
  session: Session,
): SendOutcome {
  const receipt = receiptOf(submission, session, [], entriesFound(seen), [], 'reconciled');
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
