import type { ServerIssue } from '../answer/issues.js';
import type { Attempt } from '../answer/outcome.js';
import type { Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import type { Reply } from '../http/fhir-client.js';
import type { Submission } from '../request/submission.js';
import type { Receipt, ReceiptEntry } from './receipt.js';

/** What is kept of one request, for support. */
export function attemptOf({ requestId, exchange }: Reply, verdict: Verdict, startedAt: number): Attempt {
  const serverRequestId =
    exchange.kind === 'answer'
      ? (exchange.headers['x-request-id'] ?? exchange.headers['x-correlation-id'])
      : undefined;
  return {
    requestId,
    ...(serverRequestId !== undefined && { serverRequestId }),
    at: new Date(startedAt).toISOString(),
    durationMs: exchange.durationMs,
    ...(exchange.kind === 'answer' && { status: exchange.status }),
    verdict,
  };
}

/** The receipt of a submission, from the last attempt that was made. */
export function receiptOf(
  submission: Submission,
  { destination }: Session,
  attempts: readonly Attempt[],
  entries: readonly ReceiptEntry[],
  warnings: readonly ServerIssue[],
  how: Receipt['how'],
): Receipt {
  const last = attempts.at(-1);
  return {
    destination: destination.name,
    baseUrl: destination.baseUrl,
    requestId: last?.requestId ?? '',
    ...(last?.serverRequestId !== undefined && { serverRequestId: last.serverRequestId }),
    sentAt: last?.at ?? '',
    digest: submission.digest,
    how,
    entries,
    warnings,
  };
}
