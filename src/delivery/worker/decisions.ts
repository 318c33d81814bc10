import type { Outbox, OutboxItem } from '../outbox/outbox.js';
import { type Acceptance, accepting } from '../patient/accept.js';
import { resume } from './gates.js';
import { serverAsked } from './next.js';

/** What a person decides about an item that is not delivered. */
export type Decision = 'retry' | 'park' | 'discard';

const DONE: Readonly<Record<Decision, string>> = { retry: 'retried', park: 'parked', discard: 'discarded' };

/** Why a decision could not be carried out. */
export const cannotBe = (what: Decision, { id, state }: Pick<OutboxItem, 'id' | 'state'>): string =>
  `${id} cannot be ${DONE[what]}: it is ${state}.`;

/** Parks or discards an item, who and why kept with it. @returns false when it is in no state for that. */
export function decideItem(
  outbox: Pick<Outbox, 'park' | 'discard'>,
  item: OutboxItem,
  what: 'park' | 'discard',
  { by, why }: { readonly by: string; readonly why: string },
  at: number,
): Promise<boolean> {
  // What the server said last stays beside what the person decided.
  const { findings = [], answer } = item.parked ?? {};
  return outbox[what](item.id, { reason: why, by, at, findings, ...(answer !== undefined && { answer }) });
}

/**
 * Makes an item due now and opens its destination. The time that a server asked for is kept; what Casetally set by
 * itself a person may cut short.
 *
 * @param beside items that are made due with it.
 * @returns false when it is in no state for that.
 * @throws CasetallyError 'usage' for a match that cannot be accepted.
 */
export async function makeDue(
  outbox: Pick<Outbox, 'retry' | 'changeGate'>,
  item: OutboxItem,
  now: number,
  acceptance?: Acceptance,
  beside: readonly OutboxItem[] = [item],
): Promise<boolean> {
  const is = await outbox.retry(item.id, now, acceptance && accepting(item, acceptance, now));
  const asked = beside.some(o => o.destination === item.destination && serverAsked(o));
  await resume(outbox, item.destination, asked);
  return is;
}
