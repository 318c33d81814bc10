import type Sqlite from 'better-sqlite3';

/** The rows of a table that could be read. */
export interface ReadableRows<Row> {
  readonly rows: Row[];
  /** True when some could not. */
  readonly lost: boolean;
}

/** Reads a table, one row after the other where it is damaged. */
export function readableRows<Row>(db: Sqlite.Database, table: string): ReadableRows<Row> {
  try {
    return { rows: db.prepare<[], Row>(`SELECT * FROM ${table} ORDER BY rowid`).all(), lost: false };
  } catch {
    const found = new Map<number, Row>();
    const last = lastRowid(db, table);
    const one = db.prepare<[number], Row>(`SELECT * FROM ${table} NOT INDEXED WHERE rowid = ?`);
    for (let rowid = 1; rowid <= last; rowid += 1) {
      try {
        const row = one.get(rowid);
        if (row) found.set(rowid, row);
      } catch {
        // This one is behind the damage.
      }
    }
    return { rows: [...found.values()], lost: true };
  }
}

/** The highest number a row may have; the counter of the tables and the last page of this one may be hurt each. */
function lastRowid(db: Sqlite.Database, table: string): number {
  const tried = [
    'SELECT max(seq) AS last FROM sqlite_sequence',
    `SELECT max(rowid) AS last FROM ${table} NOT INDEXED`,
  ].map(sql => {
    try {
      return db.prepare<[], { last: number | null }>(sql).get()?.last ?? 0;
    } catch {
      return 0;
    }
  });
  return Math.min(10_000_000, Math.max(...tried));
}
