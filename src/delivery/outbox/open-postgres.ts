import type Pg from 'pg';
import { CasetallyError } from '../../findings/errors.js';
import { checkKeys, type SealedBy, sealedByIn } from './keys-held.js';
import type { Outbox } from './outbox.js';
import { PLACE, PostgresConnection, type Query } from './postgres-connection.js';
import { type Sealing, unsealed } from './sealing.js';
import { SqlOutbox } from './sql-outbox.js';
import { changesSince, postgresIn, SCHEMA_VERSION, tables } from './sql-schema.js';

/** How the outbox in PostgreSQL is opened. */
export interface PostgresOutboxOptions {
  readonly newId: () => string;
  readonly sealing?: Sealing;
  /** True opens a store whatever its items are sealed with: to look at it, or to change its keys. */
  readonly anyKeys?: boolean;
  /** Schema of its tables, a lower-case word; `casetally` by default. */
  readonly schema?: string;
  /** This machine's clock; when given, it must agree with the database's to ten seconds, for leases are told by it. */
  readonly clock?: () => number;
  /** Waits between tries when the database is away, in milliseconds; some 16 s in all by default. */
  readonly waitsMs?: readonly number[];
}

const MAX_CLOCK_DIFFERENCE_MS = 10_000;

/**
 * Opens the outbox in a PostgreSQL database (12 or later, UTF-8), making its tables when they are not there. The
 * address may hold a password; no error repeats any part of it.
 *
 * @throws CasetallyError 'optional-package-missing', 'settings-invalid' or 'outbox-unreadable'.
 */
export async function openPostgresOutbox(address: string, options: PostgresOutboxOptions): Promise<Outbox> {
  const { newId, sealing = unsealed, schema = 'casetally', clock, waitsMs, anyKeys = false } = options;
  if (!/^[a-z][a-z0-9_]{0,62}$/.test(schema))
    throw new CasetallyError('settings-invalid', 'The schema of the outbox is a word of lower-case letters');
  const pool = await postgresPool(address);
  const db = new PostgresConnection(pool, waitsMs, schema);
  try {
    await db.transaction(query => prepare(query, schema, clock, anyKeys ? undefined : sealing), 'tables');
  } catch (error) {
    await db.close();
    throw error;
  }
  return new SqlOutbox(db, { dialect: postgresIn(schema), newId, sealing });
}

/** Connections to the database of an address. @throws CasetallyError 'settings-invalid' or 'optional-package-missing'. */
export async function postgresPool(address: string): Promise<Pg.Pool> {
  checkAddress(address);
  const pg = await loadPg();
  return new pg.Pool({
    connectionString: address,
    max: 8,
    connectionTimeoutMillis: 10_000,
    keepAlive: true,
    application_name: 'casetally',
    // Times and counts fit a double; as text they would not compare with the clock's.
    types: {
      getTypeParser: ((oid: number, format?: 'text') =>
        oid === pg.types.builtins.INT8
          ? Number
          : pg.types.getTypeParser(oid, format)) as typeof pg.types.getTypeParser,
    },
  });
}

/** True for what `--data` and CASETALLY_DATA name a PostgreSQL database with. */
export function isPostgresAddress(place: string): boolean {
  return /^postgres(?:ql)?:\/\//i.test(place);
}

/** True when a password stands in the address. An address that cannot be read counts as one that holds a password. */
export function holdsPassword(address: string): boolean {
  if (!URL.canParse(address)) return true;
  const url = new URL(address);
  return url.password !== '' || url.searchParams.has('password');
}

/** Beyond this machine the way to the database must be encrypted, or said not to be. */
function checkAddress(address: string): void {
  const url = URL.canParse(address) ? new URL(address) : undefined;
  if (!url)
    throw new CasetallyError('settings-invalid', 'The address of the PostgreSQL database cannot be read');
  const host = url.searchParams.get('host') ?? decodeURIComponent(url.hostname);
  const isHere = host === '' || host.startsWith('/') || /^(localhost|127\.[\d.]+|\[?::1\]?)$/.test(host);
  if (isHere || url.searchParams.has('sslmode')) return;
  throw new CasetallyError(
    'settings-invalid',
    'The PostgreSQL database is on another machine: add ?sslmode=verify-full to its address (or sslmode=disable where the network itself is protected)',
  );
}

async function loadPg(): Promise<typeof Pg> {
  try {
    return (await import('pg')).default;
  } catch (cause) {
    throw new CasetallyError(
      'optional-package-missing',
      "The outbox in PostgreSQL needs the package 'pg', which is not installed. Install it with: npm install pg@8",
      { cause },
    );
  }
}

async function prepare(
  query: Query,
  schema: string,
  clock: (() => number) | undefined,
  sealing: Sealing | undefined,
): Promise<void> {
  const [server] = await query<{ encoding: string; fsync: string; now: number; tables: string | null }>(
    `SELECT current_setting('server_encoding') AS encoding, current_setting('fsync') AS fsync,
       (extract(epoch FROM clock_timestamp()) * 1000)::bigint AS now, to_regclass($1)::text AS tables`,
    [`${schema}.version`],
  );
  if (server?.encoding !== 'UTF8')
    throw new CasetallyError('settings-invalid', 'The database of the outbox must be in the encoding UTF8');
  if (server.fsync !== 'on')
    throw new CasetallyError(
      'settings-invalid',
      'The PostgreSQL server runs with fsync off: what it acknowledges may be lost. Turn it on',
    );
  if (clock && Math.abs(clock() - server.now) > MAX_CLOCK_DIFFERENCE_MS)
    throw new CasetallyError(
      'settings-invalid',
      `The clocks of this machine and of the database differ by ${Math.round(Math.abs(clock() - server.now) / 1000)} s: set both by a time server`,
    );
  const dialect = postgresIn(schema);
  if (server.tables === null) {
    await query(`CREATE SCHEMA IF NOT EXISTS ${schema}`);
    for (const sql of tables(dialect)) await query(sql);
    await query(`CREATE TABLE ${schema}.version (number integer NOT NULL)`);
    await query(`INSERT INTO ${schema}.version VALUES (${SCHEMA_VERSION})`);
  }
  const [version] = await query<{ number: number }>(`SELECT number FROM ${schema}.version`);
  if (!version || version.number > SCHEMA_VERSION)
    throw new CasetallyError('outbox-unreadable', 'The outbox was made by a newer version of Casetally');
  if (sealing) checkKeys(await query<SealedBy>(sealedByIn(dialect, version.number)), sealing, PLACE);
  if (version.number === SCHEMA_VERSION) return;
  // What years have left in it may take longer to bring over than any other statement.
  await query('SET LOCAL statement_timeout = 0');
  for (const sql of changesSince(version.number, dialect)) await query(sql);
  await query(`UPDATE ${schema}.version SET number = ${SCHEMA_VERSION}`);
}
