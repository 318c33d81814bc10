import { CasetallyError } from '../../findings/errors.js';
import type { Checked, ItemState, NewItem, OutboxItem } from './outbox.js';
import type { Change } from './rules.js';
import { keyOfSealed, type Sealing } from './sealing.js';

/** What is to be sent of an item; a row of a table of its own. */
export interface ContentRow {
  readonly sequence: number;
  readonly payload: string;
  readonly context: string | null;
}

/** An item as it is read, alike in every database. */
export interface ItemRow {
  readonly sequence: number;
  readonly id: string;
  readonly destination: string;
  readonly case_key: string;
  readonly patient_key: string;
  /** Null where its row is lost. */
  readonly payload: string | null;
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
export function sealItem(
  item: NewItem,
  id: string,
  sealing: Sealing,
): Pick<ContentRow, 'payload' | 'context'> {
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
  return made(row, column => openedOf(row, column, sealing));
}

/** The same, without what was changed or cut; `unreadable` tells of it. @throws CasetallyError 'outbox-key'. */
export function itemAsFarAs(row: ItemRow, sealing: Sealing): OutboxItem {
  let hurt = false;
  const item = made(row, column => {
    try {
      const text = openedOf(row, column, sealing);
      if (text !== undefined && KEPT_AS_JSON.has(column)) JSON.parse(text);
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

function openedOf(row: ItemRow, column: SealedColumn, sealing: Sealing): string | undefined {
  const sealed = row[column];
  const about = `${row.id}/${column}`;
  if (sealed !== null) return sealing.open(sealed, about);
  if (column === 'payload')
    throw new CasetallyError('outbox-unreadable', `What was kept at ${about} is not there`);
  return undefined;
}

function made(row: ItemRow, opening: (column: SealedColumn) => string | undefined): OutboxItem {
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

/** Items with what is to be sent of them, where that stands in rows of its own. */
export function joined(
  items: readonly Omit<ItemRow, 'payload' | 'context'>[],
  contents: readonly ContentRow[],
): ItemRow[] {
  const bySequence = new Map(contents.map(content => [content.sequence, content]));
  return items.map(item => ({ payload: null, context: null, ...item, ...bySequence.get(item.sequence) }));
}

/** True for a column that stands among the contents. */
export function isContent(column: string): boolean {
  return column === 'payload' || column === 'context';
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
