import type { Answer, Exchange } from '../http/exchange.js';
import type { Fault, FaultReason } from '../http/fault.js';
import { retryAfterMs } from '../http/retry-after.js';
import type { SentEntry } from '../request/submission.js';
import { type ExactJson, listAt, objectAt, textAt } from './exact-json.js';
import { ACCEPTED, type Verdict, type VerdictReason } from './verdict.js';

/** What the classifier looks at: pure data. */
export interface Seen {
  readonly exchange: Exchange;
  /** The body, parsed, when it is JSON. */
  readonly body?: ExactJson;
  readonly sent: readonly Pick<SentEntry, 'method' | 'conditional'>[];
  /** True when this was sent with a token renewed after a 401. */
  readonly tokenRenewed: boolean;
  /** Milliseconds since the epoch, for Retry-After dates. */
  readonly now: number;
}

/** Classes what came back after a transaction was posted. The one place that decides this. */
export function classifyAnswer(seen: Seen): Verdict {
  const { exchange } = seen;
  if (exchange.kind === 'fault') return classifyFault(exchange);
  const verdict = classifyStatus(exchange, seen);
  return { ...verdict, status: exchange.status };
}

const FAULTS: Record<FaultReason, VerdictReason> = {
  name: 'name-not-found',
  connect: 'not-connected',
  certificate: 'certificate',
  tls: 'tls',
  reset: 'connection-lost',
  timeout: 'time-out',
  aborted: 'stopped',
  other: 'connection-lost',
  'token-refused': 'token-refused',
  'token-unavailable': 'token-unavailable',
};

function classifyFault({ reason, sent }: Fault): Verdict {
  const word = FAULTS[reason];
  if (sent === 'maybe') return unknown(word, 'reconcile-then-resend');
  if (reason === 'certificate' || reason === 'token-refused') return paused(word);
  return { state: 'unreachable', processed: 'no', next: 'wait', scope: 'destination', reason: word };
}

function classifyStatus(answer: Answer, seen: Seen): Verdict {
  const { status } = answer;
  const waitMs = retryAfterMs(answer.headers['retry-after'], seen.now);
  const wait = waitMs === undefined ? {} : { waitMs };
  if (status === 202)
    return {
      ...unknown('accepted-for-later', answer.headers['content-location'] ? 'poll' : 'reconcile'),
      ...wait,
    };
  if (status < 300) return classifySuccess(answer, seen);
  if (status < 400) return { ...refused('redirect'), next: 'pause', scope: 'destination' };
  switch (status) {
    case 401:
      return seen.tokenRenewed ? paused('unauthorised') : { ...paused('unauthorised'), next: 'renew-token' };
    case 403:
      return paused('forbidden');
    case 404:
      // Servers answer 404 for the whole when a conditional reference matches nothing; that is the record's matter.
      return refersByCriteria(seen) ? refused('reference-not-found') : paused('not-a-transaction-address');
    case 405:
    case 501:
      return paused('not-a-transaction-address');
    case 406:
    case 415:
      return paused('media-type');
    case 408:
    case 425:
      return unknown('request-time-out', 'reconcile-then-resend');
    case 409:
      return updates(seen)
        ? conflict('version-conflict', 're-read')
        : conflict('conflict-on-create', 'search-identifier');
    case 410:
      return conflict('gone', 'person');
    case 412:
      return updates(seen) ? conflict('version-conflict', 're-read') : conflict('several-matches', 'person');
    case 413:
      return refused('too-large');
    case 429:
      return {
        state: 'throttled',
        processed: 'no',
        next: 'wait',
        scope: 'destination',
        reason: 'rate-limit',
        ...wait,
      };
    case 503:
      return isPlainRefusal(seen.body)
        ? {
            state: 'throttled',
            processed: 'no',
            next: 'wait',
            scope: 'destination',
            reason: 'unavailable',
            ...wait,
          }
        : { ...unknown('unavailable', 'reconcile-then-resend'), scope: 'destination', ...wait };
    default:
      return status >= 500 ? unknown('server-error', 'reconcile-then-resend') : refused('invalid');
  }
}

/** FHIR IssueTypes of a server that had begun: https://hl7.org/fhir/R4/valueset-issue-type.html. */
const NOT_PLAIN: ReadonlySet<string | undefined> = new Set(['timeout', 'incomplete']);

/** True when the FHIR server itself says why it did not begin; one that ran out of time may have begun. */
function isPlainRefusal(body: ExactJson | undefined): boolean {
  return (
    textAt(body, 'resourceType') === 'OperationOutcome' &&
    !listAt(body, 'issue').some(issue => NOT_PLAIN.has(textAt(issue, 'code')))
  );
}

/** True when the submission updates something, so that 409 and 412 can be about a version. */
function updates(seen: Seen): boolean {
  return seen.sent.some(entry => entry.method === 'PUT' || entry.method === 'PATCH');
}

function refersByCriteria({ body, sent }: Seen): boolean {
  return (
    textAt(body, 'resourceType') === 'OperationOutcome' && sent.some(entry => entry.conditional.length > 0)
  );
}

function classifySuccess(answer: Answer, { body, sent }: Seen): Verdict {
  const type = textAt(body, 'type');
  const isBundle = textAt(body, 'resourceType') === 'Bundle';
  const isAnswer = isBundle && (type === 'transaction-response' || type === 'batch-response');
  if (!isAnswer) {
    // Some servers put the Location of a Bundle on a proper answer too: only without one does it tell anything.
    const isEcho = isBundle && (type === 'transaction' || type === 'batch');
    const stored = answer.headers.location?.match(/(^|\/)Bundle\/[^/]/);
    if (isEcho || stored) return { ...unknown('echoed', 'reconcile'), scope: 'destination' };
    return unknown('unreadable', 'reconcile');
  }
  const statuses = listAt(body, 'entry').map(entryStatus);
  if (type === 'batch-response') return partial('batch-instead');
  if (statuses.some(status => status === undefined || status < 200 || status >= 300))
    return partial('entry-failed');
  if (statuses.length !== sent.length) return partial('count-differs');
  return ACCEPTED;
}

/** The number at the start of entry.response.status: `201 Created` is 201; undefined when there is none. */
export function entryStatus(entry: ExactJson | undefined): number | undefined {
  const digits = textAt(objectAt(entry, 'response'), 'status')?.match(/^\d{3}\b/);
  return digits ? Number(digits[0]) : undefined;
}

function unknown(reason: VerdictReason, next: Verdict['next']): Verdict {
  return { state: 'outcome-unknown', processed: 'maybe', next, scope: 'record', reason };
}

function partial(reason: VerdictReason): Verdict {
  return { state: 'partial', processed: 'partly', next: 'reconcile', scope: 'record', reason };
}

function refused(reason: VerdictReason): Verdict {
  return { state: 'refused', processed: 'no', next: 'person', scope: 'record', reason };
}

function conflict(reason: VerdictReason, next: Verdict['next']): Verdict {
  const processed = reason === 'conflict-on-create' ? 'maybe' : 'no';
  return { state: 'conflict', processed, next, scope: 'record', reason };
}

function paused(reason: VerdictReason): Verdict {
  return { state: 'destination-paused', processed: 'no', next: 'pause', scope: 'destination', reason };
}
