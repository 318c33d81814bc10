import { CasetallyError } from '../../findings/errors.js';
import type { Connection } from './connection.js';
import { postgresPool } from './open-postgres.js';
import { PLACE, PostgresConnection } from './postgres-connection.js';
import { keyOfSealed, type Sealing } from './sealing.js';
import { type Dialect, postgresIn, SQLITE } from './sql-schema.js';
import { SqliteConnection } from './sqlite-connection.js';
import { keepSafely, sqliteFile } from './sqlite-outbox.js';
import { sqliteFault } from './store-faults.js';

/** A store that lies beside the outbox: a file of its own in the same folder, or a schema of its own in the same database. */
export interface SideStore {
  /** At the beginning of a sentence: `The register`. */
  readonly name: string;
  /** Held while its tables are looked at and made. */
  readonly lock: string;
  /** Counts the changes made to its tables. */
  readonly version: number;
  /** Its schema in PostgreSQL, where no other is given. */
  readonly schema: string;
  /** The statements that make the tables, and that bring those of an earlier version up to this one. */
  readonly tables: (dialect: Dialect) => readonly string[];
  readonly changesSince: (version: number, dialect: Dialect) => readonly string[];
  /** Indexes that came later, made where they are not there; `probe` is the last of them. */
  readonly indexes?: { readonly of: (dialect: Dialect) => readonly string[]; readonly probe: string };
  /** Reads one sealed text, as `held`, which says what the store is sealed with. */
  readonly heldIn: (dialect: Dialect) => string;
  readonly says: {
    readonly unreadable: (path: string) => string;
    readonly newer: (place: string) => string;
    readonly notSealed: (place: string) => string;
    readonly otherKey: (place: string, key: string) => string;
  };
}

export interface SideStoreOptions {
  /** As the outbox. */
  readonly sealing: Sealing;
  /** True opens it whatever it is sealed with: to change its keys. */
  readonly anyKeys?: boolean;
}

/**
 * Opens such a store in a file beside the outbox, and makes it where it is not there.
 * @throws CasetallyError 'optional-package-missing', 'file-unwritable', 'outbox-key' or 'outbox-unreadable'.
 */
export async function openSqliteSide(
  path: string,
  store: SideStore,
  options: SideStoreOptions,
): Promise<Connection> {
  const db = await sqliteFile(path, store.name);
  try {
    keepSafely(db);
    db.transaction(() => {
      const version = Number(db.pragma('user_version', { simple: true }));
      refuseNewer(version, store, path);
      const there = version > 0;
      const row = there ? db.prepare<[], { held: string }>(store.heldIn(SQLITE)).get() : undefined;
      checkKey(row?.held, store, options, path);
      for (const sql of there ? store.changesSince(version, SQLITE) : store.tables(SQLITE)) db.exec(sql);
      if (version < store.version) db.pragma(`user_version = ${store.version}`);
      for (const sql of store.indexes?.of(SQLITE) ?? []) db.exec(sql);
    }).immediate();
  } catch (error) {
    db.close();
    const said = sqliteFault(error, path);
    if (said instanceof CasetallyError) throw said;
    throw new CasetallyError('outbox-unreadable', store.says.unreadable(path), { cause: error });
  }
  return new SqliteConnection(db, path);
}

/**
 * Opens such a store in a PostgreSQL database, in a schema of its own.
 * @throws CasetallyError 'optional-package-missing', 'settings-invalid', 'outbox-key' or 'outbox-unreadable'.
 */
export async function openPostgresSide(
  address: string,
  store: SideStore,
  options: SideStoreOptions & { readonly schema?: string },
): Promise<{ readonly db: Connection; readonly dialect: Dialect }> {
  const { schema = store.schema } = options;
  const dialect = postgresIn(schema);
  const db = new PostgresConnection(await postgresPool(address), undefined, schema);
  try {
    await db.transaction(async query => {
      const isThere = async (name: string) => {
        const rows = await query('SELECT 1 WHERE to_regclass($1) IS NOT NULL', [`${schema}.${name}`]);
        return rows.length > 0;
      };
      if (!(await isThere('version'))) {
        await query(`CREATE SCHEMA IF NOT EXISTS ${schema}`);
        for (const sql of store.tables(dialect)) await query(sql);
        await query(`CREATE TABLE ${schema}.version (number integer NOT NULL)`);
        await query(`INSERT INTO ${schema}.version VALUES (${store.version})`);
      }
      const [row] = await query<{ number: number }>(`SELECT number FROM ${schema}.version`);
      const version = row?.number ?? 0;
      refuseNewer(version, store, PLACE);
      const [sealed] = await query<{ held: string }>(store.heldIn(dialect));
      checkKey(sealed?.held, store, options, PLACE);
      for (const sql of store.changesSince(version, dialect)) await query(sql);
      if (version < store.version) await query(`UPDATE ${schema}.version SET number = ${store.version}`);
      // Looked for first: even an index that is there already waits for whoever writes.
      if (store.indexes && !(await isThere(store.indexes.probe)))
        for (const sql of store.indexes.of(dialect)) await query(sql);
    }, store.lock);
  } catch (error) {
    await db.close();
    throw error;
  }
  return { db, dialect };
}

function refuseNewer(version: number, store: SideStore, place: string): void {
  if (version > store.version) throw new CasetallyError('outbox-unreadable', store.says.newer(place));
}

/** Rows with two keys, or some sealed and others not, are refused before anything is written. */
function checkKey(
  text: string | undefined,
  { says }: SideStore,
  { sealing: { keys }, anyKeys }: SideStoreOptions,
  place: string,
): void {
  if (text === undefined || anyKeys) return;
  const key = keyOfSealed(text);
  if (key === undefined ? keys.length === 0 : keys.includes(key)) return;
  throw new CasetallyError(
    'outbox-key',
    key === undefined ? says.notSealed(place) : says.otherKey(place, key),
  );
}
