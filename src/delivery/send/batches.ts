import { finding } from '../../findings/finding.js';
import { classifyAnswer, entryStatus } from '../answer/classify.js';
import { matchEntries } from '../answer/entries.js';
import { type ExactJson, exactText, listAt, objectAt, textAt } from '../answer/exact-json.js';
import type { Attempt, SendOutcome } from '../answer/outcome.js';
import type { Verdict } from '../answer/verdict.js';
import type { Destination } from '../destination/destination.js';
import { lookUp, onlyOf } from '../held/lookup.js';
import { fhirClient, type Reply } from '../http/fhir-client.js';
import type { ReceiptEntry } from '../receipt/receipt.js';
import { attemptOf, receiptOf } from '../receipt/receipt-of.js';
import type { SentEntry, Submission } from '../request/submission.js';
import { inLevels, withPlaces } from '../request/topology.js';
import type { SubmitDeps } from './send.js';
import { stoppedAt } from './singly.js';

/**
 * Sends a submission in batch Bundles, for servers that have those but no transactions. Entries of a batch cannot
 * refer to each other: each batch holds what refers to nothing that is still to come, with the places that the
 * server gave to the batches before. Every entry is judged for itself; after a batch with a fault nothing more is
 * sent, and what was written stays. Each write is conditional, so that going on later makes no double.
 */
export async function sendInBatches(
  submission: Submission,
  destination: Destination,
  deps: SubmitDeps,
): Promise<SendOutcome> {
  const levels = inLevels(submission.entries);
  if (!levels) {
    const said = finding('delivery.circle', 'Bundle', { destination: destination.name });
    return { state: 'not-sent', issues: [], attempts: [], findings: [said] };
  }
  const attempts: Attempt[] = [];
  const lines = new Map<number, ReceiptEntry>();
  const places = new Map<string, string>();
  for (const level of levels) {
    const text = batchOf(level, places);
    const { reply, startedAt } = await post(text, level, destination, deps);
    const seen = judge(reply, level, deps);
    attempts.push(attemptOf(reply, seen.worst?.verdict ?? ACCEPTED, startedAt));
    for (const line of seen.lines) {
      const entry = level.find(e => e.fullUrl === line.fullUrl);
      if (!entry) continue;
      const placed = line.id === undefined ? await lookedUp(line, entry, destination, deps) : line;
      lines.set(entry.index, placed);
      if (placed.id !== undefined) places.set(entry.fullUrl, `${entry.type}/${placed.id}`);
    }
    if (seen.worst) {
      const { verdict, entry, body } = seen.worst;
      const said: Reply = { ...reply, ...(body !== undefined && { body }) };
      return stoppedAt(verdict, said, entry, lines.size > 0, attempts, submission, destination, deps);
    }
  }
  const entries = submission.entries.flatMap(({ index }) => lines.get(index) ?? []);
  const receipt = receiptOf(submission, destination, attempts, entries, [], 'answered');
  const made = entries.some(line => line.status === 201) || submission.entries.some(e => e.method !== 'POST');
  return { state: made ? 'delivered' : 'delivered-already', receipt, attempts, findings: [] };
}

const ACCEPTED: Verdict = {
  state: 'delivered',
  processed: 'yes',
  next: 'nothing',
  scope: 'record',
  reason: 'accepted',
};

/** The Bundle of one batch, with every reference to an earlier one resolved. */
function batchOf(level: readonly SentEntry[], places: ReadonlyMap<string, string>): string {
  const entry = level.map(({ fullUrl, method, url, ifNoneExist, ifMatch, resource }): ExactJson => {
    const conditions = {
      ...(ifNoneExist !== undefined && { ifNoneExist }),
      ...(ifMatch !== undefined && { ifMatch }),
    };
    return {
      fullUrl,
      ...(resource && { resource: withPlaces(resource, places) }),
      request: { method, url, ...conditions },
    };
  });
  return exactText({ resourceType: 'Bundle', type: 'batch', entry });
}

async function post(
  text: string,
  level: readonly SentEntry[],
  destination: Destination,
  deps: SubmitDeps,
): Promise<{ readonly reply: Reply; readonly startedAt: number }> {
  const startedAt = deps.clock();
  const reply = await fhirClient(destination, deps).postBundle(text);
  const whole = wholeVerdict(reply, level, false, deps);
  if (whole.next !== 'renew-token' || !deps.authorize) return { reply, startedAt };
  return { reply: await fhirClient(destination, deps, true).postBundle(text), startedAt };
}

interface Judged {
  /** The entries that were accepted. */
  readonly lines: readonly ReceiptEntry[];
  /** The entry that decides what the batch came to, when one was not accepted. */
  readonly worst?: { readonly verdict: Verdict; readonly entry: SentEntry; readonly body?: ExactJson };
}

/** What waits or is not known comes before what is refused: a record is not given up while it may still go. */
const GRAVITY: readonly Verdict['state'][] = [
  ...(['destination-paused', 'outcome-unknown', 'throttled', 'unreachable'] as const),
  ...(['conflict', 'refused'] as const),
];

function judge(reply: Reply, level: readonly SentEntry[], deps: SubmitDeps): Judged {
  const answers = listAt(reply.body, 'entry');
  const isAnswer = textAt(reply.body, 'type') === 'batch-response' && answers.length === level.length;
  const [first] = level;
  if (!first) return { lines: [] };
  if (reply.exchange.kind !== 'answer' || !isAnswer)
    return { lines: [], worst: { verdict: wholeVerdict(reply, level, true, deps), entry: first } };
  const { exchange } = reply;
  const all = matchEntries(reply.body, level);
  const faults = level.flatMap((entry, i) => {
    const answer = answers[i];
    const status = (answer === undefined ? undefined : entryStatus(answer)) ?? 500;
    if (status === 200 || status === 201) return [];
    const body = objectAt(objectAt(answer, 'response'), 'outcome');
    const verdict = classifyAnswer({
      exchange: { ...exchange, status, headers: {} },
      ...(body && { body }),
      sent: [entry],
      tokenRenewed: true,
      now: deps.clock(),
    });
    return [{ verdict, entry, ...(body && { body }) }];
  });
  const worst = GRAVITY.flatMap(state => faults.find(({ verdict }) => verdict.state === state) ?? [])[0];
  const lines = all.filter(({ status }) => status === 200 || status === 201);
  const [other] = faults;
  const decides = worst ?? other;
  return { lines, ...(decides && { worst: decides }) };
}

/** What the answer to the whole batch means; one that is no answer to a batch leaves the outcome unknown. */
function wholeVerdict(
  { exchange, body }: Reply,
  level: readonly SentEntry[],
  tokenRenewed: boolean,
  deps: SubmitDeps,
): Verdict {
  const seen = { exchange, ...(body !== undefined && { body }), sent: level, tokenRenewed };
  const verdict = classifyAnswer({ ...seen, now: deps.clock() });
  if (verdict.state !== 'delivered' && verdict.state !== 'partial') return verdict;
  return {
    ...verdict,
    state: 'outcome-unknown',
    processed: 'maybe',
    next: 'reconcile-then-resend',
    reason: 'count-differs',
  };
}

async function lookedUp(
  line: ReceiptEntry,
  entry: SentEntry,
  destination: Destination,
  deps: SubmitDeps,
): Promise<ReceiptEntry> {
  const lookup = await lookUp(fhirClient(destination, deps), entry);
  const only = onlyOf(lookup);
  return only ? { ...line, found: 'search', id: only.id, location: `${entry.type}/${only.id}` } : line;
}
