import type { Connection, Params, Statement } from './connection.js';
import type {
  Checked,
  Chosen,
  Depth,
  Gate,
  ItemFilter,
  ItemState,
  Lease,
  NewItem,
  Outbox,
  OutboxItem,
  Parked,
  Settlement,
} from './outbox.js';
import { sealAnew } from './rekey.js';
import { type ContentRow, type ItemRow, itemAsFarAs, itemOf, joined, opened, valuesOf } from './rows.js';
import { byPerson, type Change, openGate, sameGate, settled, settledAt, unreadable } from './rules.js';
import type { Sealing } from './sealing.js';
import { claimIn, columnsIn, type Dialect } from './sql-schema.js';
import { placesOf } from './statements.js';
import { takeIn } from './take-in.js';

/** How an outbox is made of a database. */
export interface SqlOutboxOptions {
  readonly dialect: Dialect;
  readonly newId: () => string;
  readonly sealing: Sealing;
}

/** Who still has a lease: item, fence and time are the first three parameters of each statement. */
const HELD = "id = $1 AND state = 'sending' AND fence = $2 AND lease_until > $3";
const DONE = "state IN ('delivered', 'discarded')";

/**
 * The outbox in a database. Taking in and claiming are one after the other per destination, so that the order of
 * `sequence` is the order in which items became visible; everything else is one guarded statement on one row.
 */
export class SqlOutbox implements Outbox {
  readonly #db: Connection;
  readonly #item: string;
  readonly #gate: string;
  readonly #claim: string;
  readonly #read: string;
  readonly #dialect: Dialect;
  readonly #newId: () => string;
  readonly #sealing: Sealing;

  constructor(db: Connection, { dialect, newId, sealing }: SqlOutboxOptions) {
    this.#db = db;
    this.#item = `${dialect.prefix}queue_item`;
    this.#gate = `${dialect.prefix}gate`;
    this.#claim = claimIn(dialect);
    this.#read = `SELECT ${columnsIn(dialect)} FROM ${this.#item}`;
    this.#dialect = dialect;
    this.#newId = newId;
    this.#sealing = sealing;
  }

  put(item: NewItem, now: number): Promise<OutboxItem> {
    const id = this.#newId();
    return this.#db.transact(() => takeIn(item, id, now, this.#dialect, this.#sealing), item.destination);
  }

