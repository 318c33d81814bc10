import { stops } from '../../findings/finding.js';
import { isDelivered, type NotDelivered, type SendOutcome } from '../answer/outcome.js';
import { sayEdits, saySeveral, sayVerdict, type Voice, voiceOf } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import { checkHeld } from '../held/check-held.js';
import { compareResource, type EntryDifference } from '../held/compare.js';
import { looking } from '../held/looking.js';
import { movedSince, type Wrote } from '../held/moved.js';
import { preflight } from '../held/preflight.js';
import { placesHeld } from '../held/read-back.js';
import { entriesFound, lookAtOnce, type Reconciliation, reconcile } from '../held/reconcile.js';
import { rightPatient } from '../patient/right-patient.js';
import { receiptOf } from '../receipt/receipt-of.js';
import { misfits, unfit } from '../request/fits.js';
import { withTags } from '../request/if-match.js';
import { isOwn, type Submission } from '../request/submission.js';
import { notSent } from './once.js';
import { sendSubmission } from './send.js';

/**
 * Looks whether everything that a submission refers to is there, sends it, and settles what can be settled
 * without a person: an unknown outcome is resolved by
 * asking the server what it holds, a conflict on create by looking whether the same is there, and resources
 * that were there already are compared with what was sent, so that a changed case never passes for delivered.
 * It does not send a second time.
 */
export async function deliver(submission: Submission, session: Session): Promise<SendOutcome> {
  const outcome = await sendChecked(submission, session);
  return isDelivered(outcome) || !needsAsking(outcome) ? outcome : settle(outcome, submission, session);
}

/**
 * One send with the checks before and after it: everything referred to is there, and what was matched equals
 * what was sent. An unknown outcome is returned as such.
 */
export async function sendChecked(
  submission: Submission,
  session: Session,
  wrote?: Wrote,
): Promise<SendOutcome> {
  for (const pause of AT_ONCE_PAUSES) {
    const outcome = await sendOnceChecked(submission, session, wrote);
    if (!isWrittenAtOnce(outcome) || session.signal?.aborted) return outcome;
    await session.wait(pause);
  }
  return sendOnceChecked(submission, session, wrote);
}

/** Waits before a send is repeated that met another one writing the same, in milliseconds. */
const AT_ONCE_PAUSES = [500, 2_000];

/** True where somebody else was writing the same at that moment, such as the patient of two cases. */
function isWrittenAtOnce(outcome: SendOutcome): boolean {
  return !isDelivered(outcome) && outcome.verdict?.reason === 'written-at-once';
}

async function sendOnceChecked(
  submission: Submission,
  session: Session,
  wrote: Wrote | undefined,
): Promise<SendOutcome> {
  const warnings = await misfits(submission, session);
  if (warnings.some(stops)) return unfit(warnings);
  const look = looking(session);
  const blocked = await preflight(submission, session, look);
  if (blocked.length > 0) return notSent(...blocked);
  const { holding, notes, later } = await rightPatient(submission, session, look);
  if (holding.length > 0) return notSent(...holding, ...notes);
  if (later) return later;
  const { differences, renewed } = await movedSince(submission, session, wrote);
  if (differences.length > 0) return overtaken(differences, voiceOf(submission, session));
  const asked = withTags(submission, renewed);
  const sent = await atOnce(await sendSubmission(asked, session), asked, session, wrote);
  const outcome = { ...sent, findings: [...sent.findings, ...warnings, ...notes] };
  return isDelivered(outcome) ? checkHeld(outcome, asked, session) : outcome;
}

/**
 * A 409 by which nothing was changed of what this submission goes by: two wrote the same at once, and the loser goes
 * again. Where it was changed, the outcome says what.
 */
async function atOnce(
  sent: SendOutcome,
  submission: Submission,
  session: Session,
  wrote: Wrote | undefined,
): Promise<SendOutcome> {
  if (isDelivered(sent) || sent.state !== 'conflict' || sent.verdict?.status !== 409) return sent;
  const voice = voiceOf(submission, session);
  const { differences } = await movedSince(submission, session, wrote);
  if (differences.length > 0) return { ...overtaken(differences, voice), attempts: sent.attempts };
  // It may also be there as it was sent, or with other content.
  const seen = await lookAtOnce(submission, session);
  if (seen.verdict !== 'none' && seen.verdict !== 'no-answer')
    return outcomeAfterAsking(sent, seen, submission, session);
  return restate(sent, 'conflict', 'written-at-once', 'search-identifier', voice);
}

