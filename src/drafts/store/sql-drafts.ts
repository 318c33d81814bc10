import type { Connection, Statement, Steps } from '../../delivery/outbox/connection.js';
import { keyOfSealed, type Sealing } from '../../delivery/outbox/sealing.js';
import type { Dialect } from '../../delivery/outbox/sql-schema.js';
import { insert } from '../../delivery/outbox/statements.js';
import { type Delta, deltaBetween, withDelta } from '../delta.js';
import { type DraftHead, dayOf, headOf } from '../head.js';
import {
  type Draft,
  type DraftFilter,
  type DraftState,
  type DraftSummary,
  type Drafts,
  draftStates,
  type NewVersion,
  type VersionRow,
  type Written,
} from './drafts.js';

type Row = Readonly<Record<string, unknown>>;

/** What is sealed of a draft for lists. */
interface SealedHead extends DraftHead {
  readonly by: string;
}

/** What is sealed of a version. */
type SealedVersion = Omit<VersionRow, 'version' | 'state' | 'at' | 'base'> & {
  /** From the text of this version to that of the one before. */
  readonly back: Delta;
};

/** Drafts in SQLite or PostgreSQL. The newest text is kept whole, earlier ones by what leads back to them. */
export class SqlDrafts implements Drafts {
  readonly #db: Connection;
  readonly #prefix: string;
  readonly #lockRow: string;
  readonly #sealing: Sealing;

  constructor(db: Connection, { prefix, lockRow }: Dialect, sealing: Sealing) {
    this.#db = db;
    this.#prefix = prefix;
    this.#lockRow = lockRow;
    this.#sealing = sealing;
  }

