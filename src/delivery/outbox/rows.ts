import type { Checked, ItemState, NewItem, OutboxItem } from './outbox.js';
import type { Change } from './rules.js';
import { keyOfSealed, type Sealing } from './sealing.js';

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
  readonly accepted: string | null;
  readonly fence: number;
  readonly lease_until: number;
  readonly overwrite: number;
}

/** The columns of a new item that hold what only the holder of the key may read. */
export function sealItem(item: NewItem, id: string, sealing: Sealing): Pick<ItemRow, 'payload' | 'context'> {
  return {
    payload: sealing.seal(item.payload, `${id}/payload`),
    context: item.context === undefined ? null : sealing.seal(item.context, `${id}/context`),
  };
}

/** The columns that a change writes, with what goes into them. */
export function valuesOf(change: Change, id: string, sealing: Sealing): [string, string | number | null][] {
  const { state, notBefore, unknownSince, lastReason, parked, receipt, accepted, overwrite } = change;
  const sealed = (value: object | null | undefined, column: string) =>
    value ? sealing.seal(JSON.stringify(value), `${id}/${column}`) : value;
  const columns = {
    state,
    not_before: notBefore,
    unknown_since: unknownSince,
    last_reason: lastReason,
    parked: sealed(parked, 'parked'),
    receipt: sealed(receipt, 'receipt'),
    accepted: sealed(accepted, 'accepted'),
    overwrite: overwrite && 1,
  };
  return Object.entries(columns).flatMap(([column, value]) => (value === undefined ? [] : [[column, value]]));
}

/** Makes an item of a row, opening what is sealed. */
export function itemOf(row: ItemRow, sealing: Sealing): OutboxItem {
  const { id } = row;
  const open = (sealed: string | null, column: string) =>
    sealed === null ? undefined : sealing.open(sealed, `${id}/${column}`);
  const context = open(row.context, 'context');
  const parked = open(row.parked, 'parked');
  const receipt = open(row.receipt, 'receipt');
  const accepted = open(row.accepted, 'accepted');
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
    ...(row.overwrite === 1 && { overwrite: true }),
    ...(row.unknown_since !== null && { unknownSince: row.unknown_since }),
    ...(row.last_reason !== null && { lastReason: row.last_reason }),
    ...(parked !== undefined && { parked: JSON.parse(parked) }),
    ...(receipt !== undefined && { receipt: JSON.parse(receipt) }),
    ...(accepted !== undefined && { accepted: JSON.parse(accepted) }),
  };
}

/** A row with its item, or without one when it cannot be opened. */
export function opened(row: ItemRow, sealing: Sealing): Checked['items'][number] {
  try {
    return { id: row.id, item: itemOf(row, sealing) };
  } catch {
    return { id: row.id };
  }
}

const SEALED = ['payload', 'context', 'parked', 'receipt', 'accepted'] as const;

/** The columns of a row that are not sealed with the present key, sealed with it. */
export function resealed(row: ItemRow, sealing: Sealing): [string, string][] {
  return SEALED.flatMap((column): [string, string][] => {
    const text = row[column];
    const key = text === null ? undefined : keyOfSealed(text);
    if (text === null || (key !== undefined && key === sealing.keys[0])) return [];
    const about = `${row.id}/${column}`;
    return [[column, sealing.seal(key === undefined ? text : sealing.open(text, about), about)]];
  });
}
