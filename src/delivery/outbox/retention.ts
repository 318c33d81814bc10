import type { Checked, OutboxItem } from './outbox.js';
import { type ItemRow, itemOf } from './rows.js';
import type { Sealing } from './sealing.js';

/** When an item was done with: its receipt's time, or that of the decision not to send it; undefined before. */
export function settledAt({ state, receipt, parked }: OutboxItem): number | undefined {
  if (state === 'discarded') return parked?.at;
  const at = state === 'delivered' && receipt ? Date.parse(receipt.sentAt) : Number.NaN;
  return Number.isNaN(at) ? undefined : at;
}

/** Ids of the rows that were done with before a time. A row that cannot be opened is kept: nobody knows its time. */
export function settledBefore(rows: readonly ItemRow[], before: number, sealing: Sealing): string[] {
  return rows
    .map(row => opened(row, sealing))
    .flatMap(({ id, item }) => {
      const at = item && settledAt(item);
      return at !== undefined && at < before ? [id] : [];
    });
}

/** A row with its item, or without one when it cannot be opened. */
export function opened(row: ItemRow, sealing: Sealing): Checked['items'][number] {
  try {
    return { id: row.id, item: itemOf(row, sealing) };
  } catch {
    return { id: row.id };
  }
}
