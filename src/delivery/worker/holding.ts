import type { Lease, Outbox } from '../outbox/outbox.js';

/** Thrown before a write when another worker may have taken over the item. */
export class LeaseLost extends Error {}

/** A lease in use: prolonged while its item is worked on, and looked at before each write. */
export interface Holding {
  /** @throws LeaseLost when the lease has run out, or is not known to outlast one more request. */
  readonly assure: () => Promise<void>;
  readonly letGo: () => void;
}

/**
 * Keeps a lease while its item is worked on. A machine may sleep for longer than a lease lasts, and wakes up in the
 * middle of a case that another worker has gone on with: so the lease is made sure of before each write, and is good
 * for the time that one request may take. What remains is the moment between that and the first byte.
 *
 * @param leaseMs for how long a lease is prolonged each time.
 * @param requestMs how long one request may take.
 */
export function hold(
  lease: Lease,
  outbox: Pick<Outbox, 'extend'>,
  { clock, leaseMs, requestMs }: { clock: () => number; leaseMs: number; requestMs: number },
): Holding {
  let until = lease.until;
  const prolong = async () => {
    const now = clock();
    const further = now + Math.max(leaseMs, 2 * requestMs);
    if (await outbox.extend(lease, further, now)) until = Math.max(until, further);
    else until = 0;
  };
  const beat = setInterval(() => void prolong().catch(() => undefined), leaseMs / 3);
  beat.unref();
  return {
    assure: async () => {
      if (until - clock() < requestMs) await prolong();
      if (until - clock() < requestMs) throw new LeaseLost();
    },
    letGo: () => clearInterval(beat),
  };
}
