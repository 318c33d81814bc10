import { finding } from '../../findings/finding.js';
import { classifyAnswer } from '../answer/classify.js';
import { matchEntries } from '../answer/entries.js';
import { listAt, objectAt } from '../answer/exact-json.js';
import { issuesOf, type ServerIssue } from '../answer/issues.js';
import type { NotDelivered, SendOutcome } from '../answer/outcome.js';
import { sayIssues, sayVerdict, voiceOf } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import type { Reply } from '../http/fhir-client.js';
import type { ReceiptEntry } from '../receipt/receipt.js';
import { attemptOf } from '../receipt/receipt-of.js';
import type { Submission } from '../request/submission.js';
import { sendInBatches } from './batches.js';
import { type Asked, accepted, askOnce, notSent, placed, rawOf, worthKeeping } from './once.js';
import { sendSingly } from './singly.js';

/** How often Content-Location is asked after a 202 before the outcome counts as unknown. */
const MAX_POLLS = 20;
const POLL_MS = 2_000;

/**
 * Sends a submission once, exactly as its text is, in the way of the destination, and classes what came of it. Nothing
 * is sent twice, save after a 401, which says that nothing was processed. What to do about an unknown outcome is for
 * `deliver` or the outbox.
 */
export async function sendSubmission(submission: Submission, session: Session): Promise<SendOutcome> {
  const tooMuch = overLimit(submission, session);
  if (tooMuch) return tooMuch;
  switch (session.destination.mode) {
    case 'batch':
      return sendInBatches(submission, session);
    case 'single':
      return sendSingly(submission, session);
    case 'transaction':
      return sendWhole(submission, session);
  }
}

async function sendWhole(submission: Submission, session: Session): Promise<SendOutcome> {
  const asked = await askOnce(
    session,
    renewToken => session.client.postBundle(submission.text, renewToken),
    (reply, tokenRenewed) => judge(reply, submission, tokenRenewed, session),
  );
  const { reply, verdict, attempts } = await polled(asked, submission, session);
  const issues = issuesIn(reply, verdict, submission);
  if (verdict.state !== 'delivered') {
    const voice = voiceOf(submission, session);
    const findings = [...sayVerdict(voice, verdict), ...sayIssues(voice, issues)];
    return { state: verdict.state, verdict, issues, ...rawOf(reply), attempts, findings };
  }
  const lines: ReceiptEntry[] = [];
  for (const [i, line] of matchEntries(reply.body, submission.entries).entries()) {
    const entry = submission.entries[i];
    lines.push(entry ? await placed(line, entry, session) : line);
  }
  return accepted(submission, session, attempts, lines, issues.filter(worthKeeping));
}

/** After a 202: asks at Content-Location for the answer, and gives up after a while. */
async function polled(asked: Asked, submission: Submission, session: Session): Promise<Asked> {
  let { reply, verdict } = asked;
  const attempts = [...asked.attempts];
  for (let poll = 0; verdict.next === 'poll' && poll < MAX_POLLS && !session.signal?.aborted; poll += 1) {
    await session.wait(verdict.waitMs ?? POLL_MS);
    const at = session.clock();
    const address = reply.exchange.kind === 'answer' ? reply.exchange.headers['content-location'] : undefined;
    const later = await session.client.follow(address ?? '');
    if (!later) break;
    verdict = judgePoll(later, submission, session);
    if (verdict.next !== 'poll') reply = later;
    attempts.push(attemptOf(later, verdict, at));
  }
  return { reply, verdict: verdict.next === 'poll' ? { ...verdict, next: 'reconcile' } : verdict, attempts };
}

function judge(
  { exchange, body }: Reply,
  { entries }: Submission,
  tokenRenewed: boolean,
  { clock }: Session,
): Verdict {
  return classifyAnswer({
    exchange,
    ...(body !== undefined && { body }),
    sent: entries,
    tokenRenewed,
    now: clock(),
  });
}

/** A poll that fails says nothing about the submission, only that the answer to it is not known. */
function judgePoll(reply: Reply, submission: Submission, session: Session): Verdict {
  const verdict = judge(reply, submission, true, session);
  if (verdict.state === 'delivered' || verdict.state === 'partial' || verdict.next === 'poll') return verdict;
  if (reply.exchange.kind === 'answer' && reply.exchange.status === 202) return { ...verdict, next: 'poll' };
  return { ...verdict, state: 'outcome-unknown', processed: 'maybe', next: 'reconcile', scope: 'record' };
}

function overLimit({ entries, bytes }: Submission, { destination }: Session): NotDelivered | undefined {
  const { name, maxEntries, maxBytes } = destination;
  const over = (size: string, limit: string) =>
    notSent(finding('delivery.over-limit', 'Bundle', { destination: name, size, limit }));
  if (maxEntries !== undefined && entries.length > maxEntries)
    return over(`${entries.length} entries`, `${maxEntries}`);
  if (maxBytes !== undefined && bytes > maxBytes) return over(`${bytes} bytes`, `${maxBytes}`);
  return undefined;
}

/** What the server said of the whole and of each entry. */
function issuesIn({ body }: Reply, { reason }: Verdict, { entries }: Submission): ServerIssue[] {
  // With fewer answers than entries the index says nothing.
  const of = (i: number) => (reason === 'count-differs' ? undefined : i);
  const inEntries = listAt(body, 'entry').flatMap((entry, i) =>
    issuesOf(objectAt(entry, 'response')?.['outcome'], entries, of(i)),
  );
  return [...issuesOf(body, entries), ...inEntries];
}
