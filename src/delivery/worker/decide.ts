import { isDelivered, type NotDelivered, type SendOutcome } from '../answer/outcome.js';
import type { OutboxItem, Parked, Settlement } from '../outbox/outbox.js';
import { type Backoff, backoffMs } from './backoff.js';

/** How patient the worker is. */
export interface RetryPolicy {
  readonly backoff: Backoff;
  /** Failures in a row after which a destination is left alone for a while. */
  readonly breakerAfter: number;
  readonly breaker: Backoff;
  /** An item that is still not delivered after this time needs a person, in milliseconds. */
  readonly maxAgeMs: number;
}

export const RETRY_POLICY: RetryPolicy = {
  backoff: { baseMs: 2_000, capMs: 15 * 60_000 },
  breakerAfter: 5,
  breaker: { baseMs: 15_000, capMs: 10 * 60_000 },
  maxAgeMs: 7 * 24 * 3_600_000,
};

/** What an attempt tells about the destination itself. */
export type GateEffect =
  /** It works. */
  | { readonly kind: 'works' }
  /** It failed, or was not there. `waitMs`: it asked to be left alone for so long. */
  | { readonly kind: 'fails'; readonly waitMs?: number }
  /** It asked to be left alone. */
  | { readonly kind: 'waits'; readonly waitMs: number }
  /** A person must look at it. */
  | { readonly kind: 'pauses'; readonly reason: string }
  | { readonly kind: 'nothing' };

/** A server that throttles and asks to wait 0 s is still not asked again at once. */
const MIN_WAIT_MS = 1_000;

export interface Decision {
  readonly settlement: Settlement;
  readonly gate: GateEffect;
}

/**
 * What follows from an outcome, for the item and for its destination: what is the destination's fault pauses
 * the destination, what is the record's parks the record, the rest is tried again. Pure.
 *
 * @param random a number in [0, 1), for the jitter.
 */
export function decide(
  outcome: SendOutcome,
  item: Pick<OutboxItem, 'attempts' | 'createdAt'>,
  now: number,
  random: number,
  policy: RetryPolicy,
): Decision {
  if (isDelivered(outcome)) {
    return { settlement: { kind: 'delivered', receipt: outcome.receipt }, gate: { kind: 'works' } };
  }
  const decision = decideUndelivered(outcome, backoffMs(item.attempts + 1, random, policy.backoff), now);
  const { settlement } = decision;
  if (settlement.kind !== 'again' || now - item.createdAt < policy.maxAgeMs) return decision;
  return {
    ...decision,
    settlement: parkedAs('too-old', outcome, now, settlement.unknown === false),
  };
}

function decideUndelivered(outcome: NotDelivered, waitMs: number, now: number): Decision {
  const { verdict } = outcome;
  const reason = verdict?.reason ?? outcome.findings[0]?.code ?? outcome.state;
  const known = outcome.state === 'not-sent' || verdict?.processed === 'no';
  // Without a request nothing was sent this time; in the middle of several, a part of it was.
  const possible = outcome.attempts.length > 0 || 'as before';
  const unknown = !known && possible;
  const again = (notBefore: number): Settlement => ({
    ...{ kind: 'again', notBefore, reason, unknown },
    said: saidIn(reason, outcome, now),
  });
  const asked = verdict?.waitMs === undefined ? {} : { waitMs: verdict.waitMs };
  switch (outcome.state) {
    case 'not-sent':
      return { settlement: parkedAs(reason, outcome, now, known), gate: { kind: 'nothing' } };
    case 'destination-paused':
      return { settlement: again(now), gate: { kind: 'pauses', reason } };
    case 'refused':
      return verdict?.scope === 'destination'
        ? { settlement: again(now), gate: { kind: 'pauses', reason } }
        : { settlement: parkedAs(reason, outcome, now, known), gate: { kind: 'works' } };
    case 'conflict':
      // Someone else may be writing the same: looking again is right before a person is asked.
      return verdict?.next === 'search-identifier'
        ? { settlement: again(now + waitMs), gate: { kind: 'works' } }
        : { settlement: parkedAs(reason, outcome, now, known), gate: { kind: 'works' } };
    case 'partial':
      return { settlement: parkedAs(reason, outcome, now, known), gate: { kind: 'works' } };
    case 'throttled':
      return {
        settlement: again(now),
        gate: { kind: 'waits', waitMs: Math.max(verdict?.waitMs ?? waitMs, MIN_WAIT_MS) },
      };
    case 'unreachable':
      return { settlement: again(now + waitMs), gate: { kind: 'fails', ...asked } };
    case 'outcome-unknown':
      return verdict?.reason === 'echoed'
        ? { settlement: again(now), gate: { kind: 'pauses', reason } }
        : { settlement: again(now + waitMs), gate: { kind: 'fails', ...asked } };
  }
}

function parkedAs(reason: string, outcome: NotDelivered, now: number, known: boolean): Settlement {
  return { kind: 'parked', known, parked: saidIn(reason, outcome, now) };
}

/** What an attempt came to, in the words of both sides. */
function saidIn(reason: string, { findings, answer, verdict }: NotDelivered, now: number): Parked {
  const { waitMs } = verdict ?? {};
  return {
    ...{ reason, by: 'casetally', at: now, findings },
    ...(answer !== undefined && { answer }),
    ...(waitMs !== undefined && { askedUntil: now + Math.max(waitMs, MIN_WAIT_MS) }),
  };
}
