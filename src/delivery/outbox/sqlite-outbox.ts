import { chmodSync, closeSync, mkdirSync, openSync } from 'node:fs';
import { dirname } from 'node:path';
import type Sqlite from 'better-sqlite3';
import { CasetallyError } from '../../findings/errors.js';
import {
  type Checked,
  type Depth,
  type Gate,
  type ItemFilter,
  type Lease,
  type NewItem,
  type Outbox,
  type OutboxItem,
  openGate,
  type Parked,
  type Settlement,
} from './outbox.js';
import { type ItemRow, itemOf, sealItem, sealParked, sealReceipt } from './rows.js';
import { type Sealing, unsealed } from './sealing.js';
import { checkAll, purgeSettled } from './sqlite-keep.js';
import { CLAIMABLE, SCHEMA, SCHEMA_VERSION } from './sqlite-schema.js';

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
  return new SqliteOutbox(db, options.newId, options.sealing ?? unsealed);
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
    if (version === 0) {
      db.exec(SCHEMA);
      db.pragma(`user_version = ${SCHEMA_VERSION}`);
    }
  }).immediate();
}

/** Every write is one IMMEDIATE transaction: several processes wait for each other instead of failing. */
class SqliteOutbox implements Outbox {
  readonly #db: Sqlite.Database;
  readonly #newId: () => string;
  readonly #sealing: Sealing;

  constructor(db: Sqlite.Database, newId: () => string, sealing: Sealing) {
    this.#db = db;
    this.#newId = newId;
    this.#sealing = sealing;
  }