  async begin(id: string, day: string, version: NewVersion): Promise<DraftSummary> {
    const { text, state, at } = version;
    const [head, own] = [this.#headOf(version), dayOf(text) ?? day];
    const steps = function* (this: SqlDrafts): Steps<void> {
      yield insert(
        `${this.#prefix}draft`,
        ['id', 'version', 'state', 'begun_on', 'day', 'begun_at', 'changed_at', 'head', 'body'],
        [id, 1, state, day, own, at, at, this.#sealHead(id, 1, head), this.#sealText(id, 1, text)],
      );
      yield this.#versionRow(id, 1, version, { at: 0, was: '', is: '' });
    };
    await this.#db.transact(() => steps.call(this), `draft ${id}`);
    return { id, version: 1, state, day: own, begunAt: at, changedAt: at, ...head };
  }

  async get(id: string): Promise<Draft | undefined> {
    const [row] = await this.#db.read<Row>(`SELECT * FROM ${this.#prefix}draft WHERE id = $1`, [id]);
    return row && { ...this.#summary(row), text: this.#textIn(row) };
  }

  async version(id: string): Promise<number | undefined> {
    const [row] = await this.#db.read<Row>(`SELECT version FROM ${this.#prefix}draft WHERE id = $1`, [id]);
    return row && Number(row['version']);
  }

  async list({ day, states, since, limit }: DraftFilter): Promise<DraftSummary[]> {
    const columns = 'id, version, state, day, begun_at, changed_at, head';
    const params: (string | number)[] = [limit];
    const one = (value: string) => `$${params.push(value)}`;
    const where = [
      ...(day === undefined ? [] : [`day = ${one(day)}`]),
      ...(since === undefined ? [] : [`day >= ${one(since)}`]),
      ...(states === undefined ? [] : [`state IN (${states.map(one).join(', ')})`]),
    ];
    const rows = await this.#db.read<Row>(
      `SELECT ${columns} FROM ${this.#prefix}draft ${where.length > 0 ? `WHERE ${where.join(' AND ')}` : ''}
       ORDER BY day, begun_at, id LIMIT $1`,
      params,
    );
    return rows.map(row => this.#summary(row));
  }

  async versions(id: string, after = 0): Promise<readonly VersionRow[]> {
    const rows = await this.#db.read<Row>(
      `SELECT * FROM ${this.#prefix}draft_version WHERE draft = $1 AND version > $2 ORDER BY version`,
      [id, after],
    );
    return rows.map((row): VersionRow => {
      const version = Number(row['version']);
      const { back: _, ...sealed } = this.#openVersion(id, version, row['body']);
      const numbers = { at: Number(row['at']), base: Number(row['base']) };
      return { version, state: stateOf(row['state']), ...numbers, ...sealed };
    });
  }

  async textOf(id: string, version: number): Promise<string | undefined> {
    const read = function* (this: SqlDrafts): Steps<string | undefined> {
      const [row] = yield this.#draft(id);
      if (!row || !(version >= 1 && version <= Number(row['version']))) return undefined;
      const later = yield {
        sql: `SELECT version, body FROM ${this.#prefix}draft_version
          WHERE draft = $1 AND version > $2 ORDER BY version DESC`,
        params: [id, version],
      };
      let text: string | undefined = this.#textIn(row);
      for (const one of later) {
        if (text === undefined) break;
        text = withDelta(text, this.#openVersion(id, Number(one['version']), one['body']).back);
      }
      return text;
    };
    return this.#db.transact(() => read.call(this), `draft ${id}`);
  }

  async batch(id: string, batch: string, digest: string) {
    const [row] = await this.#db.read<Row>(
      `SELECT version, body FROM ${this.#prefix}draft_version WHERE draft = $1 AND batch = $2`,
      [id, batch],
    );
    return row && this.#repeated(id, row, digest);
  }

  write(id: string, expected: number, version: NewVersion): Promise<Written> {
    const { text, state, at, batch } = version;
    const steps = function* (this: SqlDrafts): Steps<Written> {
      const [row] = yield this.#draft(id);
      if (!row) return { missing: true };
      if (batch !== undefined) {
        const [there] = yield {
          sql: `SELECT version, body FROM ${this.#prefix}draft_version WHERE draft = $1 AND batch = $2`,
          params: [id, batch],
        };
        if (there) return this.#repeated(id, there, version.digest);
      }
      const now = Number(row['version']);
      if (now !== expected) return { stale: now };
      const next = now + 1;
      const head = this.#headOf(version);
      const day = dayOf(text) ?? String(row['begun_on']);
      yield {
        sql: `UPDATE ${this.#prefix}draft SET version = $2, state = $3, day = $4, changed_at = $5, head = $6, body = $7
          WHERE id = $1`,
        params: [id, next, state, day, at, this.#sealHead(id, next, head), this.#sealText(id, next, text)],
      };
      yield this.#versionRow(id, next, version, deltaBetween(text, this.#textIn(row)));
      const begunAt = Number(row['begun_at']);
      return { done: { id, version: next, state, day, begunAt, changedAt: at, ...head } };
    };
    return this.#db.transact(() => steps.call(this), `draft ${id}`);
  }

  async purge({
    discarded,
    takenIn,
  }: {
    readonly discarded: number;
    readonly takenIn: number;
  }): Promise<number> {
    const steps = function* (this: SqlDrafts): Steps<number> {
      const rows = yield {
        sql: `SELECT id FROM ${this.#prefix}draft
          WHERE (state = 'discarded' AND changed_at < $1) OR (state = 'taken-in' AND changed_at < $2)`,
        params: [discarded, takenIn],
      };
      for (const { id } of rows) {
        yield { sql: `DELETE FROM ${this.#prefix}draft_version WHERE draft = $1`, params: [String(id)] };
        yield { sql: `DELETE FROM ${this.#prefix}draft WHERE id = $1`, params: [String(id)] };
      }
      return rows.length;
    };
    const gone = await this.#db.transact(() => steps.call(this), 'draft purge');
    if (gone > 0) await this.#db.tidy(['draft', 'draft_version']);
    return gone;
  }

  async rekey(): Promise<number> {
    const ids = await this.#db.read<{ id: string }>(`SELECT id FROM ${this.#prefix}draft ORDER BY id`);
    let rows = 0;
    for (const { id } of ids) rows += await this.#db.transact(() => this.#rekeyOne(id), `draft ${id}`);
    if (rows > 0) await this.#db.tidy(['draft', 'draft_version']);
    return rows;
  }

  *#rekeyOne(id: string): Steps<number> {
    const [row] = yield this.#draft(id);
    if (!row) return 0;
    const version = Number(row['version']);
    const again = (sealed: unknown, about: string) => this.#sealing.seal(this.#plain(sealed, about), about);
    yield {
      sql: `UPDATE ${this.#prefix}draft SET head = $2, body = $3 WHERE id = $1`,
      params: [
        id,
        again(row['head'], about('head', id, version)),
        again(row['body'], about('text', id, version)),
      ],
    };
    const versions = yield {
      sql: `SELECT version, body FROM ${this.#prefix}draft_version WHERE draft = $1`,
      params: [id],
    };
    for (const one of versions) {
      const number = Number(one['version']);
      yield {
        sql: `UPDATE ${this.#prefix}draft_version SET body = $3 WHERE draft = $1 AND version = $2`,
        params: [id, number, again(one['body'], about('version', id, number))],
      };
    }
    return 1 + versions.length;
  }

  integrity(): Promise<readonly string[]> {
    return this.#db.integrity();
  }

  close(): Promise<void> {
    return this.#db.close();
  }

  #draft(id: string): Statement {
    return { sql: `SELECT * FROM ${this.#prefix}draft WHERE id = $1 ${this.#lockRow}`, params: [id] };
  }

  #versionRow(id: string, n: number, version: NewVersion, back: Delta): Statement {
    const { by, edits, digest, why, items, signature, state, at, base, batch } = version;
    const sealed = { by, edits, back, digest, why, items, signature };
    const body = this.#sealing.seal(JSON.stringify(sealed), about('version', id, n));
    return insert(
      `${this.#prefix}draft_version`,
      ['draft', 'version', 'state', 'at', 'base', 'batch', 'body'],
      [id, n, state, at, base, batch ?? null, body],
    );
  }

