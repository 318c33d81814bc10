import { describe, expect, it } from 'vitest';
import { classifyAnswer } from '../../../src/delivery/answer/classify.js';
import { parseExact } from '../../../src/delivery/answer/exact-json.js';
import type { Verdict } from '../../../src/delivery/answer/verdict.js';
import type { AnswerHeaders, Exchange } from '../../../src/delivery/http/exchange.js';
import { accepted } from '../samples.js';

/*
 * Each row: what is seen, and what must follow. The meaning of the status codes is RFC 9110 and RFC 6585; what
 * each tells about whether a transaction was processed is FHIR R4, https://hl7.org/fhir/R4/http.html#transaction,
 * and beyond that common practice, no source.
 */

const NOW = Date.UTC(2024, 2, 14, 10, 0, 0);
interface Sent {
  method: string;
  conditional: string[];
}
const CREATES: Sent[] = Array.from({ length: 4 }, () => ({ method: 'POST', conditional: [] }));
const WITH_UPDATE: Sent[] = [...CREATES.slice(1), { method: 'PUT', conditional: [] }];
const WITH_PATCH: Sent[] = [...CREATES.slice(1), { method: 'PATCH', conditional: [] }];
// One of several refers so.
const BY_CRITERIA: Sent[] = [
  ...CREATES.slice(1),
  { method: 'POST', conditional: ['Patient?identifier=a|b'] },
];

function classify(
  exchange: Exchange,
  { sent = CREATES, tokenRenewed = false }: { sent?: Sent[]; tokenRenewed?: boolean } = {},
): Verdict {
  const text = exchange.kind === 'answer' ? exchange.body : '';
  let body: ReturnType<typeof parseExact> | undefined;
  try {
    body = parseExact(text);
  } catch {
    body = undefined;
  }
  return classifyAnswer({ exchange, ...(body !== undefined && { body }), sent, tokenRenewed, now: NOW });
}

function answer(status: number, body: unknown = '', headers: AnswerHeaders = {}): Exchange {
  const text = typeof body === 'string' ? body : JSON.stringify(body);
  return { kind: 'answer', status, headers, body: text, bodyCut: false, durationMs: 5 };
}

const entries = (...statuses: string[]) => ({
  resourceType: 'Bundle',
  type: 'transaction-response',
  entry: statuses.map(status => ({ response: { status } })),
});

type Expected = Omit<Verdict, 'status'>;
type Row = [what: string, exchange: Exchange, expected: Expected, options?: Parameters<typeof classify>[1]];
type Reason = Verdict['reason'];

const delivered: Expected = {
  state: 'delivered',
  processed: 'yes',
  next: 'nothing',
  scope: 'record',
  reason: 'accepted',
};
const partial = (reason: Reason): Expected => ({
  state: 'partial',
  processed: 'partly',
  next: 'reconcile',
  scope: 'record',
  reason,
});
const unknown = (reason: Reason): Expected => ({
  state: 'outcome-unknown',
  processed: 'maybe',
  next: 'reconcile',
  scope: 'record',
  reason,
});
const resend = (reason: Reason): Expected => ({ ...unknown(reason), next: 'reconcile-then-resend' });
const echoed: Expected = { ...unknown('echoed'), scope: 'destination' };
const refused = (reason: Reason): Expected => ({
  state: 'refused',
  processed: 'no',
  next: 'person',
  scope: 'record',
  reason,
});
const redirected: Expected = { ...refused('redirect'), next: 'pause', scope: 'destination' };
const conflict = (reason: Reason, next: Verdict['next']): Expected => ({
  state: 'conflict',
  processed: 'no',
  next,
  scope: 'record',
  reason,
});
const reRead = conflict('version-conflict', 're-read');
const paused = (reason: Reason): Expected => ({
  state: 'destination-paused',
  processed: 'no',
  next: 'pause',
  scope: 'destination',
  reason,
});
const throttled = (reason: Reason): Expected => ({
  state: 'throttled',
  processed: 'no',
  next: 'wait',
  scope: 'destination',
  reason,
});
const unavailable: Expected = { ...resend('unavailable'), scope: 'destination' };
const outcome = (...codes: string[]) => ({
  resourceType: 'OperationOutcome',
  issue: codes.map(code => ({ code })),
});
const noTransaction = paused('not-a-transaction-address');

