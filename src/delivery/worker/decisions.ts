import type { Chosen, Outbox, OutboxItem } from '../outbox/outbox.js';
import { accepting, heldBack } from '../patient/accept.js';
import { resume } from './gates.js';
import { namedTime, serverAsked } from './next.js';

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

/** What a person lets pass or replaces when an item goes again, with who and why. */
export interface Choice {
  /** Near matches that may pass, by field. */
  readonly accept?: readonly string[] | undefined;
  /** True to replace what others have written at the destination. */
  readonly overwrite?: boolean | undefined;
  readonly by: string;
  readonly why: string;
}

/**
 * What is kept with an item for a choice.
 *
 * @throws CasetallyError 'usage' for a match that cannot be accepted.
 */
export function chosenBy(item: OutboxItem, { accept, overwrite, by, why }: Choice, at: number): Chosen {
  const accepted = accept
    ? accepting(heldBack(item), { fields: accept, by, why }, at)
    : (item.accepted ?? []);
  if (!overwrite) return { accepted };
  // Kept as what was accepted is: who replaced what others had written, and why.
  return { overwrite, accepted: [...accepted, { field: 'overwrite', sent: '', held: '', by, why, at }] };
}

/**
 * Makes an item due: now, or at the time that its server named.
 *
 * @returns false when it is in no state for that.
 * @throws CasetallyError 'usage' for a match that cannot be accepted.
 */
export function makeDue(
  outbox: Pick<Outbox, 'retry'>,
  item: OutboxItem,
  now: number,
  choice?: Choice,
): Promise<boolean> {
  return outbox.retry(item.id, namedTime(item, now) ?? now, choice && chosenBy(item, choice, now));
}

/**
 * Opens the destination of items that a person made due. What Casetally set by itself is cut short; what a server asked
 * for is not, unless `evenAsked`.
 */
export function reopen(
  outbox: Pick<Outbox, 'changeGate'>,
  destination: string,
  waiting: readonly OutboxItem[],
  evenAsked = false,
): Promise<void> {
  const asked = waiting.some(item => item.destination === destination && serverAsked(item));
  return resume(outbox, destination, !evenAsked && asked);
}
