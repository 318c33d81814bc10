import { classifyAnswer } from '../answer/classify.js';
import { receiptLine } from '../answer/entries.js';
import { exactText, textAt } from '../answer/exact-json.js';
import { issuesOf } from '../answer/issues.js';
import type { SendOutcome } from '../answer/outcome.js';
import { ACCEPTED, type Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import type { Reply } from '../http/fhir-client.js';
import type { ReceiptEntry } from '../receipt/receipt.js';
import { withPlaces } from '../request/references.js';
import type { SentEntry, Submission } from '../request/submission.js';
import { inOrderOfReference } from '../request/topology.js';
import { askOnce, notASubmission, rawOf } from './once.js';
import { type Step, sendInSteps, type Written } from './steps.js';

/**
 * Sends a submission one resource after the other, each after those that it refers to, with If-None-Exist or as a
 * conditional update.
 */
export async function sendSingly(submission: Submission, session: Session): Promise<SendOutcome> {
  const writes = submission.entries.every(e => e.method === 'POST' || e.method === 'PUT');
  if (!writes) return notASubmission(session);
  const steps = inOrderOfReference(submission.entries)?.map(entry => [entry]);
  return sendInSteps(submission, session, steps, async ([entry], written) =>
    entry ? write(entry, written, session) : { attempts: [], lines: [] },
  );
}

async function write(entry: SentEntry, written: Written, session: Session): Promise<Step> {
  const { ifNoneExist, ifMatch, resource, url } = entry;
  const text = resource ? exactText(withPlaces(resource, written)) : '';
  const headers = {
    ...(ifNoneExist !== undefined && { 'if-none-exist': ifNoneExist }),
    ...(ifMatch !== undefined && { 'if-match': ifMatch }),
  };
  const method = entry.method === 'PUT' ? 'PUT' : 'POST';
  const { reply, verdict, attempts } = await askOnce(
    session,
    renewToken => session.client.write(method, url, text, headers, renewToken),
    (seen, tokenRenewed) => judge(seen, entry, tokenRenewed, session),
  );
  if (verdict.state === 'delivered') return { attempts, lines: [lineOf(entry, reply)] };
  const issues = issuesOf(reply.body, [entry], entry.index);
  return { attempts, lines: [], fault: { verdict, issues, ...rawOf(reply) } };
}

/** 200 and 201 are what one write is answered with; everything else means what it means for a transaction. */
function judge(
  { exchange, body }: Reply,
  entry: SentEntry,
  tokenRenewed: boolean,
  { clock }: Session,
): Verdict {
  if (exchange.kind === 'answer' && (exchange.status === 200 || exchange.status === 201))
    return { ...ACCEPTED, status: exchange.status };
  return classifyAnswer({
    exchange,
    ...(body !== undefined && { body }),
    sent: [entry],
    tokenRenewed,
    now: clock(),
  });
}

function lineOf(entry: SentEntry, { exchange, body }: Reply): ReceiptEntry {
  const { status, headers } = exchange.kind === 'answer' ? exchange : { status: 0, headers: {} };
  return receiptLine(entry, {
    status,
    location: headers.location ?? headers['content-location'],
    etag: headers.etag,
    outcome: issuesOf(body, [entry], entry.index),
    idInBody: textAt(body, 'resourceType') === entry.type ? textAt(body, 'id') : undefined,
  });
}
