import { type Finding, finding } from '../../findings/finding.js';
import { foldIssues, type ServerIssue } from '../answer/issues.js';
import type { Attempt, Delivered, NotDelivered } from '../answer/outcome.js';
import { sayIssues, voiceOf } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import { lookUp, onlyOf } from '../held/lookup.js';
import type { Reply } from '../http/fhir-client.js';
import type { ReceiptEntry } from '../receipt/receipt.js';
import { attemptOf, receiptOf } from '../receipt/receipt-of.js';
import type { SentEntry, Submission } from '../request/submission.js';

/** What one request came to, with every try that was made. */
export interface Asked {
  readonly reply: Reply;
  readonly verdict: Verdict;
  readonly attempts: readonly Attempt[];
}

/**
 * Makes a request, and once more with a fresh token after a 401, which says that nothing was processed; otherwise
 * nothing is sent twice.
 */
export async function askOnce(
  session: Session,
  request: (renewToken: boolean) => Promise<Reply>,
  judge: (reply: Reply, tokenRenewed: boolean) => Verdict,
): Promise<Asked> {
  const attempts: Attempt[] = [];
  const ask = async (renewToken: boolean) => {
    const startedAt = session.clock();
    const reply = await request(renewToken);
    const verdict = judge(reply, renewToken);
    attempts.push(attemptOf(reply, verdict, startedAt));
    return { reply, verdict, attempts };
  };
  const first = await ask(false);
  if (first.verdict.next !== 'renew-token') return first;
  return session.authorised ? ask(true) : { ...first, verdict: judge(first.reply, true) };
}

/** The body of an answer as it came, for keeping; nothing where there was none. */
export function rawOf({ exchange }: Reply): { readonly answer?: string } {
  return exchange.kind === 'answer' && exchange.body !== '' ? { answer: exchange.body } : {};
}

/** Servers say "created" and "matched" as informational issues; those are not kept on the receipt. */
export function worthKeeping(issue: ServerIssue): boolean {
  return issue.severity !== 'information' || issue.code !== 'informational';
}

/** The outcome when nothing was sent. */
export function notSent(...findings: readonly Finding[]): NotDelivered {
  return { state: 'not-sent', issues: [], attempts: [], findings };
}

/** The outcome for a text that is no submission. */
export function notASubmission({ destination }: Session): NotDelivered {
  return notSent(finding('delivery.not-a-submission', 'Bundle', { destination: destination.name }));
}

/** The outcome of a submission that was accepted; what the server said besides is told and kept on the receipt. */
export function accepted(
  submission: Submission,
  session: Session,
  attempts: readonly Attempt[],
  lines: readonly ReceiptEntry[],
  warnings: readonly ServerIssue[] = [],
): Delivered {
  const made = lines.some(line => line.status === 201) || submission.entries.some(e => e.method !== 'POST');
  const folded = foldIssues(warnings);
  const mild = folded.map(
    w => ({ ...w, severity: w.severity === 'information' ? w.severity : 'warning' }) as const,
  );
  return {
    state: made ? 'delivered' : 'delivered-already',
    receipt: receiptOf(submission, session, attempts, lines, folded, 'answered'),
    attempts,
    findings: sayIssues(voiceOf(submission, session), mild),
  };
}

/** The line of an entry that the answer did not place, with the place that its identifier is found at. */
export async function placed(
  line: ReceiptEntry,
  entry: SentEntry,
  { client }: Session,
): Promise<ReceiptEntry> {
  const only = line.found === 'not-found' ? onlyOf(await lookUp(client, entry)) : undefined;
  if (!only) return line;
  const { id, version } = only;
  const location = `${entry.type}/${id}`;
  return { ...line, found: 'search', id, location, ...(version !== undefined && { version }) };
}
