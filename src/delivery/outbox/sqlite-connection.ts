import type Sqlite from 'better-sqlite3';
import type { Connection, Params, Statement, Steps } from './connection.js';
import { readableRows } from './readable-rows.js';
import { sqliteFault } from './store-faults.js';

/** How many prepared statements are kept; lists of values make new ones. */
const KEPT = 100;

/**
 * One connection to a SQLite file. Every write is one IMMEDIATE transaction, done at one go: several connections wait
 * for each other instead of failing.
 */
export class SqliteConnection implements Connection {
  readonly #db: Sqlite.Database;
  readonly place: string;
  readonly #statements = new Map<string, Sqlite.Statement<unknown[]>>();

  constructor(db: Sqlite.Database, place: string) {
    this.#db = db;
    this.place = place;
  }

  async run<Row>({ sql, params }: Statement): Promise<Row[]> {
    return this.#said(() => this.#db.transaction(() => this.#rows<Row>(sql, params)).immediate());
  }

  async decide<Row>(read: Statement, then: (rows: readonly Row[]) => Statement | undefined): Promise<Row[]> {
    const work = () => {
      const made = then(this.#rows<Row>(read.sql, read.params));
      return made ? this.#rows<Row>(made.sql, made.params) : [];
    };
    return this.#said(() => this.#db.transaction(work).immediate());
  }

  async transact<T>(steps: () => Steps<T>): Promise<T> {
    const work = (): T => {
      const run = steps();
      let step = run.next();
      while (!step.done) step = run.next(this.#rows(step.value.sql, step.value.params));
      return step.value;
    };
    return this.#said(() => this.#db.transaction(work).immediate());
  }

  async read<Row>(sql: string, params?: Params): Promise<Row[]> {
    return this.#said(() => this.#rows(sql, params));
  }

  async tidy(): Promise<void> {
    this.#said(() => {
      this.#db.exec('VACUUM');
      this.#db.pragma('wal_checkpoint(TRUNCATE)');
    });
  }

  async integrity(): Promise<string[]> {
    try {
      const said = this.#db.prepare<[], { integrity_check: string }>('PRAGMA integrity_check').all();
      return said.map(row => row.integrity_check).filter(line => line !== 'ok');
    } catch (error) {
      return [error instanceof Error ? error.message : 'it cannot be looked through'];
    }
  }

  /** Row by row where the whole cannot be read: a damaged page hides only the rows behind it. */
  async rows<Row>(table: string): Promise<Row[]> {
    return readableRows<Row>(this.#db, table).rows;
  }

  async close(): Promise<void> {
    this.#db.close();
  }

  #said<T>(work: () => T): T {
    try {
      return work();
    } catch (error) {
      throw sqliteFault(error, this.place);
    }
  }

  #rows<Row>(sql: string, params: Params = []): Row[] {
    // `$1` is a name to SQLite.
    const values = Object.fromEntries(params.map((value, i) => [String(i + 1), value]));
    const statement = this.#prepared(sql);
    if (statement.reader) return statement.all(values) as Row[];
    statement.run(values);
    return [];
  }

  /** Prepared once: a change of a history runs the same few statements many times. */
  #prepared(sql: string): Sqlite.Statement<unknown[]> {
    const known = this.#statements.get(sql);
    if (known) return known;
    const made = this.#db.prepare<unknown[]>(sql);
    if (this.#statements.size >= KEPT) this.#statements.clear();
    this.#statements.set(sql, made);
    return made;
  }
}