  async put(item: NewItem, now: number): Promise<OutboxItem> {
    const row = this.#write(() => {
      const newest = this.#row(
        "SELECT * FROM item WHERE destination = ? AND case_key = ? AND state <> 'discarded' ORDER BY sequence DESC LIMIT 1",
        item.destination,
        item.caseKey,
      );
      if (newest?.digest === item.digest) return newest;
      const id = this.#newId();
      const { payload, context } = sealItem(item, id, this.#sealing);
      return this.#row(
        `INSERT INTO item (id, destination, case_key, patient_key, payload, digest, context, state, created_at, not_before)
         VALUES (?, ?, ?, ?, ?, ?, ?, 'waiting', ?, ?) RETURNING *`,
        ...[id, item.destination, item.caseKey, item.patientKey, payload, item.digest, context, now, now],
      );
    });
    if (!row) throw new TypeError('the outbox took nothing in');
    return itemOf(row, this.#sealing);
  }

  async claim(destination: string, now: number, leaseMs: number): Promise<Lease | undefined> {
    const row = this.#write(() => {
      const next = this.#row(CLAIMABLE, { destination, now });
      if (!next) return undefined;
      return this.#row(
        "UPDATE item SET state = 'sending', fence = fence + 1, lease_until = ? WHERE sequence = ? RETURNING *",
        now + leaseMs,
        next.sequence,
      );
    });
    return row && { item: itemOf(row, this.#sealing), fence: row.fence, until: row.lease_until };
  }

  async begin({ item, fence }: Lease, now: number): Promise<boolean> {
    return this.#change(
      `UPDATE item SET attempts = attempts + 1, unknown_since = coalesce(unknown_since, @now)
       WHERE id = @id AND state = 'sending' AND fence = @fence AND lease_until > @now`,
      { id: item.id, fence, now },
    );
  }

  async extend({ item, fence }: Lease, until: number, now: number): Promise<boolean> {
    return this.#change(
      "UPDATE item SET lease_until = @until WHERE id = @id AND state = 'sending' AND fence = @fence AND lease_until > @now",
      { id: item.id, fence, until, now },
    );
  }

  async settle({ item, fence }: Lease, settlement: Settlement, now: number): Promise<boolean> {
    const mine = "WHERE id = @id AND state = 'sending' AND fence = @fence AND lease_until > @now";
    const { id } = item;
    switch (settlement.kind) {
      case 'delivered':
        return this.#change(
          `UPDATE item SET state = 'delivered', unknown_since = NULL, last_reason = 'accepted', receipt = @receipt ${mine}`,
          { id, fence, now, receipt: sealReceipt(settlement.receipt, id, this.#sealing) },
        );
      case 'again':
        return this.#change(
          `UPDATE item SET state = 'waiting', not_before = @notBefore, last_reason = @reason,
             unknown_since = CASE WHEN @unknown THEN coalesce(unknown_since, @now) ELSE NULL END ${mine}`,
          {
            ...{ id, fence, now, notBefore: settlement.notBefore, reason: settlement.reason },
            unknown: settlement.unknown ? 1 : 0,
          },
        );
      case 'parked':
        return this.#change(
          `UPDATE item SET state = 'parked', last_reason = @reason, parked = @parked,
             unknown_since = CASE WHEN @known THEN NULL ELSE unknown_since END ${mine}`,
          {
            ...{ id, fence, now, reason: settlement.parked.reason, known: settlement.known ? 1 : 0 },
            parked: sealParked(settlement.parked, id, this.#sealing),
          },
        );
    }
  }

  async retry(id: string, now: number): Promise<boolean> {
    return this.#change(
      "UPDATE item SET state = 'waiting', not_before = @now, parked = NULL WHERE id = @id AND state IN ('waiting', 'parked')",
      { id, now },
    );
  }

  async park(id: string, parked: Parked): Promise<boolean> {
    return this.#change(
      "UPDATE item SET state = 'parked', last_reason = @reason, parked = @parked WHERE id = @id AND state = 'waiting'",
      { id, reason: parked.reason, parked: sealParked(parked, id, this.#sealing) },
    );
  }

  async discard(id: string, parked: Parked): Promise<boolean> {
    return this.#change(
      `UPDATE item SET state = 'discarded', last_reason = @reason, parked = @parked
       WHERE id = @id AND state IN ('waiting', 'parked')`,
      { id, reason: parked.reason, parked: sealParked(parked, id, this.#sealing) },
    );
  }

  async get(id: string): Promise<OutboxItem | undefined> {
    const row = this.#row('SELECT * FROM item WHERE id = ?', id);
    return row && itemOf(row, this.#sealing);
  }

  async list({ destination, caseKey, states, limit }: ItemFilter = {}): Promise<OutboxItem[]> {
    const rows = this.#db
      .prepare<unknown[], ItemRow>(
        `SELECT * FROM item
         WHERE (@destination IS NULL OR destination = @destination) AND (@caseKey IS NULL OR case_key = @caseKey)
           AND (@states IS NULL OR state IN (SELECT value FROM json_each(@states)))
         ORDER BY sequence LIMIT @limit`,
      )
      .all({
        destination: destination ?? null,
        caseKey: caseKey ?? null,
        states: states ? JSON.stringify(states) : null,
        limit: limit ?? -1,
      });
    return rows.map(row => itemOf(row, this.#sealing));
  }

  async depths(): Promise<Depth[]> {
    const rows = this.#db
      .prepare<[], Omit<Depth, 'oldest'> & { oldest: number | null }>(
        `SELECT destination, sum(state = 'waiting') AS waiting, sum(state = 'sending') AS sending,
           sum(state = 'parked') AS parked, sum(state = 'delivered') AS delivered,
           sum(state IN ('waiting', 'sending') AND unknown_since IS NOT NULL) AS unknown,
           min(CASE WHEN state IN ('waiting', 'sending', 'parked') THEN created_at END) AS oldest
         FROM item GROUP BY destination ORDER BY destination`,
      )
      .all();
    return rows.map(({ oldest, ...depth }) => ({ ...depth, ...(oldest !== null && { oldest }) }));
  }

  async nextDue(destinations: readonly string[]): Promise<number | undefined> {
    const row = this.#db
      .prepare<unknown[], { due: number | null }>(
        `SELECT min(CASE state WHEN 'waiting' THEN not_before ELSE lease_until END) AS due FROM item
         WHERE state IN ('waiting', 'sending') AND destination IN (SELECT value FROM json_each(?))`,
      )
      .get(JSON.stringify(destinations));
    return row?.due ?? undefined;
  }

  async gate(destination: string): Promise<Gate> {
    const row = this.#db
      .prepare<unknown[], { closed_until: number; failures: number; paused: string | null }>(
        'SELECT closed_until, failures, paused FROM gate WHERE destination = ?',
      )
      .get(destination);
    if (!row) return openGate(destination);
    const { closed_until: closedUntil, failures, paused } = row;
    return { destination, closedUntil, failures, ...(paused !== null && { paused }) };
  }

  async setGate({ destination, closedUntil, failures, paused }: Gate): Promise<void> {
    this.#change(
      `INSERT INTO gate (destination, closed_until, failures, paused) VALUES (@destination, @closedUntil, @failures, @paused)
       ON CONFLICT (destination) DO UPDATE SET closed_until = @closedUntil, failures = @failures, paused = @paused`,
      { destination, closedUntil, failures, paused: paused ?? null },
    );
  }

  async purge(before: number): Promise<number> {
    return this.#write(() => purgeSettled(this.#db, before, this.#sealing));
  }

  async check(): Promise<Checked> {
    return checkAll(this.#db, this.#sealing);
  }

  async close(): Promise<void> {
    this.#db.close();
  }

  #row(sql: string, ...params: unknown[]): ItemRow | undefined {
    return this.#db.prepare<unknown[], ItemRow>(sql).get(...params);
  }

  #write<T>(work: () => T): T {
    return this.#db.transaction(work).immediate();
  }

  #change(sql: string, params: Record<string, string | number | null>): boolean {
    return this.#write(() => this.#db.prepare(sql).run(params).changes > 0);
  }
}
