import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openPostgresOutbox } from '../../../src/delivery/outbox/open-postgres.js';
import type { Outbox } from '../../../src/delivery/outbox/outbox.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { digestOf, readSubmission } from '../../../src/delivery/request/submission.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { type HostileServer, startHostile } from '../../support/hostile/server.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { destination, submissionText } from '../samples.js';
import { countedIds } from './ids.js';

/*
 * `earlier/` has outboxes as version 1 of the tables left them: case a delivered with a correction waiting behind it,
 * b in the middle of a send, c parked, d discarded, and a gate that is closed.
 */
const EARLIER = join(import.meta.dirname, 'earlier');
const T = Date.UTC(2024, 2, 14, 10);
const folder = mkdtempSync(join(tmpdir(), 'earlier-'));
afterAll(() => rmSync(folder, { recursive: true }));

const newId = countedIds('new');

let server: HostileServer;
beforeEach(async () => {
  server = await startHostile();
});
afterEach(() => server.close());

async function goesOn(outbox: Outbox): Promise<void> {
  const states = async () => (await outbox.list()).map(i => [i.caseKey, i.state]);
  expect(await states()).toEqual([
    ['a', 'delivered'],
    ['a', 'waiting'],
    ['b', 'sending'],
    ['c', 'parked'],
    ['d', 'discarded'],
  ]);
  for (const item of await outbox.list()) {
    expect(digestOf(item.payload)).toBe(item.digest);
    expect(item.overwrite).toBeUndefined();
  }
  const [first, second, third] = await outbox.list();
  expect(first?.receipt?.entries).toHaveLength(4);
  expect(readSubmission(second?.payload ?? '')?.entries[2]?.ifMatch).toBe('W/"1"');
  expect(third?.unknownSince).toBe(T);
  expect(await outbox.gate('records')).toEqual({
    destination: 'records',
    closedUntil: T + 90_000,
    failures: 2,
  });
  // What was taken in before is not taken in again; what is new is, and may overwrite.
  const again = { ...(await outbox.list({ caseKey: 'c' }))[0]! };
  const { destination: to, caseKey, patientKey, payload, digest } = again;
  expect((await outbox.put({ destination: to, caseKey, patientKey, payload, digest }, T)).id).toBe(again.id);
  const over = await outbox.put({ ...again, caseKey: 'e', patientKey: 'e', overwrite: true }, T);
  expect((await outbox.get(over.id))?.overwrite).toBe(true);
  await outbox.discard(over.id, { reason: 'a trial', by: 'a test', at: T, findings: [] });
  // An hour later everything that can go out goes out, at a server that has the original of case a.
  server.store.transaction(JSON.parse(submissionText('a')).entry);
  const target = destination(server.baseUrl, { name: 'records', searchLagMs: 0 });
  const tally = await drain({
    outbox,
    targets: [{ destination: target }],
    clock: () => T + 3_600_000,
    newId,
    random: () => 0.5,
    sleep: async () => undefined,
  });
  expect(tally).toMatchObject({ delivered: 2, parked: 0 });
  expect(server.store.resources.filter(r => r.resourceType === 'Device').map(r => r['lotNumber'])).toEqual([
    'L-18',
    'L-17',
  ]);
}

describe('an outbox of the release before', () => {
  it('in SQLite is brought up to date once, and goes on', async () => {
    const path = join(folder, 'outbox.db');
    copyFileSync(join(EARLIER, 'schema-1.sqlite'), path);
    const outbox = await openSqliteOutbox(path, { newId });
    await goesOn(outbox);
    await outbox.close();
    const db = new Database(path);
    expect(db.pragma('user_version', { simple: true })).toBe(3);
    db.close();
    const again = await openSqliteOutbox(path, { newId });
    expect(await again.list({ states: ['delivered'] })).toHaveLength(3);
    await again.close();
  });

  it('made by a later release is left alone', async () => {
    const path = join(folder, 'later.db');
    const db = new Database(path);
    db.pragma('user_version = 99');
    db.close();
    await expect(openSqliteOutbox(path, { newId })).rejects.toMatchObject({ code: 'outbox-unreadable' });
  });
});

describe.skipIf(postgresPrograms() === undefined)('an outbox of the release before in PostgreSQL', () => {
  let database: TestPostgres;
  beforeAll(async () => {
    database = await startPostgres();
  }, 60_000);
  afterAll(() => database.stop());

  it('is brought up to date once, however many open it, and goes on', async () => {
    const client = new pg.Client({ connectionString: database.address });
    await client.connect();
    await client.query(readFileSync(join(EARLIER, 'schema-1.sql'), 'utf8'));
    const open = () => openPostgresOutbox(database.address, { newId });
    const opened = await Promise.all([open(), open(), open()]);
    await goesOn(opened[0]!);
    expect(await opened[1]!.list({ states: ['delivered'] })).toHaveLength(3);
    expect((await client.query('SELECT number FROM casetally.version')).rows).toEqual([{ number: 3 }]);
    await client.query('UPDATE casetally.version SET number = 99');
    await expect(open()).rejects.toMatchObject({ code: 'outbox-unreadable' });
    await client.end();
    await Promise.all(opened.map(outbox => outbox.close()));
  });
});