  #repeated(id: string, row: Row, digest: string | undefined) {
    const version = Number(row['version']);
    return { repeated: version, same: this.#openVersion(id, version, row['body']).digest === digest };
  }

  #headOf({ text, by }: NewVersion): SealedHead {
    return { ...headOf(text), by };
  }

  #sealHead(id: string, version: number, head: SealedHead): string {
    return this.#sealing.seal(JSON.stringify(head), about('head', id, version));
  }

  /** As JSON, which never looks like something that is sealed. */
  #sealText(id: string, version: number, text: string): string {
    return this.#sealing.seal(JSON.stringify(text), about('text', id, version));
  }

  #textIn(row: Row): string {
    return JSON.parse(
      this.#sealing.open(String(row['body']), about('text', String(row['id']), Number(row['version']))),
    ) as string;
  }

  #openVersion(id: string, version: number, body: unknown): SealedVersion {
    return JSON.parse(this.#sealing.open(String(body), about('version', id, version))) as SealedVersion;
  }

  #summary(row: Row): DraftSummary {
    const [id, version] = [String(row['id']), Number(row['version'])];
    const head = JSON.parse(
      this.#sealing.open(String(row['head']), about('head', id, version)),
    ) as SealedHead;
    return {
      ...{ id, version, state: stateOf(row['state']), day: String(row['day']) },
      ...{ begunAt: Number(row['begun_at']), changedAt: Number(row['changed_at']) },
      ...head,
    };
  }

  /** What was not sealed yet stands as it is. */
  #plain(text: unknown, what: string): string {
    const kept = String(text);
    return keyOfSealed(kept) === undefined ? kept : this.#sealing.open(kept, what);
  }
}

const about = (what: string, id: string, version: number) => `draft ${what} ${id} ${version}`;

const stateOf = (word: unknown): DraftState => draftStates.find(one => one === word) ?? 'open';
