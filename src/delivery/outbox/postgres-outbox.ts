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
import type { Params, PostgresConnection } from './postgres-connection.js';
import { claimIn } from './postgres-schema.js';
import { opened, settledBefore } from './retention.js';
import { type ItemRow, itemOf, sealItem, sealParked, sealReceipt } from './rows.js';
import type { Sealing } from './sealing.js';

/** Who still holds a lease: item, fence and time are the first three parameters of each statement. */
const HELD = "WHERE id = $1 AND state = 'sending' AND fence = $2 AND lease_until > $3";

/**
 * The outbox in PostgreSQL, for workers on several machines. Taking in and claiming are one after the other per
 * destination (an advisory lock), so that the order of `sequence` is the order in which items became visible;
 * everything else is one guarded statement on one row.
 */
export class PostgresOutbox implements Outbox {
  readonly #db: PostgresConnection;
  readonly #item: string;
  readonly #gate: string;
  readonly #claim: string;
  readonly #newId: () => string;
  readonly #sealing: Sealing;

  constructor(db: PostgresConnection, schema: string, newId: () => string, sealing: Sealing) {
    this.#db = db;
    this.#item = `${schema}.item`;
    this.#gate = `${schema}.gate`;
    this.#claim = claimIn(schema);
    this.#newId = newId;
    this.#sealing = sealing;
  }

  async put(item: NewItem, now: number): Promise<OutboxItem> {
    const id = this.#newId();
    const row = await this.#db.run(async query => {
      const [newest] = await query<ItemRow>(
        `SELECT * FROM ${this.#item} WHERE destination = $1 AND case_key = $2 AND state <> 'discarded'
         ORDER BY sequence DESC LIMIT 1`,
        [item.destination, item.caseKey],
      );
      if (newest?.digest === item.digest) return newest;
      const { payload, context } = sealItem(item, id, this.#sealing);
      const [made] = await query<ItemRow>(
        `INSERT INTO ${this.#item} (id, destination, case_key, patient_key, payload, digest, context, state, created_at, not_before)
         VALUES ($1, $2, $3, $4, $5, $6, $7, 'waiting', $8, $8) RETURNING *`,
        [id, item.destination, item.caseKey, item.patientKey, payload, item.digest, context, now],
      );
      return made;
    }, item.destination);
    if (!row) throw new TypeError('the outbox took nothing in');
    return itemOf(row, this.#sealing);
  }

  async claim(destination: string, now: number, leaseMs: number): Promise<Lease | undefined> {
    const [row] = await this.#db.run(
      query => query<ItemRow>(this.#claim, [destination, now, now + leaseMs]),
      destination,
    );
    return row && { item: itemOf(row, this.#sealing), fence: row.fence, until: row.lease_until };
  }

  begin({ item, fence }: Lease, now: number): Promise<boolean> {
    return this.#change(
      `UPDATE ${this.#item} SET attempts = attempts + 1, unknown_since = coalesce(unknown_since, $3) ${HELD}`,
      [item.id, fence, now],
    );
  }

  extend({ item, fence }: Lease, until: number, now: number): Promise<boolean> {
    return this.#change(`UPDATE ${this.#item} SET lease_until = $4 ${HELD}`, [item.id, fence, now, until]);
  }

  async settle({ item, fence }: Lease, settlement: Settlement, now: number): Promise<boolean> {
    const mine = [item.id, fence, now] as const;
    switch (settlement.kind) {
      case 'delivered':
        return this.#change(
          `UPDATE ${this.#item} SET state = 'delivered', unknown_since = NULL, last_reason = 'accepted', receipt = $4 ${HELD}`,
          [...mine, sealReceipt(settlement.receipt, item.id, this.#sealing)],
        );
      case 'again':
        return this.#change(
          `UPDATE ${this.#item} SET state = 'waiting', not_before = $4, last_reason = $5,
             unknown_since = CASE WHEN $6 THEN coalesce(unknown_since, $3) ELSE NULL END ${HELD}`,
          [...mine, settlement.notBefore, settlement.reason, settlement.unknown],
        );
      case 'parked':
        return this.#change(
          `UPDATE ${this.#item} SET state = 'parked', last_reason = $4, parked = $5,
             unknown_since = CASE WHEN $6 THEN NULL ELSE unknown_since END ${HELD}`,
          [
            ...mine,
            settlement.parked.reason,
            sealParked(settlement.parked, item.id, this.#sealing),
            settlement.known ?? false,
          ],
        );
    }
  }

  retry(id: string, now: number): Promise<boolean> {
    return this.#change(
      `UPDATE ${this.#item} SET state = 'waiting', not_before = $2, parked = NULL
       WHERE id = $1 AND state IN ('waiting', 'parked')`,
      [id, now],
    );
  }

