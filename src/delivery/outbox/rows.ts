import type { Receipt } from '../receipt/receipt.js';
import type { ItemState, NewItem, OutboxItem, Parked } from './outbox.js';
import type { Sealing } from './sealing.js';

/** A row of the table of items, alike in every database. */
export interface ItemRow {
  readonly sequence: number;
  readonly id: string;
  readonly destination: string;
  readonly case_key: string;
  readonly patient_key: string;
  readonly payload: string;
  readonly digest: string;
  readonly context: string | null;
  readonly state: ItemState;
  readonly created_at: number;
  readonly not_before: number;
  readonly attempts: number;
  readonly unknown_since: number | null;
  readonly last_reason: string | null;
  readonly parked: string | null;
  readonly receipt: string | null;
  readonly fence: number;
  readonly lease_until: number;
}

/** The columns of a new item that hold what only the holder of the key may read. */
export function sealItem(item: NewItem, id: string, sealing: Sealing): Pick<ItemRow, 'payload' | 'context'> {
  return {
    payload: sealing.seal(item.payload, `${id}/payload`),
    context: item.context === undefined ? null : sealing.seal(item.context, `${id}/context`),
  };
}

export function sealReceipt(receipt: Receipt, id: string, sealing: Sealing): string {
  return sealing.seal(JSON.stringify(receipt), `${id}/receipt`);
}

export function sealParked(parked: Parked, id: string, sealing: Sealing): string {
  return sealing.seal(JSON.stringify(parked), `${id}/parked`);
}

/** Makes an item of a row, opening what is sealed. */
export function itemOf(row: ItemRow, sealing: Sealing): OutboxItem {
  const { id } = row;
  const open = (sealed: string | null, column: string) =>
    sealed === null ? undefined : sealing.open(sealed, `${id}/${column}`);
  const context = open(row.context, 'context');
  const parked = open(row.parked, 'parked');
  const receipt = open(row.receipt, 'receipt');
  return {
    id,
    sequence: row.sequence,
    destination: row.destination,
    caseKey: row.case_key,
    patientKey: row.patient_key,
    payload: sealing.open(row.payload, `${id}/payload`),
    digest: row.digest,
    state: row.state,
    createdAt: row.created_at,
    notBefore: row.not_before,
    attempts: row.attempts,
    ...(context !== undefined && { context }),
    ...(row.unknown_since !== null && { unknownSince: row.unknown_since }),
    ...(row.last_reason !== null && { lastReason: row.last_reason }),
    ...(parked !== undefined && { parked: JSON.parse(parked) }),
    ...(receipt !== undefined && { receipt: JSON.parse(receipt) }),
  };
}
