import type { Delivered, SendOutcome } from '../answer/outcome.js';
import { sayDifferences, sayEdits, sayVerdict, voiceOf } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import { isOwn, type Submission } from '../request/submission.js';
import type { EntryDifference } from './compare.js';
import { compareWithSent, placesOf, readBack } from './read-back.js';

/**
 * Reads what a destination holds after it accepted a submission. A conditional create that matched has changed
 * nothing: when what was there is not what was sent, the case is not delivered, whatever the status. Where the
 * destination asks for it, everything else is read too, and what the server changed or dropped is told.
 */
export async function checkHeld(
  outcome: Delivered,
  submission: Submission,
  session: Session,
): Promise<SendOutcome> {
  const { receipt } = outcome;
  const { destination } = session;
  const matched = receipt.entries.map((line, i) => {
    const entry = submission.entries[i];
    return entry !== undefined && entry.method === 'POST' && line.status === 200 && isOwn(entry);
  });
  const readAll = destination.readBack || !destination.atomic;
  const wanted = matched.map(isMatch => isMatch || readAll);
  if (!wanted.some(Boolean)) return outcome;
  const entries = submission.entries.filter((_entry, i) => wanted[i]);
  const lines = receipt.entries.filter((_line, i) => wanted[i]);
  const read = await readBack({ ...receipt, entries: lines }, session);
  const differences = compareWithSent(
    { ...submission, entries },
    read,
    placesOf(receipt.entries, submission),
  );
  const ofMatched = new Set(receipt.entries.filter((_line, i) => matched[i]).map(line => line.fullUrl));
  const overtaken = differences.filter(d => ofMatched.has(d.fullUrl) && isLoss(d));
  if (overtaken.length > 0) return notTaken(outcome, overtaken, submission, session);
  const told = differences.filter(d => d.alarm || isLoss(d));
  if (told.length === 0) return outcome;
  const voice = voiceOf(submission, session);
  return {
    ...outcome,
    receipt: { ...receipt, differences: told },
    findings: [...outcome.findings, ...sayDifferences(voice, told)],
  };
}

function isLoss({ kind }: EntryDifference): boolean {
  return kind === 'changed' || kind === 'dropped' || kind === 'placeholder-left';
}

function notTaken(
  { attempts, receipt }: Delivered,
  differences: readonly EntryDifference[],
  submission: Submission,
  session: Session,
): SendOutcome {
  const voice = voiceOf(submission, session);
  const status = attempts.at(-1)?.status;
  const verdict: Verdict = {
    state: 'conflict',
    processed: 'partly',
    next: 'person',
    scope: 'record',
    reason: 'conflict-on-create',
    ...(status !== undefined && { status }),
  };
  return {
    state: 'conflict',
    verdict,
    issues: receipt.warnings,
    differences,
    attempts,
    findings: [...sayVerdict(voice, verdict), ...sayEdits(voice, differences, 'otherwise')],
  };
}