/** Nothing was sent, since what it would replace is no longer what Casetally last wrote there. */
function overtaken(differences: readonly EntryDifference[], voice: Voice): NotDelivered {
  const verdict: Verdict = {
    state: 'conflict',
    processed: 'no',
    next: 'person',
    scope: 'record',
    reason: 'version-conflict',
  };
  const findings = [...sayVerdict(voice, verdict), ...sayEdits(voice, differences, 'edited')];
  return { state: 'conflict', verdict, issues: [], differences, attempts: [], findings };
}

/** True when the outcome can only be told by asking the destination what it holds. */
export function needsAsking({ verdict }: NotDelivered): boolean {
  const asking: readonly (Verdict['next'] | undefined)[] = [
    'reconcile',
    'reconcile-then-resend',
    'search-identifier',
  ];
  return (
    asking.includes(verdict?.next) || verdict?.reason === 'several-matches' || verdict?.next === 're-read'
  );
}

/** Asks the destination what it holds and says where the submission stands. */
async function settle(outcome: NotDelivered, submission: Submission, session: Session): Promise<SendOutcome> {
  // What a server certainly did not process needs no doubting of its searches.
  const lag = outcome.verdict?.processed === 'no' ? 0 : session.destination.searchLagMs;
  const seen = await reconcile(submission, session, lag);
  return outcomeAfterAsking(outcome, seen, submission, session);
}

/** The outcome that a reconciliation leads to. */
export function outcomeAfterAsking(
  outcome: NotDelivered,
  seen: Reconciliation,
  submission: Submission,
  session: Session,
): SendOutcome {
  const voice = voiceOf(submission, session);
  const { attempts } = outcome;
  if (seen.verdict === 'all') {
    const receipt = receiptOf(submission, session, attempts, entriesFound(seen), [], 'reconciled');
    return { state: 'delivered-already', receipt, attempts, findings: [] };
  }
  const presence = seen.entries;
  const kept = { ...outcome, presence };
  switch (seen.verdict) {
    case 'several':
      return {
        ...restate(kept, 'conflict', 'several-matches', 'person', voice),
        findings: [...sayAs('several-matches', outcome, voice), ...saySeveral(voice, presence)],
      };
    case 'some':
      return restate(kept, 'partial', 'entry-failed', 'person', voice);
    case 'differs': {
      const differences = differencesIn(seen);
      const restated = restate({ ...kept, differences }, 'conflict', 'version-conflict', 'person', voice);
      return { ...restated, findings: [...restated.findings, ...sayEdits(voice, differences, 'otherwise')] };
    }
    case 'none':
      return isHalfTransaction(outcome)
        ? restate(kept, 'outcome-unknown', 'entry-failed', 'reconcile-then-resend', voice)
        : kept;
    case 'no-answer':
      return kept;
  }
}

/** True for a transaction answered as if it were in part done; one that left nothing may be sent again. */
function isHalfTransaction({ state, verdict }: NotDelivered): boolean {
  const halves: readonly (Verdict['reason'] | undefined)[] = [
    'entry-failed',
    'batch-instead',
    'count-differs',
  ];
  return state === 'partial' && halves.includes(verdict?.reason);
}

function sayAs(reason: Verdict['reason'], outcome: NotDelivered, voice: Voice) {
  return outcome.verdict ? sayVerdict(voice, { ...outcome.verdict, state: 'conflict', reason }) : [];
}

function restate(
  outcome: NotDelivered,
  state: 'conflict' | 'partial' | 'outcome-unknown',
  reason: Verdict['reason'],
  next: Verdict['next'],
  voice: Voice,
): NotDelivered {
  if (!outcome.verdict) return outcome;
  const verdict: Verdict = { ...outcome.verdict, state, reason, next, scope: 'record' };
  const said = outcome.findings.filter(f => f.code === 'delivery.server-says');
  return { ...outcome, state, verdict, findings: [...sayVerdict(voice, verdict), ...said] };
}

function differencesIn(seen: Reconciliation): EntryDifference[] {
  const places = placesHeld(seen.entries);
  return seen.entries
    .filter(p => p.state === 'differs' && isOwn(p.entry))
    .flatMap(({ entry, held }) => {
      const there = held[0]?.resource;
      if (!entry.resource || !there) return [];
      const at = { fullUrl: entry.fullUrl, address: `${entry.type}/${held[0]?.id}` };
      return compareResource(entry.resource, there, places).map(d => ({ ...d, ...at }));
    });
}
