import { finding } from '../../findings/finding.js';
import { classifyAnswer } from '../answer/classify.js';
import { matchEntries } from '../answer/entries.js';
import { listAt, objectAt } from '../answer/exact-json.js';
import { issuesOf, type ServerIssue } from '../answer/issues.js';
import type { Attempt, NotDelivered, SendOutcome } from '../answer/outcome.js';
import { type SourceOf, sayIssues, sayVerdict } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { StatementStore } from '../destination/capability-cache.js';
import type { Destination } from '../destination/destination.js';
import { lookUp, onlyOf } from '../held/lookup.js';
import { fhirClient, type Reply, type SendDeps } from '../http/fhir-client.js';
import { waitFor } from '../http/wait.js';
import type { ReceiptEntry } from '../receipt/receipt.js';
import { attemptOf, receiptOf } from '../receipt/receipt-of.js';
import { readSubmission, type Submission } from '../request/submission.js';
import { sendInBatches } from './batches.js';
import { sendSingly } from './singly.js';

/** What sendSubmission needs from outside. */
export interface SubmitDeps extends SendDeps {
  /** Maps a place in the submission back to the record, for what the server says about it. */
  readonly sourceOf?: SourceOf;
  /** Where what servers say of themselves is kept; without it they are not asked before a submission is sent. */
  readonly statements?: StatementStore;
}

/** How often Content-Location is asked after a 202 before the outcome counts as unknown. */
const MAX_POLLS = 20;
const POLL_MS = 2_000;

/**
 * Sends a submission once and classes what came of it. Nothing is sent twice, save after a 401, which says
 * that nothing was processed. What to do about an unknown outcome is for `deliver` or the outbox.
 *
 * @param submissionText the transaction Bundle, sent exactly as given.
 */
export async function sendSubmission(
  submissionText: string,
  destination: Destination,
  deps: SubmitDeps,
): Promise<SendOutcome> {
  const submission = readSubmission(submissionText);
  if (!submission) {
    return notSent(finding('delivery.not-a-submission', 'Bundle', { destination: destination.name }));
  }
  const tooMuch = overLimit(submission, destination);
  if (tooMuch) return tooMuch;

  if (destination.mode === 'batch') return sendInBatches(submission, destination, deps);
  if (destination.mode === 'single') return sendSingly(submission, destination, deps);

  const attempts: Attempt[] = [];
  const now = deps.clock();
  let reply = await fhirClient(destination, deps).postBundle(submission.text);
  let verdict = judge(reply, submission, false, deps);
  attempts.push(attemptOf(reply, verdict, now));
  if (verdict.next === 'renew-token') {
    const again = deps.clock();
    if (deps.authorize) reply = await fhirClient(destination, deps, true).postBundle(submission.text);
    verdict = judge(reply, submission, true, deps);
    if (deps.authorize) attempts.push(attemptOf(reply, verdict, again));
  }
  for (let poll = 0; verdict.next === 'poll' && poll < MAX_POLLS && !deps.signal?.aborted; poll += 1) {
    await waitFor(deps, verdict.waitMs ?? POLL_MS);
    const at = deps.clock();
    const address = reply.exchange.kind === 'answer' ? reply.exchange.headers['content-location'] : undefined;
    const later = await fhirClient(destination, deps).follow(address ?? '');
    if (!later) break;
    verdict = judgePoll(later, submission, deps);
    if (verdict.next !== 'poll') reply = later;
    attempts.push(attemptOf(later, verdict, at));
  }
  if (verdict.next === 'poll') verdict = { ...verdict, next: 'reconcile' };
  return outcomeOf(reply, verdict, submission, destination, deps, attempts);
}

function judge(reply: Reply, { entries }: Submission, tokenRenewed: boolean, deps: SubmitDeps): Verdict {
  const body = reply.body === undefined ? {} : { body: reply.body };
  return classifyAnswer({
    exchange: reply.exchange,
    ...body,
    sent: entries,
    tokenRenewed,
    now: deps.clock(),
  });
}

