import { postgresPool } from '../../delivery/outbox/open-postgres.js';
import { PLACE, PostgresConnection } from '../../delivery/outbox/postgres-connection.js';
import { keyOfSealed, type Sealing } from '../../delivery/outbox/sealing.js';
import { type Dialect, postgresIn, SQLITE } from '../../delivery/outbox/sql-schema.js';
import { SqliteConnection } from '../../delivery/outbox/sqlite-connection.js';
import { keepSafely, sqliteFile } from '../../delivery/outbox/sqlite-outbox.js';
import { sqliteFault } from '../../delivery/outbox/store-faults.js';
import { CasetallyError } from '../../findings/errors.js';
import { laterIndexes } from './indexes.js';
import type { Register } from './register.js';
import { REGISTER_VERSION, registerChangesSince, registerTables } from './schema.js';
import { SqlRegister } from './sql-register.js';

export interface RegisterOptions {
  /** As the outbox: records, facts and numbers of people are sealed by it. */
  readonly sealing: Sealing;
  /** Numbering system of the site's own case numbers, which names leave out. */
  readonly ownSystem: string;
  /** True opens it whatever it is sealed with: to change its keys. */
  readonly anyKeys?: boolean;
}

/**
 * Opens the register in a file beside the outbox, and makes it where it is not there.
 * @throws CasetallyError 'optional-package-missing', 'file-unwritable', 'outbox-key' or 'outbox-unreadable'.
 */
export async function openSqliteRegister(path: string, options: RegisterOptions): Promise<Register> {
  const db = await sqliteFile(path, 'The register');
  try {
    keepSafely(db);
    db.transaction(() => {
      const version = Number(db.pragma('user_version', { simple: true }));
      refuseNewer(version, path);
      const held = version > 0 ? db.prepare<[], { facts: string }>(heldIn(SQLITE)).get() : undefined;
      if (!options.anyKeys) checkKey(held?.facts, options.sealing, path);
      for (const sql of version > 0 ? registerChangesSince(version, SQLITE) : registerTables(SQLITE))
        db.exec(sql);
      if (version < REGISTER_VERSION) db.pragma(`user_version = ${REGISTER_VERSION}`);
      for (const sql of laterIndexes(SQLITE)) db.exec(sql);
    }).immediate();
  } catch (error) {
    db.close();
    const said = sqliteFault(error, path);
    if (said instanceof CasetallyError) throw said;
    throw new CasetallyError(
      'outbox-unreadable',
      `The file ${path} is not a register that can be read, or its beginning is damaged. It was not changed.`,
      { cause: error },
    );
  }
  return new SqlRegister(new SqliteConnection(db, path), { dialect: SQLITE, ...options });
}

/**
 * Opens the register in a PostgreSQL database, in a schema of its own.
 * @throws CasetallyError 'optional-package-missing', 'settings-invalid', 'outbox-key' or 'outbox-unreadable'.
 */
export async function openPostgresRegister(
  address: string,
  options: RegisterOptions & { readonly schema?: string },
): Promise<Register> {
  const { schema = 'casetally_register', ...rest } = options;
  const dialect = postgresIn(schema);
  const db = new PostgresConnection(await postgresPool(address), undefined, schema);
  try {
    await db.transaction(async query => {
      const [there] = await query<{ tables: string | null }>('SELECT to_regclass($1)::text AS tables', [
        `${schema}.version`,
      ]);
      if (there?.tables === null) {
        await query(`CREATE SCHEMA IF NOT EXISTS ${schema}`);
        for (const sql of registerTables(dialect)) await query(sql);
        await query(`CREATE TABLE ${schema}.version (number integer NOT NULL)`);
        await query(`INSERT INTO ${schema}.version VALUES (${REGISTER_VERSION})`);
      }
      const [version] = await query<{ number: number }>(`SELECT number FROM ${schema}.version`);
      const number = version?.number ?? 0;
      refuseNewer(number, PLACE);
      const [indexed] = await query<{ there: string | null }>('SELECT to_regclass($1)::text AS there', [
        `${schema}.use_unknown`,
      ]);
      const [held] = await query<{ facts: string }>(heldIn(dialect));
      if (!options.anyKeys) checkKey(held?.facts, options.sealing, PLACE);
      for (const sql of registerChangesSince(number, dialect)) await query(sql);
      if (number < REGISTER_VERSION) await query(`UPDATE ${schema}.version SET number = ${REGISTER_VERSION}`);
      // Looked for first: even an index that is there already waits for whoever writes.
      if (indexed?.there === null) for (const sql of laterIndexes(dialect)) await query(sql);
    }, 'register tables');
  } catch (error) {
    await db.close();
    throw error;
  }
  return new SqlRegister(db, { dialect, ...rest });
}

const heldIn = ({ prefix }: Dialect) => `SELECT facts FROM ${prefix}case_version LIMIT 1`;

function refuseNewer(version: number, place: string): void {
  if (version > REGISTER_VERSION)
    throw new CasetallyError(
      'outbox-unreadable',
      `The register in ${place} was made by a newer version of Casetally`,
    );
}

/** A register with some rows sealed and others not, or with two keys, is refused before anything is written to it. */
function checkKey(facts: string | undefined, { keys }: Sealing, place: string): void {
  if (facts === undefined) return;
  const held = keyOfSealed(facts);
  if (held === undefined ? keys.length === 0 : keys.includes(held)) return;
  throw new CasetallyError(
    'outbox-key',
    held === undefined
      ? `The register in ${place} is not sealed, and a key was given: seal what is there with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.`
      : `The register in ${place} is sealed with the key ${held}, which is not among those given: set CASETALLY_OUTBOX_KEY to it. Nothing was changed.`,
  );
}
