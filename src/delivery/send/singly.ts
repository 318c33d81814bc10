import { finding } from '../../findings/finding.js';
import { classifyAnswer } from '../answer/classify.js';
import { exactText, textAt } from '../answer/exact-json.js';
import { issuesOf } from '../answer/issues.js';
import type { Attempt, SendOutcome } from '../answer/outcome.js';
import { sayIssues, sayVerdict, voiceOf } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { Destination } from '../destination/destination.js';
import { lookUp, onlyOf } from '../held/lookup.js';
import { type FhirClient, fhirClient, type Reply } from '../http/fhir-client.js';
import { parseLocation, type ReceiptEntry } from '../receipt/receipt.js';
import { attemptOf, receiptOf } from '../receipt/receipt-of.js';
import type { SentEntry, Submission } from '../request/submission.js';
import { inOrderOfReference, withPlaces } from '../request/topology.js';
import type { SubmitDeps } from './send.js';

/**
 * Sends a submission one resource after the other, for servers without transactions: each after those that it
 * refers to, with If-None-Exist or as a conditional update, so that going on after a fault makes no double.
 * What was written before a fault stays there; the outcome says so.
 */
export async function sendSingly(
  submission: Submission,
  destination: Destination,
  deps: SubmitDeps,
): Promise<SendOutcome> {
  const ordered = inOrderOfReference(submission.entries);
  const writes = submission.entries.every(e => e.method === 'POST' || e.method === 'PUT');
  if (!ordered || !writes) {
    const code = ordered ? 'delivery.not-a-submission' : 'delivery.circle';
    const said = finding(code, 'Bundle', { destination: destination.name });
    return { state: 'not-sent', issues: [], attempts: [], findings: [said] };
  }
  const client = fhirClient(destination, deps);
  const attempts: Attempt[] = [];
  const lines = new Map<number, ReceiptEntry>();
  const places = new Map<string, string>();
  for (const entry of ordered) {
    const { reply, verdict, startedAt } = await writeOnce(entry, places, client, destination, deps);
    attempts.push(attemptOf(reply, verdict, startedAt));
    if (verdict.state !== 'delivered') {
      return stoppedAt(verdict, reply, entry, lines.size > 0, attempts, submission, destination, deps);
    }
    const line = await lineOf(entry, reply, client);
    lines.set(entry.index, line);
    if (line.id !== undefined) places.set(entry.fullUrl, `${entry.type}/${line.id}`);
  }
  const entries = submission.entries.flatMap(({ index }) => lines.get(index) ?? []);
  const receipt = receiptOf(submission, destination, attempts, entries, [], 'answered');
  const made = entries.some(line => line.status === 201) || submission.entries.some(e => e.method !== 'POST');
  return { state: made ? 'delivered' : 'delivered-already', receipt, attempts, findings: [] };
}

async function writeOnce(
  entry: SentEntry,
  places: ReadonlyMap<string, string>,
  client: FhirClient,
  destination: Destination,
  deps: SubmitDeps,
): Promise<{ reply: Reply; verdict: Verdict; startedAt: number }> {
  const text = entry.resource ? exactText(withPlaces(entry.resource, places)) : '';
  const condition = entry.ifNoneExist === undefined ? {} : { 'if-none-exist': entry.ifNoneExist };
  const headers = { ...condition, ...(entry.ifMatch !== undefined && { 'if-match': entry.ifMatch }) };
  const startedAt = deps.clock();
  const method = entry.method === 'PUT' ? 'PUT' : 'POST';
  const reply = await client.write(method, entry.url, text, headers);
  const verdict = judge(reply, entry, false, deps);
  if (verdict.next !== 'renew-token' || !deps.authorize) return { reply, verdict, startedAt };
  const again = await fhirClient(destination, deps, true).write(method, entry.url, text, headers);
  return { reply: again, verdict: judge(again, entry, true, deps), startedAt };
}

/** 200 and 201 are what one write is answered with; everything else means what it means for a transaction. */
function judge(
  { exchange, body }: Reply,
  entry: SentEntry,
  tokenRenewed: boolean,
  deps: SubmitDeps,
): Verdict {
  if (exchange.kind === 'answer' && (exchange.status === 200 || exchange.status === 201)) {
    const { status } = exchange;
    return {
      state: 'delivered',
      processed: 'yes',
      next: 'nothing',
      scope: 'record',
      reason: 'accepted',
      status,
    };
  }
  const seen = {
    exchange,
    ...(body !== undefined && { body }),
    sent: [entry],
    tokenRenewed,
    now: deps.clock(),
  };
  return classifyAnswer(seen);
}

/** What a fault at one entry comes to. In the middle: for certain refused is a part delivered; anything else may be gone on with. */
export function stoppedAt(
  verdict: Verdict,
  reply: Reply,
  entry: SentEntry,
  begun: boolean,
  attempts: readonly Attempt[],
  submission: Submission,
  destination: Destination,
  deps: SubmitDeps,
): SendOutcome {
  const voice = voiceOf(submission, destination, deps);
  const issues = issuesOf(reply.body, submission.entries, entry.index);
  const told = begun ? inTheMiddle(verdict) : verdict;
  const findings = [...sayVerdict(voice, told), ...sayIssues(voice, issues)];
  if (told.state === 'delivered') throw new TypeError('a write that was accepted stops nothing');
  return { state: told.state, verdict: told, issues, attempts, findings };
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

async function lineOf(
  entry: SentEntry,
  { exchange, body }: Reply,
  client: FhirClient,
): Promise<ReceiptEntry> {
  const { fullUrl, type } = entry;
  const { status, headers } = exchange.kind === 'answer' ? exchange : { status: 0, headers: {} };
  const location = headers.location ?? headers['content-location'];
  const place = location === undefined ? undefined : parseLocation(location);
  const inBody = textAt(body, 'resourceType') === type ? textAt(body, 'id') : undefined;
  const id = place?.type === type ? place.id : inBody;
  const base = { fullUrl, type, status };
  if (id !== undefined) {
    const version = place?.version ?? headers.etag?.replace(/^(?:W\/)?"(.*)"$/, '$1');
    return {
      ...base,
      found: 'answer',
      id,
      location: location ?? `${type}/${id}`,
      ...(version !== undefined && { version }),
      ...(headers.etag !== undefined && { etag: headers.etag }),
    };
  }
  const lookup = await lookUp(client, entry);
  const only = onlyOf(lookup);
  return only
    ? { ...base, found: 'search', id: only.id, location: `${type}/${only.id}` }
    : { ...base, found: 'not-found' };
}
