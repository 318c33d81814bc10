import type { AuditEvent } from 'fhir/r4.js';
import type { Connection, Steps } from '../../delivery/outbox/connection.js';
import { keyOfSealed, type Sealing } from '../../delivery/outbox/sealing.js';
import type { Dialect } from '../../delivery/outbox/sql-schema.js';
import { insert } from '../../delivery/outbox/statements.js';
import { CasetallyError } from '../../findings/errors.js';
import { BEFORE_ALL, canonicalJson, digestOfEntry, type Head } from '../chain.js';
import { type AuditFact, auditEvent } from '../event.js';
import type { AuditTrail, TrailFilter } from '../trail.js';
import type { KeptEntry } from '../verify.js';

/** Whoever adds an entry waits for whoever does so already: in all processes, so that the chain never forks. */
const LOCK = 'audit';
/** Entries read at a time. */
const PAGE = 500;

type Row = Readonly<Record<string, unknown>>;

/** The audit trail in a database. */
export class SqlAudit implements AuditTrail {
  readonly #db: Connection;
  readonly #table: string;
  readonly #sealing: Sealing;

  constructor(
    db: Connection,
    { dialect, sealing }: { readonly dialect: Dialect; readonly sealing: Sealing },
  ) {
    this.#db = db;
    this.#table = `${dialect.prefix}audit_entry`;
    this.#sealing = sealing;
  }

  append(fact: AuditFact): Promise<Head> {
    return this.#db.transact(() => this.#append(fact), LOCK);
  }

  *#append(fact: AuditFact): Steps<Head> {
    // A database that went away may have kept the entry before it could say so.
    const [same] = yield { sql: `SELECT n, digest FROM ${this.#table} WHERE id = $1`, params: [fact.id] };
    if (same) return headOf(same);
    const [last] = yield { sql: `${this.#last()}`, params: [] };
    const before = last ? headOf(last) : { n: 0, digest: BEFORE_ALL };
    const n = before.n + 1;
    const text = canonicalJson(auditEvent(fact, { n, previous: before.digest }));
    const digest = digestOfEntry(text);
    yield insert(
      this.#table,
      ['n', 'id', 'at', 'entry', 'digest'],
      [n, fact.id, fact.at, this.#sealing.seal(text, aboutOf(n)), digest],
    );
    return { n, digest };
  }

  async head(): Promise<Head | undefined> {
    const [last] = await this.#db.read<Row>(this.#last());
    return last && headOf(last);
  }

  async *kept(): AsyncGenerator<KeptEntry> {
    for await (const row of this.#rows('true', [])) {
      const { n, digest } = headOf(row);
      yield { n, digest, text: this.#opened(row) };
    }
  }

  async *events({ from, to, who }: TrailFilter): AsyncGenerator<AuditEvent> {
    const since = from ?? Number.MIN_SAFE_INTEGER;
    for await (const row of this.#rows('at >= $3 AND at < $4', [since, to ?? Number.MAX_SAFE_INTEGER])) {
      const text = this.#opened(row);
      if (text === undefined)
        throw new CasetallyError(
          'outbox-unreadable',
          `Entry ${String(row['n'])} of the audit trail cannot be read: casetally audit verify says more.`,
        );
      const event = JSON.parse(text) as AuditEvent;
      if (who === undefined || isBy(event, who)) yield event;
    }
  }

  rekey(): Promise<number> {
    return this.#db.transact(() => this.#rekey(), LOCK);
  }

  *#rekey(): Steps<number> {
    const rows = yield { sql: `SELECT n, entry FROM ${this.#table} ORDER BY n`, params: [] };
    for (const row of rows) {
      const n = Number(row['n']);
      const kept = String(row['entry']);
      // What was not sealed yet stands as it is.
      const text = keyOfSealed(kept) === undefined ? kept : this.#sealing.open(kept, aboutOf(n));
      yield {
        sql: `UPDATE ${this.#table} SET entry = $1 WHERE n = $2`,
        params: [this.#sealing.seal(text, aboutOf(n)), n],
      };
    }
    return rows.length;
  }

  close(): Promise<void> {
    return this.#db.close();
  }

  #last(): string {
    return `SELECT n, digest FROM ${this.#table} ORDER BY n DESC LIMIT 1`;
  }

  async *#rows(where: string, params: readonly number[]): AsyncGenerator<Row> {
    for (let after = Number.MIN_SAFE_INTEGER; ; ) {
      const rows = await this.#db.read<Row>(
        `SELECT * FROM ${this.#table} WHERE n > $1 AND ${where} ORDER BY n LIMIT $2`,
        [after, PAGE, ...params],
      );
      yield* rows;
      if (rows.length < PAGE) return;
      after = Number(rows.at(-1)?.['n']);
    }
  }

  /** Undefined for an entry that was changed where it is kept. */
  #opened(row: Row): string | undefined {
    try {
      return this.#sealing.open(String(row['entry']), aboutOf(Number(row['n'])));
    } catch (error) {
      if (error instanceof CasetallyError && error.code === 'outbox-unreadable') return undefined;
      throw error;
    }
  }
}

const aboutOf = (n: number) => `audit entry ${n}`;
const headOf = (row: Row): Head => ({ n: Number(row['n']), digest: String(row['digest']) });

function isBy({ agent }: AuditEvent, who: string): boolean {
  const part = who.toLowerCase();
  return agent.some(
    one => one.name?.toLowerCase().includes(part) === true || one.who?.identifier?.value === who,
  );
}
