import { finding } from '../../findings/finding.js';
import type { Receipt } from '../receipt/receipt.js';
import type { Accepted } from '../request/expected.js';
import type { Chosen, Gate, ItemState, NewItem, OutboxItem, Parked, Settlement } from './outbox.js';

/* What every store decides, apart from how it keeps things. All of it is pure. */

/** True when `item` says what the newest item of its case says already. */
export function isSame(
  newest: Pick<OutboxItem, 'digest' | 'overwrite'>,
  item: Pick<NewItem, 'digest' | 'overwrite'>,
): boolean {
  return newest.digest === item.digest && (newest.overwrite === true || item.overwrite !== true);
}

/** What a step changes of an item; null takes a value away. */
export interface Change {
  readonly state: ItemState;
  readonly notBefore?: number;
  readonly unknownSince?: number | null;
  readonly lastReason?: string;
  readonly parked?: Parked | null;
  readonly accepted?: readonly Accepted[];
  readonly overwrite?: true;
  readonly receipt?: Receipt;
}

/** The end of an attempt. */
export function settled(settlement: Settlement, now: number): Change {
  switch (settlement.kind) {
    case 'delivered':
      return {
        state: 'delivered',
        unknownSince: null,
        lastReason: 'accepted',
        parked: null,
        receipt: settlement.receipt,
      };
    case 'again': {
      const { notBefore, reason, unknown, said } = settlement;
      const since = unknown === 'as before' ? {} : { unknownSince: unknown ? now : null };
      return { state: 'waiting', notBefore, lastReason: reason, ...since, ...(said && { parked: said }) };
    }
    case 'parked': {
      const { parked, known } = settlement;
      return {
        state: 'parked',
        lastReason: parked.reason,
        parked,
        ...(known && { unknownSince: null }),
      };
    }
  }
}

/** An item that cannot be opened: a person must look, and nothing else waits for it but its own case. */
export function unreadable(id: string, now: number): Change {
  const findings = [finding('delivery.item-unreadable', 'outbox', { id })];
  return {
    state: 'parked',
    lastReason: 'unreadable',
    parked: { reason: 'unreadable', by: 'casetally', at: now, findings },
  };
}

/** What a person may do, and with items in which states. */
export const byPerson = {
  retry: {
    from: ['waiting', 'parked'],
    change: (now: number, { accepted, overwrite }: Chosen = {}): Change => ({
      ...{ state: 'waiting', notBefore: now, parked: null },
      ...(accepted && { accepted }),
      ...(overwrite && { overwrite }),
    }),
  },
  park: {
    from: ['waiting'],
    change: (parked: Parked): Change => ({ state: 'parked', lastReason: parked.reason, parked }),
  },
  discard: {
    from: ['waiting', 'parked'],
    change: (parked: Parked): Change => ({ state: 'discarded', lastReason: parked.reason, parked }),
  },
} as const;

/** The gate of a destination that nothing is known against. */
export function openGate(destination: string): Gate {
  return { destination, closedUntil: 0, failures: 0 };
}

/** True when two gates say the same. */
export function sameGate(a: Gate, b: Gate): boolean {
  return a.closedUntil === b.closedUntil && a.failures === b.failures && a.paused === b.paused;
}

/** When an item was done with: its receipt's time, or that of the decision not to send it; undefined before. */
export function settledAt({ state, receipt, parked }: OutboxItem): number | undefined {
  if (state === 'discarded') return parked?.at;
  const at = state === 'delivered' && receipt ? Date.parse(receipt.sentAt) : Number.NaN;
  return Number.isNaN(at) ? undefined : at;
}

/** True for an item that is parked and holds up a later one of the same case. */
export function holdsUp(
  parked: OutboxItem,
  { destination, caseKey, sequence }: Pick<OutboxItem, 'destination' | 'caseKey' | 'sequence'>,
): boolean {
  return (
    parked.state === 'parked' &&
    parked.destination === destination &&
    parked.caseKey === caseKey &&
    parked.sequence < sequence
  );
}
