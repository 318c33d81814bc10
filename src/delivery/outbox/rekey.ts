import type { Connection } from './connection.js';
import { checkKeys, type SealedBy, sealedByIn } from './keys-held.js';
import { type ItemRow, resealed } from './rows.js';
import type { Sealing } from './sealing.js';
import type { Dialect } from './sql-schema.js';

/** Seals every item with the present key; see `rekey` of the outbox. @returns how many were changed. */
export async function sealAnew(db: Connection, dialect: Dialect, sealing: Sealing): Promise<number> {
  const item = `${dialect.prefix}item`;
  const held = await db.read<SealedBy>(sealedByIn(dialect));
  checkKeys(held, sealing, db.place, true);
  const ids = await db.read<{ id: string }>(`SELECT id FROM ${item} ORDER BY sequence`);
  let changed = 0;
  for (const { id } of ids) {
    const rows = await db.decide<ItemRow>(
      { sql: `SELECT * FROM ${item} WHERE id = $1 ${dialect.lockRow}`, params: [id] },
      ([row]) => {
        const values = row ? resealed(row, sealing) : [];
        if (values.length === 0) return undefined;
        const sets = values.map(([column], i) => `${column} = $${i + 2}`);
        return {
          sql: `UPDATE ${item} SET ${sets.join(', ')} WHERE id = $1 RETURNING 1`,
          params: [id, ...values.map(([, value]) => value)],
        };
      },
      `rekey ${id}`,
    );
    changed += rows.length;
  }
  if (changed > 0) await db.tidy();
  return changed;
}
