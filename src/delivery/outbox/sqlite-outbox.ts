import { chmodSync, closeSync, mkdirSync, openSync } from 'node:fs';
import { dirname } from 'node:path';
import type Sqlite from 'better-sqlite3';
import { CasetallyError, reason } from '../../findings/errors.js';
import { checkKeys, type SealedBy, sealedByIn } from './keys-held.js';
import type { Outbox } from './outbox.js';
import { type Sealing, unsealed } from './sealing.js';
import { SqlOutbox } from './sql-outbox.js';
import { changesSince, SCHEMA_VERSION, SQLITE, tables } from './sql-schema.js';
import { SqliteConnection } from './sqlite-connection.js';
import { sqliteFault } from './store-faults.js';

export interface SqliteOutboxOptions {
  readonly newId: () => string;
  readonly sealing?: Sealing;
  /** True opens a store whatever its items are sealed with: to look at it, or to change its keys. */
  readonly anyKeys?: boolean;
}

/**
 * Opens the embedded outbox: one SQLite file (WAL, synchronous FULL), readable by its owner only, usable by
 * several processes of one machine at once. The file must lie on a local disk.
 *
 * @throws CasetallyError 'optional-package-missing', 'file-unwritable' or 'outbox-unreadable'.
 */
export async function openSqliteOutbox(path: string, options: SqliteOutboxOptions): Promise<Outbox> {
  const { newId, sealing = unsealed, anyKeys = false } = options;
  const db = await sqliteFile(path, 'The outbox');
  try {
    const version = Number(db.pragma('user_version', { simple: true }));
    if (!anyKeys && version > 0)
      checkKeys(db.prepare<[], SealedBy>(sealedByIn(SQLITE, version)).all(), sealing, path);
    keepSafely(db);
    prepareSchema(db, path);
  } catch (error) {
    db.close();
    const said = sqliteFault(error, path);
    if (said instanceof CasetallyError) throw said;
    throw new CasetallyError(
      'outbox-unreadable',
      `The file ${path} is not an outbox that can be read, or its beginning is damaged. It was not changed; 'casetally restore' takes a backup.`,
      {
        cause: error,
      },
    );
  }
  return new SqlOutbox(new SqliteConnection(db, path), { dialect: SQLITE, newId, sealing });
}

/** Opens a file that its owner alone may read, and makes it where it is not there. @param what is kept in it, for messages */
export async function sqliteFile(path: string, what: string): Promise<Sqlite.Database> {
  const Database = await loadSqlite();
  try {
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
    closeSync(openSync(path, 'a', 0o600));
    chmodSync(path, 0o600);
  } catch (cause) {
    throw new CasetallyError('file-unwritable', `${what} cannot be kept at ${path}: ${reason(cause)}`, {
      cause,
    });
  }
  return new Database(path, { timeout: 10_000 });
}

/** What is acknowledged is on the disk, and what is removed is written over. */
export function keepSafely(db: Sqlite.Database): void {
  db.pragma('journal_mode = WAL');
  db.pragma('secure_delete = ON');
  db.pragma('synchronous = FULL');
  db.pragma('trusted_schema = OFF');
}

/** The optional package. @throws CasetallyError 'optional-package-missing'. */
export async function loadSqlite(): Promise<typeof Sqlite> {
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

/** Makes the tables, or brings those of an earlier version up to date. @throws CasetallyError 'outbox-unreadable'. */
export function prepareSchema(db: Sqlite.Database, path: string): void {
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