/** A poll that fails says nothing about the submission, only that the answer to it is not known. */
function judgePoll(reply: Reply, submission: Submission, deps: SubmitDeps): Verdict {
  const verdict = judge(reply, submission, true, deps);
  if (verdict.state === 'delivered' || verdict.state === 'partial' || verdict.next === 'poll') return verdict;
  if (reply.exchange.kind === 'answer' && reply.exchange.status === 202) return { ...verdict, next: 'poll' };
  return { ...verdict, state: 'outcome-unknown', processed: 'maybe', next: 'reconcile', scope: 'record' };
}

function notSent(...findings: NotDelivered['findings'][number][]): NotDelivered {
  return { state: 'not-sent', issues: [], attempts: [], findings };
}

function overLimit({ entries, bytes }: Submission, destination: Destination): NotDelivered | undefined {
  const { name, maxEntries, maxBytes } = destination;
  const over = (size: string, limit: string) =>
    notSent(finding('delivery.over-limit', 'Bundle', { destination: name, size, limit }));
  if (maxEntries !== undefined && entries.length > maxEntries)
    return over(`${entries.length} entries`, `${maxEntries}`);
  if (maxBytes !== undefined && bytes > maxBytes) return over(`${bytes} bytes`, `${maxBytes}`);
  return undefined;
}

async function outcomeOf(
  reply: Reply,
  verdict: Verdict,
  submission: Submission,
  destination: Destination,
  deps: SubmitDeps,
  attempts: readonly Attempt[],
): Promise<SendOutcome> {
  const { entries } = submission;
  const issues = [
    ...issuesOf(reply.body, entries),
    ...listAt(reply.body, 'entry').flatMap((entry, i) =>
      // With fewer answers than entries the index says nothing.
      issuesOf(
        objectAt(entry, 'response')?.['outcome'],
        entries,
        verdict.reason === 'count-differs' ? undefined : i,
      ),
    ),
  ];
  const voice = {
    destination: destination.name,
    sent: entries,
    sourceOf: deps.sourceOf ?? (() => undefined),
  };
  if (verdict.state !== 'delivered') {
    const findings = [...sayVerdict(voice, verdict), ...sayIssues(voice, issues)];
    return { state: verdict.state, verdict, issues, attempts, findings };
  }
  const answered = await complete(matchEntries(reply.body, entries), submission, destination, deps);
  const warnings = issues.filter(worthKeeping);
  const receipt = receiptOf(submission, destination, attempts, answered, warnings, 'answered');
  const made = answered.some(e => e.status === 201) || entries.some(e => e.method !== 'POST');
  return {
    state: made ? 'delivered' : 'delivered-already',
    receipt,
    attempts,
    findings: sayIssues(
      voice,
      warnings.map(w => ({ ...w, severity: w.severity === 'information' ? w.severity : 'warning' })),
    ),
  };
}

/** Servers say "created" and "matched" as informational issues; those are not kept on the receipt. */
function worthKeeping(issue: ServerIssue): boolean {
  return issue.severity !== 'information' || issue.code !== 'informational';
}

/** Looks up, by identifier, where the entries are that the answer did not place. */
async function complete(
  answered: readonly ReceiptEntry[],
  { entries }: Submission,
  destination: Destination,
  deps: SendDeps,
): Promise<ReceiptEntry[]> {
  const client = fhirClient(destination, deps);
  const complete: ReceiptEntry[] = [];
  for (const [i, line] of answered.entries()) {
    const entry = entries[i];
    const lookup = line.found === 'not-found' && entry ? await lookUp(client, entry) : undefined;
    const only = onlyOf(lookup);
    complete.push(
      only
        ? {
            ...line,
            found: 'search',
            id: only.id,
            location: `${line.type}/${only.id}`,
            ...(only.version !== undefined && { version: only.version }),
          }
        : line,
    );
  }
  return complete;
}
