import type { Steps } from './connection.js';
import type { NewItem, OutboxItem } from './outbox.js';
import { type ItemRow, itemAsFarAs, itemOf, sealItem } from './rows.js';
import { isSame } from './rules.js';
import type { Sealing } from './sealing.js';
import { columnsIn, type Dialect } from './sql-schema.js';
import { asked, insert } from './statements.js';

/** Takes an item in, with its own id, or gives back the one that says the same; see `put` of the outbox. */
export function* takeIn(
  item: NewItem,
  id: string,
  now: number,
  dialect: Dialect,
  sealing: Sealing,
): Steps<OutboxItem> {
  const { prefix } = dialect;
  const { destination, caseKey, patientKey, digest, overwrite } = item;
  const [newest] = yield* asked<ItemRow>({
    sql: `SELECT ${columnsIn(dialect)} FROM ${prefix}queue_item
      WHERE destination = $1 AND case_key = $2 AND state <> 'discarded' ORDER BY sequence DESC LIMIT 1`,
    params: [destination, caseKey],
  });
  if (newest && isSame({ digest: newest.digest, overwrite: newest.overwrite === 1 }, item)) {
    const there = itemAsFarAs(newest, sealing);
    // What cannot be opened cannot be sent either: the case is taken in anew.
    if (!there.unreadable) return there;
  }
  const { sql, params } = insert(
    `${prefix}queue_item`,
    [
      'id',
      'destination',
      'case_key',
      'patient_key',
      'digest',
      'overwrite',
      'state',
      'created_at',
      'not_before',
    ],
    [id, destination, caseKey, patientKey, digest, overwrite ? 1 : 0, 'waiting', now, now],
  );
  const [made] = yield* asked<Omit<ItemRow, 'payload' | 'context'>>({ sql: `${sql} RETURNING *`, params });
  if (!made) throw new TypeError('the outbox took nothing in');
  const { payload, context } = sealItem(item, id, sealing);
  yield insert(`${prefix}content`, ['sequence', 'payload', 'context'], [made.sequence, payload, context]);
  return itemOf({ ...made, payload, context }, sealing);
}
