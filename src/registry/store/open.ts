import { postgresPool } from '../../delivery/outbox/open-postgres.js';
import { PLACE, PostgresConnection } from '../../delivery/outbox/postgres-connection.js';
import { keyOfSealed, type Sealing } from '../../delivery/outbox/sealing.js';
import { type Dialect, postgresIn, SQLITE } from '../../delivery/outbox/sql-schema.js';
import { SqliteConnection } from '../../delivery/outbox/sqlite-connection.js';
import { keepSafely, sqliteFile } from '../../delivery/outbox/sqlite-outbox.js';
import { sqliteFault } from '../../delivery/outbox/store-faults.js';
import { CasetallyError } from '../../findings/errors.js';
import { SUBMISSIONS_VERSION, submissionTables } from './schema.js';
import { SqlSubmissions } from './sql-submissions.js';
import type { Submissions } from './submissions.js';

export interface SubmissionsOptions {
  /** As the outbox: entries, numbers of people, answers and names are sealed by it. */
  readonly sealing: Sealing;
  /** True opens it whatever it is sealed with: to change its keys. */
  readonly anyKeys?: boolean;
}

/**
 * Opens what was given to registries, in a file beside the outbox, and makes it where it is not there.
 * @throws CasetallyError 'optional-package-missing', 'file-unwritable', 'outbox-key' or 'outbox-unreadable'.
 */
export async function openSqliteSubmissions(path: string, options: SubmissionsOptions): Promise<Submissions> {
  const db = await sqliteFile(path, 'What was given to registries');
  try {
    keepSafely(db);
    db.transaction(() => {
      const version = Number(db.pragma('user_version', { simple: true }));
      refuseNewer(version, path);
      if (version > 0) return;
      for (const sql of submissionTables(SQLITE)) db.exec(sql);
      db.pragma(`user_version = ${SUBMISSIONS_VERSION}`);
    }).immediate();
    const held = db.prepare<[], { body: string }>(heldIn(SQLITE)).get();
    if (!options.anyKeys) checkKey(held?.body, options.sealing, path);
  } catch (error) {
    db.close();
    const said = sqliteFault(error, path);
    if (said instanceof CasetallyError) throw said;
    throw new CasetallyError(
      'outbox-unreadable',
      `The file ${path} does not hold what was given to registries, or its beginning is damaged. It was not changed.`,
      { cause: error },
    );
  }
  return new SqlSubmissions(new SqliteConnection(db, path), { dialect: SQLITE, sealing: options.sealing });
}

/**
 * Opens what was given to registries in a PostgreSQL database, in a schema of its own.
 * @throws CasetallyError 'optional-package-missing', 'settings-invalid', 'outbox-key' or 'outbox-unreadable'.
 */
export async function openPostgresSubmissions(
  address: string,
  options: SubmissionsOptions & { readonly schema?: string },
): Promise<Submissions> {
  const { schema = 'casetally_registry', sealing, anyKeys } = options;
  const dialect = postgresIn(schema);
  const db = new PostgresConnection(await postgresPool(address), undefined, schema);
  try {
    await db.transaction(async query => {
      const [there] = await query<{ tables: string | null }>('SELECT to_regclass($1)::text AS tables', [
        `${schema}.version`,
      ]);
      if (there?.tables === null) {
        await query(`CREATE SCHEMA IF NOT EXISTS ${schema}`);
        for (const sql of submissionTables(dialect)) await query(sql);
        await query(`CREATE TABLE ${schema}.version (number integer NOT NULL)`);
        await query(`INSERT INTO ${schema}.version VALUES (${SUBMISSIONS_VERSION})`);
      }
      const [version] = await query<{ number: number }>(`SELECT number FROM ${schema}.version`);
      refuseNewer(version?.number ?? 0, PLACE);
      const [held] = await query<{ body: string }>(heldIn(dialect));
      if (!anyKeys) checkKey(held?.body, sealing, PLACE);
    }, 'registry tables');
  } catch (error) {
    await db.close();
    throw error;
  }
  return new SqlSubmissions(db, { dialect, sealing });
}

const heldIn = ({ prefix }: Dialect) => `SELECT body FROM ${prefix}entry LIMIT 1`;

function refuseNewer(version: number, place: string): void {
  if (version > SUBMISSIONS_VERSION)
    throw new CasetallyError(
      'outbox-unreadable',
      `What was given to registries is kept in ${place} by a newer version of Casetally`,
    );
}

/** Rows with two keys, or some sealed and others not, are refused before anything is written. */
function checkKey(body: string | undefined, { keys }: Sealing, place: string): void {
  if (body === undefined) return;
  const held = keyOfSealed(body);
  if (held === undefined ? keys.length === 0 : keys.includes(held)) return;
  throw new CasetallyError(
    'outbox-key',
    held === undefined
      ? `What was given to registries, in ${place}, is not sealed, and a key was given: seal it with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.`
      : `What was given to registries, in ${place}, is sealed with the key ${held}, which is not among those given: set CASETALLY_OUTBOX_KEY to it. Nothing was changed.`,
  );
}
