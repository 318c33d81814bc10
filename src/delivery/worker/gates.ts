import type { Gate, Outbox } from '../outbox/outbox.js';
import { openGate } from '../outbox/rules.js';
import { backoffMs } from './backoff.js';
import type { GateEffect, RetryPolicy } from './decide.js';

/** How many items of a destination may be sent at the same time now: none, one to try it out, or all lanes. */
export function lanesOpen(gate: Gate, now: number, lanes: number, policy: RetryPolicy): number {
  if (gate.paused !== undefined || gate.closedUntil > now) return 0;
  return gate.failures >= policy.breakerAfter ? 1 : lanes;
}

/** The gate after an attempt. Pure. @param random a number in [0, 1). */
export function gateAfter(
  gate: Gate,
  effect: GateEffect,
  now: number,
  random: number,
  policy: RetryPolicy,
): Gate {
  switch (effect.kind) {
    case 'nothing':
      return gate;
    case 'works':
      return { ...gate, failures: 0 };
    case 'waits':
      return { ...gate, closedUntil: Math.max(gate.closedUntil, now + effect.waitMs) };
    case 'pauses':
      return { ...gate, paused: effect.reason };
    case 'fails': {
      const failures = gate.failures + 1;
      const over = failures - policy.breakerAfter + 1;
      const rest = over > 0 ? backoffMs(over, random, policy.breaker) : 0;
      const wait = Math.max(rest, effect.waitMs ?? 0);
      return { ...gate, failures, closedUntil: Math.max(gate.closedUntil, now + wait) };
    }
  }
}

/**
 * Opens a destination again, after a person has mended what was wrong.
 *
 * @param keepTime true to leave it alone until the time that was set.
 */
export async function resume(
  outbox: Pick<Outbox, 'changeGate'>,
  destination: string,
  keepTime = false,
): Promise<void> {
  await outbox.changeGate(destination, ({ closedUntil }) => ({
    ...openGate(destination),
    ...(keepTime && { closedUntil }),
  }));
}
