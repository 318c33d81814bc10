import { classifyAnswer, entryStatus } from '../answer/classify.js';
import { matchEntries } from '../answer/entries.js';
import { type ExactJson, exactText, listAt, objectAt, textAt } from '../answer/exact-json.js';
import { issuesOf } from '../answer/issues.js';
import type { SendOutcome } from '../answer/outcome.js';
import { ACCEPTED, type Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import type { Reply } from '../http/fhir-client.js';
import { withPlaces } from '../request/references.js';
import type { SentEntry, Submission } from '../request/submission.js';
import { inLevels } from '../request/topology.js';
import { askOnce, rawOf } from './once.js';
import { type Step, sendInSteps, type Written } from './steps.js';

/**
 * Sends a submission in batch Bundles. Entries of a batch cannot refer to each other: each batch has what refers to
 * nothing that is still to come, with the places that the server gave to the batches before. Every entry is judged
 * for itself.
 */
export async function sendInBatches(submission: Submission, session: Session): Promise<SendOutcome> {
  return sendInSteps(submission, session, inLevels(submission.entries), async (level, written) => {
    const text = batchOf(level, written);
    const { reply, attempts } = await askOnce(
      session,
      renewToken => session.client.postBundle(text, renewToken),
      (seen, tokenRenewed) => judge(seen, level, tokenRenewed, session).fault?.verdict ?? ACCEPTED,
    );
    return { attempts, ...judge(reply, level, true, session) };
  });
}

/** The Bundle of one batch, with every reference to an earlier one resolved. */
function batchOf(level: readonly SentEntry[], written: Written): string {
  const entry = level.map(({ fullUrl, method, url, ifNoneExist, ifMatch, resource }): ExactJson => {
    const conditions = {
      ...(ifNoneExist !== undefined && { ifNoneExist }),
      ...(ifMatch !== undefined && { ifMatch }),
    };
    return {
      fullUrl,
      ...(resource && { resource: withPlaces(resource, written) }),
      request: { method, url, ...conditions },
    };
  });
  return exactText({ resourceType: 'Bundle', type: 'batch', entry });
}

/** What waits or is not known comes before what is refused: a record is not given up while it may still go. */
const GRAVITY: readonly Verdict['state'][] = [
  ...(['destination-paused', 'outcome-unknown', 'throttled', 'unreachable'] as const),
  ...(['conflict', 'refused'] as const),
];

function judge(
  reply: Reply,
  level: readonly SentEntry[],
  tokenRenewed: boolean,
  session: Session,
): Omit<Step, 'attempts'> {
  const answers = listAt(reply.body, 'entry');
  const isAnswer = textAt(reply.body, 'type') === 'batch-response' && answers.length === level.length;
  const { exchange } = reply;
  if (exchange.kind !== 'answer' || !isAnswer) {
    const verdict = wholeVerdict(reply, level, tokenRenewed, session);
    return { lines: [], fault: { verdict, issues: issuesOf(reply.body, level), ...rawOf(reply) } };
  }
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
      now: session.clock(),
    });
    return [{ verdict, issues: issuesOf(body, [entry], entry.index) }];
  });
  const [worst] = GRAVITY.flatMap(state => faults.find(({ verdict }) => verdict.state === state) ?? []);
  const fault = worst ?? faults[0];
  const issues = faults.flatMap(one => one.issues);
  const lines = matchEntries(reply.body, level).filter(({ status }) => status === 200 || status === 201);
  return { lines, ...(fault && { fault: { ...fault, issues, ...rawOf(reply) } }) };
}

/** What the answer to the whole batch means; one that is no answer to a batch leaves the outcome unknown. */
function wholeVerdict(
  { exchange, body }: Reply,
  level: readonly SentEntry[],
  tokenRenewed: boolean,
  { clock }: Session,
): Verdict {
  const seen = { exchange, ...(body !== undefined && { body }), sent: level, tokenRenewed };
  const verdict = classifyAnswer({ ...seen, now: clock() });
  if (verdict.state !== 'delivered' && verdict.state !== 'partial') return verdict;
  return {
    ...verdict,
    state: 'outcome-unknown',
    processed: 'maybe',
    next: 'reconcile-then-resend',
    reason: 'count-differs',
  };
}
