import type Sqlite from 'better-sqlite3';
import type { Checked } from './outbox.js';
import { opened, settledBefore } from './retention.js';
import type { ItemRow } from './rows.js';
import type { Sealing } from './sealing.js';

/** Removes what was done with before a time. @returns how many. */
export function purgeSettled(db: Sqlite.Database, before: number, sealing: Sealing): number {
  const rows = db
    .prepare<[number], ItemRow>(
      "SELECT * FROM item WHERE state IN ('delivered', 'discarded') AND created_at < ?",
    )
    .all(before);
  const remove = db.prepare("DELETE FROM item WHERE id = ? AND state IN ('delivered', 'discarded')");
  return settledBefore(rows, before, sealing).reduce((gone, id) => gone + remove.run(id).changes, 0);
}

/** SQLite's own integrity check, and every row opened. */
export function checkAll(db: Sqlite.Database, sealing: Sealing): Checked {
  const said: unknown = db.pragma('integrity_check');
  const lines = Array.isArray(said) ? said.map((row: object) => String(Object.values(row)[0])) : [];
  const rows = db.prepare<[], ItemRow>('SELECT * FROM item ORDER BY sequence').all();
  return { store: lines.filter(line => line !== 'ok'), items: rows.map(row => opened(row, sealing)) };
}
