/** What the outbox costs beside the database that it stands on. */
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import pg from 'pg';
import type * as PostgresModule from '../src/delivery/outbox/open-postgres.js';
import type { Outbox } from '../src/delivery/outbox/outbox.js';
import type * as SqliteModule from '../src/delivery/outbox/sqlite-outbox.js';
import { startPostgres } from '../tests/support/postgres.js';

const ITEMS = 60;
/** Taken in, claimed, begun and settled. */
const COMMITS = 4;

/** Milliseconds by the clock, since most of it is waiting for the disk: of items taken in and delivered, and of raw writes. */
export interface QueueTimes {
  readonly outbox: number;
  readonly raw: number;
}

/** Against the same writes in bare SQLite. */
export async function queueTimes(
  { openSqliteOutbox }: typeof SqliteModule,
  payload: string,
): Promise<QueueTimes> {
  const folder = mkdtempSync(join(tmpdir(), 'casetally-bench-queue-'));
  try {
    const outbox = await openSqliteOutbox(join(folder, 'outbox.db'), { newId: randomUUID });
    const own = await timeOf(outbox, payload);
    await outbox.close();

    const db = new Sqlite(join(folder, 'raw.db'));
    db.pragma('journal_mode = WAL');
    db.pragma('secure_delete = ON');
    db.pragma('synchronous = FULL');
    db.exec('CREATE TABLE item (id INTEGER PRIMARY KEY, payload text, state text) STRICT');
    const insert = db.prepare("INSERT INTO item (payload, state) VALUES (?, 'waiting')");
    const update = db.prepare('UPDATE item SET state = ? WHERE id = ?');
    const from = performance.now();
    for (let n = 0; n < ITEMS; n += 1) {
      const { lastInsertRowid } = insert.run(payload);
      for (let more = 1; more < COMMITS; more += 1) update.run(`step ${more}`, lastInsertRowid);
    }
    const raw = performance.now() - from;
    db.close();
    return { outbox: own, raw };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Against the same writes over one connection of `pg`, at a server of its own; in turns. */
export async function postgresTimes(
  { openPostgresOutbox }: typeof PostgresModule,
  payload: string,
  turns: number,
): Promise<readonly QueueTimes[]> {
  const server = await startPostgres();
  const client = new pg.Client({ connectionString: server.address });
  try {
    const outbox = await openPostgresOutbox(server.address, { newId: randomUUID });
    await client.connect();
    await client.query(
      'CREATE TABLE raw (id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY, payload text, state text)',
    );
    const times: QueueTimes[] = [];
    for (let turn = 0; turn < turns; turn += 1) {
      const own = await timeOf(outbox, payload);
      const from = performance.now();
      for (let n = 0; n < ITEMS; n += 1) {
        const { rows } = await client.query(
          "INSERT INTO raw (payload, state) VALUES ($1, 'waiting') RETURNING id",
          [payload],
        );
        for (let more = 1; more < COMMITS; more += 1)
          await client.query('UPDATE raw SET state = $1 WHERE id = $2', [`step ${more}`, rows[0].id]);
      }
      times.push({ outbox: own, raw: performance.now() - from });
    }
    await outbox.close();
    return times;
  } finally {
    await client.end();
    await server.stop();
  }
}

async function timeOf(outbox: Outbox, payload: string): Promise<number> {
  const from = performance.now();
  for (let n = 0; n < ITEMS; n += 1) {
    const key = randomUUID();
    await outbox.put(
      { destination: 'd', caseKey: key, patientKey: key, payload, digest: `sha256:${key}` },
      n,
    );
    const lease = await outbox.claim('d', n, 60_000);
    if (!lease || !(await outbox.begin(lease, n))) throw new Error('the item was not to be had');
    const parked = { reason: 'bench', by: 'bench', at: n, findings: [] };
    if (!(await outbox.settle(lease, { kind: 'parked', parked }, n))) throw new Error('not settled');
  }
  return performance.now() - from;
}
