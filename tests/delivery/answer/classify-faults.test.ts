import { describe, expect, it } from 'vitest';
import { classifyAnswer } from '../../../src/delivery/answer/classify.js';
import type { Verdict } from '../../../src/delivery/answer/verdict.js';
import { type FaultReason, faultOf } from '../../../src/delivery/http/fault.js';

/*
 * What no answer at all tells: whether a byte went out decides whether anything may have been processed there.
 * The codes are those of Node.js, https://nodejs.org/api/errors.html, and of its fetch.
 */

const seen = { sent: [], tokenRenewed: false, now: 0 };
const unreachable = (reason: Verdict['reason']): Verdict => ({
  state: 'unreachable',
  processed: 'no',
  next: 'wait',
  scope: 'destination',
  reason,
});
const paused = (reason: Verdict['reason']): Verdict => ({
  ...unreachable(reason),
  state: 'destination-paused',
  next: 'pause',
});
const resend = (reason: Verdict['reason']): Verdict => ({
  state: 'outcome-unknown',
  processed: 'maybe',
  next: 'reconcile-then-resend',
  scope: 'record',
  reason,
});

const codes: [string, Verdict][] = [
  ['ECONNRESET', resend('connection-lost')],
  ['EPIPE', resend('connection-lost')],
  ['UND_ERR_SOCKET', resend('connection-lost')],
  ['UND_ERR_HEADERS_TIMEOUT', resend('time-out')],
  ['SOMETHING_NEW', resend('connection-lost')],
  ['ENOTFOUND', unreachable('name-not-found')],
  ['EAI_AGAIN', unreachable('name-not-found')],
  ['ECONNREFUSED', unreachable('not-connected')],
  ['EHOSTUNREACH', unreachable('not-connected')],
  ['UND_ERR_CONNECT_TIMEOUT', unreachable('not-connected')],
  ['ERR_SSL_WRONG_VERSION_NUMBER', unreachable('tls')],
  ['ERR_TLS_CERT_ALTNAME_INVALID', paused('certificate')],
  ['CERT_HAS_EXPIRED', paused('certificate')],
  ['SELF_SIGNED_CERT_IN_CHAIN', paused('certificate')],
  ['UNABLE_TO_VERIFY_LEAF_SIGNATURE', paused('certificate')],
  ['DEPTH_ZERO_SELF_SIGNED_CERT', paused('certificate')],
];

const tokens: [FaultReason, Verdict][] = [
  ['token-refused', paused('token-refused')],
  ['token-unavailable', unreachable('token-unavailable')],
];

describe('no answer', () => {
  it.each(codes)('%s', (code, expected) => {
    const exchange = faultOf({ cause: { code } }, undefined, 1);
    expect(classifyAnswer({ ...seen, exchange })).toStrictEqual(expected);
  });

  it.each([
    ['timeout', 'time-out'],
    ['aborted', 'stopped'],
  ] as const)('because of %s, while the server may be at work', (stopped, reason) => {
    expect(classifyAnswer({ ...seen, exchange: faultOf({}, stopped, 1) })).toStrictEqual(resend(reason));
  });

  it.each(tokens)('for want of a token: %s', (reason, expected) => {
    const exchange = { kind: 'fault', reason, sent: 'no', code: '', durationMs: 1 } as const;
    expect(classifyAnswer({ ...seen, exchange })).toStrictEqual(expected);
  });
});
