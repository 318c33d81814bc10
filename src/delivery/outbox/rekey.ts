import type { Connection, Steps } from './connection.js';
import { checkKeys, type SealedBy, sealedByIn } from './keys-held.js';
import { type ItemRow, isContent, resealed } from './rows.js';
import type { Sealing } from './sealing.js';
import { columnsIn, type Dialect } from './sql-schema.js';
import { asked } from './statements.js';

/** Seals every item with the present key; see `rekey` of the outbox. @returns how many were changed. */
export async function sealAnew(db: Connection, dialect: Dialect, sealing: Sealing): Promise<number> {
  const item = `${dialect.prefix}queue_item`;
  const held = await db.read<SealedBy>(sealedByIn(dialect));
  checkKeys(held, sealing, db.place, true);
  const ids = await db.read<{ id: string }>(`SELECT id FROM ${item} ORDER BY sequence`);
  let changed = 0;
  for (const { id } of ids) {
    const steps = function* (): Steps<boolean> {
      const [row] = yield* asked<ItemRow>({
        sql: `SELECT ${columnsIn(dialect)} FROM ${item} WHERE id = $1 ${dialect.lockRow}`,
        params: [id],
      });
      const values = row ? resealed(row, sealing) : [];
      if (row) yield* changes(values, dialect, row.sequence);
      return values.length > 0;
    };
    if (await db.transact(steps, `rekey ${id}`)) changed += 1;
  }
  if (changed > 0) await db.tidy();
  return changed;
}

/** Writes columns of an item, each into its table. */
function* changes(values: readonly [string, string][], { prefix }: Dialect, sequence: number): Steps<void> {
  for (const table of ['queue_item', 'content']) {
    const own = values.filter(([column]) => isContent(column) === (table === 'content'));
    if (own.length === 0) continue;
    const sets = own.map(([column], i) => `${column} = $${i + 2}`);
    yield {
      sql: `UPDATE ${prefix}${table} SET ${sets.join(', ')} WHERE sequence = $1`,
      params: [sequence, ...own.map(([, value]) => value)],
    };
  }
}
