import { CasetallyError } from '../../findings/errors.js';
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

const SEALED = ['payload', 'context', 'parked', 'receipt', 'accepted'] as const;
const KEPT_AS_JSON: ReadonlySet<string> = new Set(['parked', 'receipt', 'accepted']);

/** Makes an item of a row, opening what is sealed. @throws CasetallyError for what cannot be opened. */
export function itemOf(row: ItemRow, sealing: Sealing): OutboxItem {
  return made(row, (column, sealed) => sealing.open(sealed, `${row.id}/${column}`));
}

/** The same, without what was changed or cut; `unreadable` tells of it. @throws CasetallyError 'outbox-key'. */
export function itemAsFarAs(row: ItemRow, sealing: Sealing): OutboxItem {
  let hurt = false;
  const item = made(row, (column, sealed) => {
    try {
      const text = sealing.open(sealed, `${row.id}/${column}`);
      if (KEPT_AS_JSON.has(column)) JSON.parse(text);
      return text;
    } catch (error) {
      if (error instanceof CasetallyError && error.code === 'outbox-key') throw error;
      hurt = true;
      return undefined;
    }
  });
  return hurt ? { ...item, unreadable: true } : item;
}

type SealedColumn = (typeof SEALED)[number];

function made(row: ItemRow, open: (column: SealedColumn, sealed: string) => string | undefined): OutboxItem {
  const opening = (column: SealedColumn) => {
    const sealed = row[column];
    return sealed === null ? undefined : open(column, sealed);
  };
  const json = (column: SealedColumn) => {
    const text = opening(column);
    if (text === undefined) return undefined;
    try {
      return JSON.parse(text);
    } catch {
      throw new CasetallyError('outbox-unreadable', `What is kept at ${row.id}/${column} was changed or cut`);
    }
  };
  const context = opening('context');
  const parked = json('parked');
  const receipt = json('receipt');
  const accepted = json('accepted');
  return {
    id: row.id,
    sequence: row.sequence,
    destination: row.destination,
    caseKey: row.case_key,
    patientKey: row.patient_key,
    payload: opening('payload') ?? '',
    digest: row.digest,
    state: row.state,
    createdAt: row.created_at,
    notBefore: row.not_before,
    attempts: row.attempts,
    ...(context !== undefined && { context }),
    ...(row.overwrite === 1 && { overwrite: true }),
    ...(row.unknown_since !== null && { unknownSince: row.unknown_since }),
    ...(row.last_reason !== null && { lastReason: row.last_reason }),
    ...(parked !== undefined && { parked }),
    ...(receipt !== undefined && { receipt }),
    ...(accepted !== undefined && { accepted }),
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

/** The columns of a row that are not sealed with the present key, sealed with it; none where there is no key. */
export function resealed(row: ItemRow, sealing: Sealing): [string, string][] {
  return SEALED.flatMap((column): [string, string][] => {
    const text = row[column];
    if (text === null) return [];
    const key = keyOfSealed(text);
    if (key === sealing.keys[0]) return [];
    const about = `${row.id}/${column}`;
    return [[column, sealing.seal(key === undefined ? text : sealing.open(text, about), about)]];
  });
}