  async park(id: string, parked: Parked): Promise<boolean> {
    return this.#change(
      `UPDATE ${this.#item} SET state = 'parked', last_reason = $2, parked = $3 WHERE id = $1 AND state = 'waiting'`,
      [id, parked.reason, sealParked(parked, id, this.#sealing)],
    );
  }

  async discard(id: string, parked: Parked): Promise<boolean> {
    return this.#change(
      `UPDATE ${this.#item} SET state = 'discarded', last_reason = $2, parked = $3
       WHERE id = $1 AND state IN ('waiting', 'parked')`,
      [id, parked.reason, sealParked(parked, id, this.#sealing)],
    );
  }

  async get(id: string): Promise<OutboxItem | undefined> {
    const [row] = await this.#rows<ItemRow>(`SELECT * FROM ${this.#item} WHERE id = $1`, [id]);
    return row && itemOf(row, this.#sealing);
  }

  async list({ destination, caseKey, states, limit }: ItemFilter = {}): Promise<OutboxItem[]> {
    const rows = await this.#rows<ItemRow>(
      `SELECT * FROM ${this.#item}
       WHERE ($1::text IS NULL OR destination = $1) AND ($2::text IS NULL OR case_key = $2)
         AND ($3::text[] IS NULL OR state = ANY ($3)) ORDER BY sequence LIMIT $4`,
      [destination ?? null, caseKey ?? null, states ?? null, limit ?? null],
    );
    return rows.map(row => itemOf(row, this.#sealing));
  }

  async depths(): Promise<Depth[]> {
    const rows = await this.#rows<Omit<Depth, 'oldest'> & { oldest: number | null }>(
      `SELECT destination, count(*) FILTER (WHERE state = 'waiting') AS waiting,
         count(*) FILTER (WHERE state = 'sending') AS sending, count(*) FILTER (WHERE state = 'parked') AS parked,
         count(*) FILTER (WHERE state = 'delivered') AS delivered,
         count(*) FILTER (WHERE state IN ('waiting', 'sending') AND unknown_since IS NOT NULL) AS unknown,
         min(created_at) FILTER (WHERE state IN ('waiting', 'sending', 'parked')) AS oldest
       FROM ${this.#item} GROUP BY destination ORDER BY destination`,
    );
    return rows.map(({ oldest, ...depth }) => ({ ...depth, ...(oldest !== null && { oldest }) }));
  }

  async nextDue(destinations: readonly string[]): Promise<number | undefined> {
    const [row] = await this.#rows<{ due: number | null }>(
      `SELECT min(CASE state WHEN 'waiting' THEN not_before ELSE lease_until END) AS due FROM ${this.#item}
       WHERE state IN ('waiting', 'sending') AND destination = ANY ($1::text[])`,
      [destinations],
    );
    return row?.due ?? undefined;
  }

  async gate(destination: string): Promise<Gate> {
    const [row] = await this.#rows<{ closed_until: number; failures: number; paused: string | null }>(
      `SELECT closed_until, failures, paused FROM ${this.#gate} WHERE destination = $1`,
      [destination],
    );
    if (!row) return openGate(destination);
    const { closed_until: closedUntil, failures, paused } = row;
    return { destination, closedUntil, failures, ...(paused !== null && { paused }) };
  }

  async setGate({ destination, closedUntil, failures, paused }: Gate): Promise<void> {
    await this.#change(
      `INSERT INTO ${this.#gate} (destination, closed_until, failures, paused) VALUES ($1, $2, $3, $4)
       ON CONFLICT (destination) DO UPDATE SET closed_until = $2, failures = $3, paused = $4`,
      [destination, closedUntil, failures, paused ?? null],
    );
  }

  async purge(before: number): Promise<number> {
    const old = await this.#rows<ItemRow>(
      `SELECT * FROM ${this.#item} WHERE state IN ('delivered', 'discarded') AND created_at < $1`,
      [before],
    );
    const ids = settledBefore(old, before, this.#sealing);
    const gone = await this.#rows(
      `DELETE FROM ${this.#item} WHERE state IN ('delivered', 'discarded') AND id = ANY($1) RETURNING 1`,
      [ids],
    );
    return gone.length;
  }

  /** A database server checks itself; here every row is opened. */
  async check(): Promise<Checked> {
    const rows = await this.#rows<ItemRow>(`SELECT * FROM ${this.#item} ORDER BY sequence`);
    return { store: [], items: rows.map(row => opened(row, this.#sealing)) };
  }

  close(): Promise<void> {
    return this.#db.close();
  }

  #rows<Row>(sql: string, params: Params = []): Promise<Row[]> {
    return this.#db.run(query => query<Row>(sql, params));
  }

  /** Runs a statement that changes one row at most; false when it changed none. */
  async #change(sql: string, params: Params): Promise<boolean> {
    return (await this.#rows(`${sql} RETURNING 1`, params)).length > 0;
  }
}
