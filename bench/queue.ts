/** What the outbox costs beside the database that it stands on. */
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import type * as OutboxModule from '../src/delivery/outbox/sqlite-outbox.js';

const ITEMS = 60;
/** Taken in, claimed, begun and settled. */
const COMMITS = 4;

/** Milliseconds by the clock, since most of it is waiting for the disk: of items taken in and delivered, and of raw writes. */
export async function queueTimes(
  { openSqliteOutbox }: typeof OutboxModule,
  payload: string,
): Promise<{ readonly outbox: number; readonly raw: number }> {
  const folder = mkdtempSync(join(tmpdir(), 'casetally-bench-queue-'));
  try {
    const outbox = await openSqliteOutbox(join(folder, 'outbox.db'), { newId: randomUUID });
    let from = performance.now();
    for (let n = 0; n < ITEMS; n += 1) {
      const key = `case-${n}`;
      await outbox.put(
        { destination: 'd', caseKey: key, patientKey: `patient-${n}`, payload, digest: `sha256:${n}` },
        n,
      );
      const lease = await outbox.claim('d', n, 60_000);
      if (!lease || !(await outbox.begin(lease, n))) throw new Error('the item was not to be had');
      const parked = { reason: 'bench', by: 'bench', at: n, findings: [] };
      if (!(await outbox.settle(lease, { kind: 'parked', parked }, n))) throw new Error('not settled');
    }
    const own = performance.now() - from;
    await outbox.close();

    const db = new Sqlite(join(folder, 'raw.db'));
    db.pragma('journal_mode = WAL');
    db.pragma('secure_delete = ON');
    db.pragma('synchronous = FULL');
    db.exec('CREATE TABLE item (id INTEGER PRIMARY KEY, payload text, state text) STRICT');
    const insert = db.prepare("INSERT INTO item (payload, state) VALUES (?, 'waiting')");
    const update = db.prepare('UPDATE item SET state = ? WHERE id = ?');
    from = performance.now();
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