  async claim(destination: string, now: number, leaseMs: number): Promise<Lease | undefined> {
    for (;;) {
      let lease: Lease | undefined;
      const parked = await this.#db.decide<ItemRow>(
        { sql: this.#claim, params: [destination, now, now + leaseMs] },
        ([row]) => {
          // A wrong key undoes the claim with the transaction.
          const item = row && itemAsFarAs(row, this.#sealing);
          lease = item && { item, fence: row.fence, until: row.lease_until };
          return item?.unreadable
            ? this.#changing(unreadable(item.id, now), 'id = $1', [item.id])
            : undefined;
        },
        destination,
      );
      if (parked.length === 0) return lease;
    }
  }

  begin({ item, fence }: Lease, now: number): Promise<boolean> {
    return this.#update(`attempts = attempts + 1, unknown_since = $3 WHERE ${HELD}`, [item.id, fence, now]);
  }

  extend({ item, fence }: Lease, until: number, now: number): Promise<boolean> {
    return this.#update(`lease_until = $4 WHERE ${HELD}`, [item.id, fence, now, until]);
  }

  settle({ item, fence }: Lease, settlement: Settlement, now: number): Promise<boolean> {
    return this.#change(settled(settlement, now), HELD, [item.id, fence, now]);
  }

  retry(id: string, now: number, chosen?: Chosen): Promise<boolean> {
    return this.#decided(id, byPerson.retry.from, byPerson.retry.change(now, chosen));
  }

  park(id: string, parked: Parked): Promise<boolean> {
    return this.#decided(id, byPerson.park.from, byPerson.park.change(parked));
  }

  discard(id: string, parked: Parked): Promise<boolean> {
    return this.#decided(id, byPerson.discard.from, byPerson.discard.change(parked));
  }

  async get(id: string): Promise<OutboxItem | undefined> {
    const [row] = await this.#db.read<ItemRow>(`${this.#read} WHERE id = $1`, [id]);
    return row && itemOf(row, this.#sealing);
  }

  async list(filter: ItemFilter = {}): Promise<OutboxItem[]> {
    const { destination, caseKey, patientKey, states, limit } = filter;
    if (states?.length === 0) return [];
    const params: (string | number)[] = [];
    const next = (value: string | number) => `$${params.push(value)}`;
    const conditions = [
      ...(destination === undefined ? [] : [`destination = ${next(destination)}`]),
      ...(caseKey === undefined ? [] : [`case_key = ${next(caseKey)}`]),
      ...(patientKey === undefined ? [] : [`patient_key = ${next(patientKey)}`]),
      ...(states === undefined ? [] : [`state IN (${states.map(next).join(', ')})`]),
    ];
    const where = conditions.length > 0 ? `WHERE ${conditions.join(' AND ')}` : '';
    const rows = await this.#db.read<ItemRow>(
      `${this.#read} ${where} ORDER BY sequence ${limit === undefined ? '' : `LIMIT ${next(limit)}`}`,
      params,
    );
    return rows
      .map(row => itemAsFarAs(row, this.#sealing))
      .filter(item => filter.unreadable || !item.unreadable);
  }

  async idsOf(state: ItemState): Promise<string[]> {
    const sql = `SELECT id FROM ${this.#item} WHERE state = $1 ORDER BY sequence`;
    return (await this.#db.read<{ id: string }>(sql, [state])).map(({ id }) => id);
  }

  async depths(): Promise<Depth[]> {
    const rows = await this.#db.read<Omit<Depth, 'oldest'> & { oldest: number | null }>(
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
    if (destinations.length === 0) return undefined;
    const [row] = await this.#db.read<{ due: number | null }>(
      `SELECT min(CASE state WHEN 'waiting' THEN not_before ELSE lease_until END) AS due FROM ${this.#item}
       WHERE state IN ('waiting', 'sending')
         AND destination IN (${placesOf(destinations)})`,
      destinations,
    );
    return row?.due ?? undefined;
  }

  async gate(destination: string): Promise<Gate> {
    const { sql, params } = this.#readGate(destination);
    return gateOf(destination, await this.#db.read<GateRow>(sql, params));
  }

  async changeGate(destination: string, change: (gate: Gate) => Gate): Promise<void> {
    await this.#db.decide<GateRow>(
      this.#readGate(destination),
      rows => {
        const before = gateOf(destination, rows);
        const after = change(before);
        if (sameGate(before, after)) return undefined;
        const { closedUntil, failures, paused } = after;
        return {
          sql: `INSERT INTO ${this.#gate} (destination, closed_until, failures, paused) VALUES ($1, $2, $3, $4)
            ON CONFLICT (destination) DO UPDATE SET closed_until = $2, failures = $3, paused = $4`,
          params: [destination, closedUntil, failures, paused ?? null],
        };
      },
      `gate ${destination}`,
    );
  }

  #readGate(destination: string): Statement {
    return {
      sql: `SELECT closed_until, failures, paused FROM ${this.#gate} WHERE destination = $1`,
      params: [destination],
    };
  }

  async purge(before: number): Promise<number> {
    const old = await this.#db.read<ItemRow>(`${this.#read} WHERE ${DONE} AND created_at < $1`, [before]);
    const done = old.filter(row => {
      // A row that cannot be opened is kept: nobody knows its time.
      const { item } = opened(row, this.#sealing);
      return ((item && settledAt(item)) ?? before) < before;
    });
    let gone = 0;
    for (const { id } of done) {
      const sql = `DELETE FROM ${this.#item} WHERE id = $1 AND ${DONE} RETURNING 1`;
      gone += (await this.#db.run({ sql, params: [id] })).length;
    }
    if (gone > 0) await this.#db.tidy();
    return gone;
  }

  rekey(): Promise<number> {
    return sealAnew(this.#db, this.#dialect, this.#sealing);
  }

  async check(): Promise<Checked> {
    const store = await this.#db.integrity();
    const items = await this.#db.rows<ItemRow>('queue_item');
    const rows = joined(items, await this.#db.rows<ContentRow>('content'));
    return { store, items: rows.map(row => opened(row, this.#sealing)) };
  }

  close(): Promise<void> {
    return this.#db.close();
  }

  #decided(id: string, from: readonly ItemState[], change: Change): Promise<boolean> {
    return this.#change(change, `id = $1 AND state IN ('${from.join("', '")}')`, [id]);
  }

  /** Changes one item where the guard is true of it. */
  async #change(change: Change, guard: string, params: readonly [string, ...number[]]): Promise<boolean> {
    return (await this.#db.run(this.#changing(change, guard, params))).length > 0;
  }

  /** The statement that does so; the guard's parameters are the first ones. */
  #changing(change: Change, guard: string, params: readonly [string, ...number[]]): Statement {
    const values = valuesOf(change, params[0], this.#sealing);
    const sets = values.map(([column], i) => `${column} = $${params.length + i + 1}`);
    return {
      sql: `UPDATE ${this.#item} SET ${sets.join(', ')} WHERE ${guard} RETURNING 1`,
      params: [...params, ...values.map(([, value]) => value)],
    };
  }

  /** False when no row was changed. */
  async #update(sql: string, params: Params): Promise<boolean> {
    const rows = await this.#db.run({ sql: `UPDATE ${this.#item} SET ${sql} RETURNING 1`, params });
    return rows.length > 0;
  }
}

interface GateRow {
  readonly closed_until: number;
  readonly failures: number;
  readonly paused: string | null;
}

function gateOf(destination: string, [row]: readonly GateRow[]): Gate {
  if (!row) return openGate(destination);
  const { closed_until: closedUntil, failures, paused } = row;
  return { destination, closedUntil, failures, ...(paused !== null && { paused }) };
}
