import { createHash } from 'node:crypto';
import type Pg from 'pg';
import { CasetallyError } from '../../findings/errors.js';
import { waitFor } from '../http/wait.js';
import type { Connection, Params, Statement, Steps } from './connection.js';
import { type StoreFault, storeFault } from './store-faults.js';

/** Runs one statement inside a transaction. */
export type Query = <Row>(sql: string, params?: Params) => Promise<Row[]>;

/** Where the outbox is, without any part of the address. */
export const PLACE = 'the PostgreSQL database';

/** Waits between tries when the database is away: a restart or a failover is not the end of a worker. */
const WAITS_MS = [200, 500, 1_000, 2_000, 4_000, 8_000];

/** How long one statement, or waiting for one lock, may take. */
const BEGIN =
  "BEGIN; SET LOCAL synchronous_commit = on; SET LOCAL statement_timeout = '60s'; SET LOCAL lock_timeout = '30s'";

/**
 * A pool of connections that runs short transactions. Each is durable when its promise is fulfilled. What fails
 * because the connection broke is tried again: every step of the outbox may be done twice.
 */
export class PostgresConnection implements Connection {
  readonly #pool: Pg.Pool;
  readonly #waitsMs: readonly number[];
  readonly #schema: string;
  readonly place = PLACE;

  constructor(pool: Pg.Pool, waitsMs: readonly number[] = WAITS_MS, schema = 'casetally') {
    this.#schema = schema;
    this.#pool = pool;
    this.#waitsMs = waitsMs;
    // An idle connection that the server closes is replaced at the next use.
    pool.on('error', () => undefined);
  }

  /** One transaction. With `lock`, those with the same lock run one after the other, on all machines. */
  async transaction<T>(work: (query: Query) => Promise<T>, lock?: string): Promise<T> {
    for (let tries = 0; ; tries += 1) {
      try {
        return await this.#once(work, lock);
      } catch (error) {
        if (error instanceof CasetallyError) throw error;
        const wait = this.#waitsMs[tries];
        if (wait === undefined || !isPassing(error)) throw plain(error);
        await waitFor({}, wait);
      }
    }
  }

  async #once<T>(work: (query: Query) => Promise<T>, lock: string | undefined): Promise<T> {
    const client = await this.#pool.connect();
    let broken: Error | undefined;
    // Without a listener, a connection that breaks between two statements would end the process.
    const onError = (error: Error) => {
      broken = error;
    };
    client.on('error', onError);
    try {
      await client.query(
        lock === undefined ? BEGIN : `${BEGIN}; SELECT pg_advisory_xact_lock(${keyOf(lock)})`,
      );
      const result = await work(async <Row>(sql: string, params: Params = []) => {
        const { rows } = await client.query(sql, [...params]);
        return rows as Row[];
      });
      await client.query('COMMIT');
      return result;
    } catch (error) {
      await client.query('ROLLBACK').catch((failed: Error) => {
        broken = failed;
      });
      throw error;
    } finally {
      client.off('error', onError);
      client.release(broken);
    }
  }

  run<Row>({ sql, params }: Statement, lock?: string): Promise<Row[]> {
    return this.transaction(query => query<Row>(sql, params), lock);
  }

  decide<Row>(
    read: Statement,
    then: (rows: readonly Row[]) => Statement | undefined,
    lock: string,
  ): Promise<Row[]> {
    return this.transaction(async query => {
      const made = then(await query<Row>(read.sql, read.params));
      return made ? query<Row>(made.sql, made.params) : [];
    }, lock);
  }

  transact<T>(steps: () => Steps<T>, lock: string): Promise<T> {
    return this.transaction(async query => {
      const run = steps();
      let step = run.next();
      while (!step.done) step = run.next(await query(step.value.sql, step.value.params));
      return step.value;
    }, lock);
  }

  read<Row>(sql: string, params: Params = []): Promise<Row[]> {
    return this.run({ sql, params });
  }

  rows<Row>(table: string): Promise<Row[]> {
    return this.read(`SELECT * FROM ${this.#schema}.${table} ORDER BY sequence`);
  }

  /** A transaction cannot hold it. */
  async tidy(tables: readonly string[] = ['queue_item', 'content']): Promise<void> {
    const named = tables.map(table => `${this.#schema}.${table}`).join(', ');
    await this.#pool.query(`VACUUM ${named}`).catch(error => {
      throw plain(error);
    });
  }

  /** A database server checks itself. */
  async integrity(): Promise<string[]> {
    return [];
  }

  close(): Promise<void> {
    return this.#pool.end();
  }
}

/** The 64-bit number that stands for a lock. */
function keyOf(lock: string): bigint {
  return createHash('sha256').update(`casetally outbox ${lock}`).digest().readBigInt64BE(0);
}

/**
 * Connection exceptions, shutdown and start of the server, broken serialisation and deadlocks (SQLSTATE classes
 * 08, 57P and 40, PostgreSQL documentation, appendix A), and what Node says of a broken socket.
 */
function isPassing(error: unknown): boolean {
  const code = codeOf(error);
  return (
    /^(08...|57P0[1-3]|40...|55P03|ECONN\w+|EPIPE|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|EAI_AGAIN)$/.test(
      code,
    ) ||
    (error instanceof Error && /^Connection terminated/.test(error.message))
  );
}

function codeOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
}

/** SQLSTATE codes of the PostgreSQL documentation, appendix A. */
const OF_POSTGRES: readonly (readonly [RegExp, StoreFault])[] = [
  [/^53100$/, 'outbox-full'],
  [/^25006$/, 'outbox-read-only'],
  [/^XX00[12]$/, 'outbox-damaged'],
  [/^53[23]00$/, 'outbox-away'],
];

/** Database errors may quote rows and addresses: only their code is passed on. */
function plain(error: unknown): CasetallyError {
  const code = codeOf(error) || 'no answer';
  const fault = OF_POSTGRES.find(([pattern]) => pattern.test(code))?.[1];
  if (fault) return storeFault(fault, PLACE, undefined, code);
  if (isPassing(error) || code === 'ENOENT' || code === 'ENOTFOUND')
    return storeFault('outbox-away', PLACE, undefined, code);
  const why =
    code === '28P01' || code === '28000'
      ? 'it does not accept the user or the password'
      : code === '3D000'
        ? 'there is no such database'
        : code === '42501'
          ? 'the user may not do this; it needs to create and use the schema of the outbox'
          : 'it failed';
  return new CasetallyError(
    'outbox-unreadable',
    `The outbox in PostgreSQL cannot be used: ${why} (${code}).`,
  );
}
