import { describe, expect, it } from 'vitest';
import { classifyAnswer } from '../../../src/delivery/answer/classify.js';
import { parseExact } from '../../../src/delivery/answer/exact-json.js';
import type { Verdict } from '../../../src/delivery/answer/verdict.js';
import type { AnswerHeaders, Exchange } from '../../../src/delivery/http/exchange.js';
import { faultOf } from '../../../src/delivery/http/fault.js';
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
const BY_CRITERIA: Sent[] = [{ method: 'POST', conditional: ['Patient?identifier=a|b'] }];

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

type Expected = Partial<Verdict>;
type Row = [what: string, exchange: Exchange, expected: Expected, options?: Parameters<typeof classify>[1]];

const delivered: Expected = { state: 'delivered', processed: 'yes', next: 'nothing' };
const partial: Expected = { state: 'partial', processed: 'partly', next: 'reconcile' };
const unknown: Expected = { state: 'outcome-unknown', processed: 'maybe' };
const resend: Expected = { ...unknown, next: 'reconcile-then-resend' };
const paused: Expected = {
  state: 'destination-paused',
  processed: 'no',
  next: 'pause',
  scope: 'destination',
};

const rows: Row[] = [
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
  [
    '200, batch-response',
    answer(200, { ...accepted(), type: 'batch-response' }),
    { ...partial, reason: 'batch-instead' },
  ],
  ['200, fewer answers than entries', answer(200, entries('201')), { ...partial, reason: 'count-differs' }],
  ['200, no answers', answer(200, { resourceType: 'Bundle', type: 'transaction-response' }), partial],
  [
    '200, an entry refused',
    answer(200, entries('201', '422', '201', '201')),
    { ...partial, reason: 'entry-failed' },
  ],
  ['200, an entry throttled', answer(200, entries('201', '429', '201', '201')), partial],
  ['200, an entry without a status', answer(200, entries('201', '', '201', '201')), partial],
  [
    '201, stored as a Bundle',
    answer(201, '', { location: 'https://x/fhir/Bundle/7/_history/1' }),
    { ...unknown, reason: 'echoed', next: 'reconcile', scope: 'destination' },
  ],
  [
    '200, our Bundle echoed',
    answer(200, { resourceType: 'Bundle', type: 'transaction' }),
    { ...unknown, reason: 'echoed' },
  ],
  [
    '200, truncated JSON',
    answer(200, '{"resourceType":"Bund'),
    { ...unknown, reason: 'unreadable', next: 'reconcile' },
  ],
  ['200, HTML', answer(200, '<html>ok</html>'), { ...unknown, reason: 'unreadable' }],
  ['200, empty', answer(200), { ...unknown, reason: 'unreadable' }],
  [
    '200, an OperationOutcome',
    answer(200, { resourceType: 'OperationOutcome' }),
    { ...unknown, reason: 'unreadable' },
  ],
  [
    '202 with a place to ask',
    answer(202, '', { 'content-location': '/job/1', 'retry-after': '3' }),
    { ...unknown, next: 'poll', waitMs: 3000 },
  ],
  ['202 without', answer(202), { ...unknown, next: 'reconcile' }],
  ...[301, 302, 307, 308].map(
    (s): Row => [
      `${s}`,
      answer(s, '', { location: 'https://elsewhere' }),
      { state: 'refused', processed: 'no', next: 'pause', reason: 'redirect' },
    ],
  ),
  ...[400, 413, 422].map(
    (s): Row => [`${s}`, answer(s), { state: 'refused', processed: 'no', next: 'person', scope: 'record' }],
  ),
  ...[404, 405, 406, 415, 501].map((s): Row => [`${s}`, answer(s), paused]),
  [
    '404 with an OperationOutcome, referring by criteria',
    answer(404, { resourceType: 'OperationOutcome', issue: [] }),
    { state: 'refused', reason: 'reference-not-found', scope: 'record' },
    { sent: BY_CRITERIA },
  ],
  ['404 with HTML, referring by criteria', answer(404, '<html>'), paused, { sent: BY_CRITERIA }],
  ['401', answer(401), { state: 'destination-paused', next: 'renew-token', processed: 'no' }],
  ['401 with a renewed token', answer(401), paused, { tokenRenewed: true }],
  ['403', answer(403), paused],
  ...[408, 425].map((s): Row => [`${s}`, answer(s), resend]),
  ['409 on creates', answer(409), { state: 'conflict', next: 'search-identifier', processed: 'maybe' }],
  [
    '409 with updates',
    answer(409),
    { state: 'conflict', next: 're-read', processed: 'no' },
    { sent: WITH_UPDATE },
  ],
  ['410', answer(410), { state: 'conflict', next: 'person', reason: 'gone' }],
  [
    '412 on creates',
    answer(412),
    { state: 'conflict', next: 'person', reason: 'several-matches', processed: 'no' },
  ],
  ['412 with updates', answer(412), { state: 'conflict', next: 're-read' }, { sent: WITH_UPDATE }],
  ['429', answer(429), { state: 'throttled', next: 'wait', processed: 'no', scope: 'destination' }],
  ['429 with seconds', answer(429, '', { 'retry-after': '120' }), { state: 'throttled', waitMs: 120_000 }],
  [
    '429 with a date',
    answer(429, '', { 'retry-after': 'Thu, 14 Mar 2024 10:00:30 GMT' }),
    { waitMs: 30_000 },
  ],
  ...[500, 502, 504, 507].map((s): Row => [`${s}`, answer(s, '<html>'), resend]),
  [
    '503 with Retry-After',
    answer(503, '', { 'retry-after': '5' }),
    { ...resend, scope: 'destination', waitMs: 5000 },
  ],
  ['503 without', answer(503), { ...resend, scope: 'destination' }],
  [
    '503 with a reason',
    answer(503, { resourceType: 'OperationOutcome', issue: [{ code: 'transient' }] }),
    { state: 'throttled', next: 'wait', processed: 'no', scope: 'destination' },
  ],
  [
    '503 that ran out of time',
    answer(503, { resourceType: 'OperationOutcome', issue: [{ code: 'timeout' }] }),
    { ...resend, scope: 'destination' },
  ],
  ...['ECONNRESET', 'EPIPE', 'UND_ERR_SOCKET', 'UND_ERR_HEADERS_TIMEOUT', 'SOMETHING_NEW'].map(
    (code): Row => [code, faultOf({ cause: { code } }, undefined, 1), resend],
  ),
  ['time limit', faultOf({}, 'timeout', 1), { ...resend, reason: 'time-out' }],
  ...[
    'ENOTFOUND',
    'EAI_AGAIN',
    'ECONNREFUSED',
    'EHOSTUNREACH',
    'UND_ERR_CONNECT_TIMEOUT',
    'ERR_SSL_WRONG_VERSION_NUMBER',
  ].map(
    (code): Row => [
      code,
      faultOf({ cause: { code } }, undefined, 1),
      { state: 'unreachable', processed: 'no', next: 'wait', scope: 'destination' },
    ],
  ),
  ...[
    'ERR_TLS_CERT_ALTNAME_INVALID',
    'CERT_HAS_EXPIRED',
    'SELF_SIGNED_CERT_IN_CHAIN',
    'UNABLE_TO_VERIFY_LEAF_SIGNATURE',
    'DEPTH_ZERO_SELF_SIGNED_CERT',
  ].map(
    (code): Row => [code, faultOf({ cause: { code } }, undefined, 1), { ...paused, reason: 'certificate' }],
  ),
];

describe('classifyAnswer', () => {
  it.each(rows)('%s', (_what, exchange, expected, options) => {
    expect(classify(exchange, options)).toMatchObject(expected);
  });

  it('gives an answer for every status, and calls nothing delivered but a full success', () => {
    for (let status = 200; status < 600; status += 1) {
      const verdict = classify(answer(status));
      expect(verdict.state).not.toBe('delivered');
      expect(verdict.status).toBe(status);
    }
  });
});
