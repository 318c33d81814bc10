import { finding } from '../../findings/finding.js';
import type { ServerIssue } from '../answer/issues.js';
import type { Attempt, SendOutcome } from '../answer/outcome.js';
import { sayIssues, sayVerdict, voiceOf } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import type { ReceiptEntry } from '../receipt/receipt.js';
import type { SentEntry, Submission } from '../request/submission.js';
import { accepted, notSent, placed, worthKeeping } from './once.js';

/** What one step came to: the entries that were accepted and, when one was not, the fault that decides. */
export interface Step {
  readonly attempts: readonly Attempt[];
  readonly lines: readonly ReceiptEntry[];
  readonly fault?: Fault;
}

/** Why a step was not accepted, with everything that the server said of it, and its answer as it came. */
interface Fault {
  readonly verdict: Verdict;
  readonly issues: readonly ServerIssue[];
  readonly answer?: string;
}

/** Where each fullUrl ended up: `urn:uuid:…` to `Procedure/12`. */
export type Written = ReadonlyMap<string, string>;

/**
 * Sends a submission in steps, for servers without transactions: each step refers only to what the steps before it
 * wrote. After a step with a fault nothing more is sent, and what was written stays; the outcome says so. Each write
 * is conditional, so that going on later makes no double.
 *
 * @param steps undefined when the entries refer to each other in a circle, which only a transaction can carry.
 */
export async function sendInSteps(
  submission: Submission,
  session: Session,
  steps: readonly (readonly SentEntry[])[] | undefined,
  send: (entries: readonly SentEntry[], written: Written) => Promise<Step>,
): Promise<SendOutcome> {
  if (!steps) return notSent(finding('delivery.circle', 'Bundle', { destination: session.destination.name }));
  const attempts: Attempt[] = [];
  const lines = new Map<number, ReceiptEntry>();
  const written = new Map<string, string>();
  for (const entries of steps) {
    const step = await send(entries, written);
    attempts.push(...step.attempts);
    for (const line of step.lines) {
      const entry = entries.find(e => e.fullUrl === line.fullUrl);
      if (!entry) continue;
      const found = await placed(line, entry, session);
      lines.set(entry.index, found);
      if (found.id !== undefined) written.set(entry.fullUrl, `${entry.type}/${found.id}`);
    }
    if (step.fault) return stoppedAt(step.fault, lines.size > 0, attempts, submission, session);
  }
  const inOrder = submission.entries.flatMap(({ index }) => lines.get(index) ?? []);
  const warnings = inOrder.flatMap(({ outcome = [] }) => outcome).filter(worthKeeping);
  return accepted(submission, session, attempts, inOrder, warnings);
}

/** What a fault at one entry comes to. In the middle: for certain refused is a part delivered; anything else may be gone on with. */
function stoppedAt(
  { verdict, issues, answer }: Fault,
  begun: boolean,
  attempts: readonly Attempt[],
  submission: Submission,
  session: Session,
): SendOutcome {
  const told = begun ? inTheMiddle(verdict) : verdict;
  if (told.state === 'delivered') throw new TypeError('a write that was accepted stops nothing');
  const voice = voiceOf(submission, session);
  const findings = [...sayVerdict(voice, told), ...sayIssues(voice, issues)];
  return {
    ...{ state: told.state, verdict: told, issues, attempts, findings },
    ...(answer !== undefined && { answer }),
  };
}

/** What was written before is there, whatever came of this one. */
function inTheMiddle(verdict: Verdict): Verdict {
  const isRefused = verdict.state === 'refused' && verdict.scope === 'record';
  return {
    ...verdict,
    state: isRefused ? 'partial' : verdict.state,
    processed: verdict.processed === 'no' ? 'partly' : verdict.processed,
  };
}