const successes: Row[] = [
  ['200 with a matching answer', answer(200, accepted()), delivered],
  // Seen on HAPI FHIR 8.8.0, which gives every transaction answer the Location of a Bundle.
  [
    '200 with a matching answer and a Location',
    answer(200, accepted(), { location: 'https://x/fhir/Bundle/7' }),
    delivered,
  ],
  ['201 with a matching answer', answer(201, accepted()), delivered],
  ['200, entries matched', answer(200, accepted('200 OK')), delivered],
  ['200, statuses without words', answer(200, entries('201', '200', '201', '200')), delivered],
  ['200, batch-response', answer(200, { ...accepted(), type: 'batch-response' }), partial('batch-instead')],
  ['200, fewer answers than entries', answer(200, entries('201')), partial('count-differs')],
  ['200, more answers than entries', answer(200, entries(...Array(5).fill('201'))), partial('count-differs')],
  [
    '200, no answers',
    answer(200, { resourceType: 'Bundle', type: 'transaction-response' }),
    partial('count-differs'),
  ],
  // The status of an entry SHALL start with the three digits: https://hl7.org/fhir/R4/bundle-definitions.html
  ...['422', '429', '', '100 Continue', '300 Multiple Choices', 'HTTP 201 Created', '2010', '20'].map(
    (s): Row => [
      `200, an entry with '${s}'`,
      answer(200, entries('201', s, '201', '201')),
      partial('entry-failed'),
    ],
  ),
  [
    '200, an entry without an answer',
    answer(200, { ...accepted(), entry: [...entries('201', '201', '201').entry, {}] }),
    partial('entry-failed'),
  ],
  ['201, stored as a Bundle', answer(201, '', { location: 'https://x/fhir/Bundle/7/_history/1' }), echoed],
  ['201, stored as a Bundle by a relative address', answer(201, '', { location: 'Bundle/7' }), echoed],
  ['201, a Location that is no Bundle', answer(201, '', { location: '/MyBundle/7' }), unknown('unreadable')],
  ['201, the Location of all Bundles', answer(201, '', { location: '/Bundle/' }), unknown('unreadable')],
  ['200, our Bundle echoed', answer(200, { resourceType: 'Bundle', type: 'transaction' }), echoed],
  ['200, our Bundle echoed as a batch', answer(200, { resourceType: 'Bundle', type: 'batch' }), echoed],
  [
    '200, a list of what it holds',
    answer(200, { resourceType: 'Bundle', type: 'searchset' }),
    unknown('unreadable'),
  ],
  [
    '200, something else with the type of an answer',
    answer(200, { ...accepted(), resourceType: 'Parameters' }),
    unknown('unreadable'),
  ],
  ['200, truncated JSON', answer(200, '{"resourceType":"Bund'), unknown('unreadable')],
  ['200, HTML', answer(200, '<html>ok</html>'), unknown('unreadable')],
  ['200, empty', answer(200), unknown('unreadable')],
  ['200, an OperationOutcome', answer(200, outcome()), unknown('unreadable')],
  [
    '202 with a place to ask',
    answer(202, '', { 'content-location': '/job/1', 'retry-after': '3' }),
    { ...unknown('accepted-for-later'), next: 'poll', waitMs: 3000 },
  ],
  ['202 without', answer(202), unknown('accepted-for-later')],
];

const refusals: Row[] = [
  ...[300, 301, 302, 307, 308].map(
    (s): Row => [`${s}`, answer(s, '', { location: 'https://elsewhere' }), redirected],
  ),
  ['400', answer(400), refused('invalid')],
  ['422', answer(422), refused('invalid')],
  ['413', answer(413), refused('too-large')],
  ...[404, 405, 501].map((s): Row => [`${s}`, answer(s), noTransaction]),
  ...[406, 415].map((s): Row => [`${s}`, answer(s), paused('media-type')]),
  [
    '404 with an OperationOutcome, referring by criteria',
    answer(404, outcome()),
    refused('reference-not-found'),
    { sent: BY_CRITERIA },
  ],
  ['404 with an OperationOutcome, without criteria', answer(404, outcome()), noTransaction],
  ['404 with HTML, referring by criteria', answer(404, '<html>'), noTransaction, { sent: BY_CRITERIA }],
  ['401', answer(401), { ...paused('unauthorised'), next: 'renew-token' }],
  ['401 with a renewed token', answer(401), paused('unauthorised'), { tokenRenewed: true }],
  ['403', answer(403), paused('forbidden')],
  ...[408, 425].map((s): Row => [`${s}`, answer(s), resend('request-time-out')]),
  [
    '409 on creates',
    answer(409),
    { ...conflict('conflict-on-create', 'search-identifier'), processed: 'maybe' },
  ],
  ['409 with updates', answer(409), reRead, { sent: WITH_UPDATE }],
  ['409 with a patch', answer(409), reRead, { sent: WITH_PATCH }],
  ['410', answer(410), conflict('gone', 'person')],
  ['412 on creates', answer(412), conflict('several-matches', 'person')],
  ['412 with updates', answer(412), reRead, { sent: WITH_UPDATE }],
  ['412 with a patch', answer(412), reRead, { sent: WITH_PATCH }],
];

const waits: Row[] = [
  ['429', answer(429), throttled('rate-limit')],
  [
    '429 with seconds',
    answer(429, '', { 'retry-after': '120' }),
    { ...throttled('rate-limit'), waitMs: 120_000 },
  ],
  [
    '429 with a date',
    answer(429, '', { 'retry-after': 'Thu, 14 Mar 2024 10:00:30 GMT' }),
    { ...throttled('rate-limit'), waitMs: 30_000 },
  ],
  ...[500, 502, 504, 507].map((s): Row => [`${s}`, answer(s, '<html>'), resend('server-error')]),
  ['503 with Retry-After', answer(503, '', { 'retry-after': '5' }), { ...unavailable, waitMs: 5000 }],
  ['503 without', answer(503), unavailable],
  ['503 with a reason', answer(503, outcome('transient')), throttled('unavailable')],
  [
    '503 with a reason and Retry-After',
    answer(503, outcome('transient'), { 'retry-after': '5' }),
    { ...throttled('unavailable'), waitMs: 5000 },
  ],
  ['503 with a reason of no code', answer(503, outcome('')), throttled('unavailable')],
  ...['timeout', 'incomplete'].map(
    (code): Row => [
      `503 of a server that had begun: ${code}`,
      answer(503, outcome('transient', code)),
      unavailable,
    ],
  ),
];

describe('classifyAnswer', () => {
  it.each([...successes, ...refusals, ...waits])('%s', (_what, exchange, expected, options) => {
    const status = exchange.kind === 'answer' ? exchange.status : undefined;
    expect(classify(exchange, options)).toStrictEqual({ ...expected, status });
  });

  it('gives an answer for every status, and calls nothing delivered but a full success', () => {
    for (let status = 200; status < 600; status += 1) {
      const verdict = classify(answer(status));
      expect(verdict.state).not.toBe('delivered');
      expect(verdict.status).toBe(status);
    }
  });
});
