import { chmodSync, closeSync, mkdirSync, openSync } from 'node:fs';
import { dirname } from 'node:path';
import type Sqlite from 'better-sqlite3';
import { CasetallyError } from '../../findings/errors.js';
import type { Outbox } from './outbox.js';
import { type Sealing, unsealed } from './sealing.js';
import { type Connection, type Params, SqlOutbox, type Statement } from './sql-outbox.js';
import { changesSince, SCHEMA_VERSION, SQLITE, tables } from './sql-schema.js';

export interface SqliteOutboxOptions {
  readonly newId: () => string;
  readonly sealing?: Sealing;
}

/**
 * Opens the embedded outbox: one SQLite file (WAL, synchronous FULL), readable by its owner only, usable by
 * several processes of one machine at once. The file must lie on a local disk.
 *
 * @throws CasetallyError 'optional-package-missing', 'file-unwritable' or 'outbox-unreadable'.
 */
export async function openSqliteOutbox(path: string, options: SqliteOutboxOptions): Promise<Outbox> {
  const Database = await loadSqlite();
  try {
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
    closeSync(openSync(path, 'a', 0o600));
    chmodSync(path, 0o600);
  } catch (cause) {
    throw new CasetallyError('file-unwritable', `The outbox cannot be kept at ${path}`, { cause });
  }
  const db = new Database(path, { timeout: 10_000 });
  try {
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL');
    db.pragma('trusted_schema = OFF');
    prepareSchema(db, path);
  } catch (error) {
    db.close();
    if (error instanceof CasetallyError) throw error;
    throw new CasetallyError('outbox-unreadable', `The file ${path} is not an outbox that can be read`, {
      cause: error,
    });
  }
  const { newId, sealing = unsealed } = options;
  return new SqlOutbox(new SqliteConnection(db), { dialect: SQLITE, newId, sealing });
}

async function loadSqlite(): Promise<typeof Sqlite> {
  try {
    return (await import('better-sqlite3')).default;
  } catch (cause) {
    throw new CasetallyError(
      'optional-package-missing',
      "The outbox needs the package 'better-sqlite3', which is not installed. Install it with: npm install better-sqlite3@12 " +
        '(where no built copy fits the machine, it needs a C++ compiler, make and Python)',
      { cause },
    );
  }
}

function prepareSchema(db: Sqlite.Database, path: string): void {
  db.transaction(() => {
    const version = Number(db.pragma('user_version', { simple: true }));
    if (version > SCHEMA_VERSION) {
      throw new CasetallyError(
        'outbox-unreadable',
        `The outbox ${path} was made by a newer version of Casetally`,
      );
    }
    for (const sql of version === 0 ? tables(SQLITE) : changesSince(version, SQLITE)) db.exec(sql);
    if (version < SCHEMA_VERSION) db.pragma(`user_version = ${SCHEMA_VERSION}`);
  }).immediate();
}

/**
 * One connection to a SQLite file. Every write is one IMMEDIATE transaction, done at one go: several connections wait
 * for each other instead of failing.
 */
class SqliteConnection implements Connection {
  readonly #db: Sqlite.Database;

  constructor(db: Sqlite.Database) {
    this.#db = db;
  }

  async run<Row>({ sql, params }: Statement): Promise<Row[]> {
    return this.#db.transaction(() => this.#rows<Row>(sql, params)).immediate();
  }

  async decide<Row>(read: Statement, then: (rows: readonly Row[]) => Statement | undefined): Promise<Row[]> {
    const work = () => {
      const made = then(this.#rows<Row>(read.sql, read.params));
      return made ? this.#rows<Row>(made.sql, made.params) : [];
    };
    return this.#db.transaction(work).immediate();
  }

  async read<Row>(sql: string, params?: Params): Promise<Row[]> {
    return this.#rows(sql, params);
  }

  async integrity(): Promise<string[]> {
    const said: unknown = this.#db.pragma('integrity_check');
    const lines = Array.isArray(said) ? said.map((row: object) => String(Object.values(row)[0])) : [];
    return lines.filter(line => line !== 'ok');
  }

  async close(): Promise<void> {
    this.#db.close();
  }

  #rows<Row>(sql: string, params: Params = []): Row[] {
    // `$1` is a name to SQLite.
    const values = Object.fromEntries(params.map((value, i) => [String(i + 1), value]));
    const statement = this.#db.prepare<unknown[], Row>(sql);
    const given = params.length > 0 ? [values] : [];
    if (statement.reader) return statement.all(...given);
    statement.run(...given);
    return [];
  }
}
