import type Sqlite from 'better-sqlite3';
import { CasetallyError } from '../../findings/errors.js';
import { askBeforeSending, copyFault, intoNewFile, openToRead } from './copies.js';
import type { OutboxItem } from './outbox.js';
import { readableRows } from './readable-rows.js';
import { type ContentRow, type ItemRow, isContent, itemOf, joined } from './rows.js';
import type { Sealing } from './sealing.js';
import { CONTENT_SINCE, itemTable, SCHEMA_VERSION } from './sql-schema.js';
import { loadSqlite, prepareSchema } from './sqlite-outbox.js';

/** What a rescue came to. */
export interface Rescued {
  readonly copied: number;
  /** Items of which a part is hurt: they are not copied. */
  readonly hurt: readonly { readonly id: string; readonly destination: string }[];
  /** True when there may have been items of which nothing at all could be read. */
  readonly lost: boolean;
}

/** How it is done. */
export interface RescueOptions {
  readonly sealing: Sealing;
  /** Whether what was opened is what was put in. */
  readonly isWhole: (item: OutboxItem) => boolean;
  readonly now: number;
}

/**
 * Copies what can be read of a damaged store to a new one; the damaged one stays as it is. What is not delivered is
 * asked for at its destination before it is sent, since the copy may be older than the last send. Items whose key was
 * not given are copied as they are.
 *
 * @throws CasetallyError where nothing can be read at all, or there is a file already.
 */
export async function rescueStore(from: string, to: string, options: RescueOptions): Promise<Rescued> {
  const source = await openToRead(from);
  try {
    return await intoNewFile(to, async part => {
      const version = Number(source.pragma('user_version', { simple: true }));
      const items = readableRows<ItemRow>(source, itemTable(version));
      const contents = version < CONTENT_SINCE ? [] : readableRows<ContentRow>(source, 'content').rows;
      const rows = joined(items.rows, contents);
      const hurt = new Set(rows.filter(row => isHurt(row, options)));
      const whole = rows.filter(row => !hurt.has(row));
      const gates = readableRows<object>(source, 'gate');
      await fill(part, [
        [itemTable(SCHEMA_VERSION), whole.map(row => columnsOf(row, column => !isContent(column)))],
        ['content', whole.map(row => columnsOf(row, column => column === 'sequence' || isContent(column)))],
        ['gate', gates.rows],
      ]);
      await askBeforeSending(part, options.now);
      return {
        copied: whole.length,
        hurt: [...hurt].map(({ id, destination }) => ({ id, destination })),
        lost: items.lost,
      };
    });
  } catch (error) {
    throw copyFault(error, from);
  } finally {
    source.close();
  }
}

function isHurt(row: ItemRow, { sealing, isWhole }: RescueOptions): boolean {
  try {
    return !isWhole(
      itemOf({ ...row, accepted: row.accepted ?? null, overwrite: row.overwrite ?? 0 }, sealing),
    );
  } catch (error) {
    return !(error instanceof CasetallyError && error.code === 'outbox-key');
  }
}

function columnsOf(row: ItemRow, isWanted: (column: string) => boolean): object {
  return Object.fromEntries(Object.entries(row).filter(([column]) => isWanted(column)));
}

async function fill(path: string, tables: readonly (readonly [string, readonly object[]])[]): Promise<void> {
  const Database = await loadSqlite();
  const db: Sqlite.Database = new Database(path);
  try {
    prepareSchema(db, path);
    db.transaction(() => {
      for (const [table, rows] of tables)
        for (const row of rows) {
          const columns = Object.keys(row);
          db.prepare(
            `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
          ).run(Object.values(row));
        }
    })();
  } finally {
    db.close();
  }
}
