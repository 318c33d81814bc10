import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { backupStore, restoreStore } from '../../../src/delivery/outbox/copies.js';
import { openPostgresOutbox } from '../../../src/delivery/outbox/open-postgres.js';
import type { Outbox, OutboxItem } from '../../../src/delivery/outbox/outbox.js';
import { rescueStore } from '../../../src/delivery/outbox/rescue.js';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { digestOf, readSubmission } from '../../../src/delivery/request/submission.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { type HostileServer, startHostile } from '../../support/hostile/server.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { destination, submissionText } from '../samples.js';
import { countedIds } from './ids.js';

/*
 * `earlier/` has outboxes as versions 1 and 3 of the tables left them, the latter also sealed with a key of ones: case a delivered with a correction waiting behind it,
 * b in the middle of a send, c parked, d discarded, and a gate that is closed.
 */
const EARLIER = join(import.meta.dirname, 'earlier');
const T = Date.UTC(2024, 2, 14, 10);
const folder = mkdtempSync(join(tmpdir(), 'earlier-'));
afterAll(() => rmSync(folder, { recursive: true }));

const KEY = sealingWith([Buffer.alloc(32, 1).toString('base64')]);

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
  it.each([
    ['schema-1', unsealed],
    ['schema-3', unsealed],
    ['schema-3-sealed', KEY],
  ])('in SQLite (%s) is brought up to date once, and goes on', async (name, sealing) => {
    const path = join(folder, `${name}.db`);
    copyFileSync(join(EARLIER, `${name}.sqlite`), path);
    const outbox = await openSqliteOutbox(path, { newId, sealing });
    await goesOn(outbox);
    await outbox.close();
    const db = new Database(path);
    expect(db.pragma('user_version', { simple: true })).toBe(4);
    expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
    db.close();
    const again = await openSqliteOutbox(path, { newId, sealing });
    expect(await again.list({ states: ['delivered'] })).toHaveLength(3);
    await again.close();
  });

  it.each([
    ['schema-3-sealed', unsealed],
    ['schema-3-sealed', sealingWith([Buffer.alloc(32, 2).toString('base64')])],
    ['schema-3', KEY],
  ])('(%s) is left as it is where the keys do not fit', async (name, sealing) => {
    const path = join(folder, `${newId()}.db`);
    copyFileSync(join(EARLIER, `${name}.sqlite`), path);
    await expect(openSqliteOutbox(path, { newId, sealing })).rejects.toMatchObject({ code: 'outbox-key' });
    const db = new Database(path);
    expect(db.pragma('user_version', { simple: true })).toBe(3);
    db.close();
  });

  it('is not worked on any more by that release, should a worker of it still run', async () => {
    const path = join(folder, 'both.db');
    copyFileSync(join(EARLIER, 'schema-3.sqlite'), path);
    const before = new Database(path);
    const claim = before.prepare("UPDATE item SET state = 'sending' WHERE state = 'waiting' RETURNING *");
    const outbox = await openSqliteOutbox(path, { newId });
    expect(() => claim.all()).toThrow('no such table: item');
    before.close();
    await goesOn(outbox);
    await outbox.close();
  });

  it.each(['schema-1', 'schema-3'])('(%s) is backed up as it is, and restored up to date', async name => {
    const kept = join(folder, `${name}-kept.db`);
    const path = join(folder, `${name}-restored.db`);
    expect(await backupStore(join(EARLIER, `${name}.sqlite`), kept)).toBe(5);
    expect(await restoreStore(kept, path, T)).toBe(5);
    const outbox = await openSqliteOutbox(path, { newId });
    await goesOn(outbox);
    await outbox.close();
  });

  it('that is damaged is not changed, and is rescued into one that is up to date', async () => {
    const path = join(folder, 'hurt.db');
    const bytes = readFileSync(join(EARLIER, 'schema-3.sqlite'));
    const page = Math.floor(bytes.indexOf('c-procedure') / 4096) * 4096;
    bytes.fill(0xa5, page, page + 4096);
    writeFileSync(path, bytes);
    await expect(openSqliteOutbox(path, { newId })).rejects.toMatchObject({ code: 'outbox-damaged' });
    expect(readFileSync(path).equals(bytes)).toBe(true);
    const to = join(folder, 'rescued.db');
    const isWhole = ({ payload, digest }: OutboxItem) => digestOf(payload) === digest;
    const rescued = await rescueStore(path, to, { sealing: unsealed, isWhole, now: T });
    expect(rescued.lost || rescued.hurt.length > 0).toBe(true);
    const outbox = await openSqliteOutbox(to, { newId });
    expect(await outbox.list()).toHaveLength(rescued.copied);
    expect(rescued.copied).toBeGreaterThan(0);
    await outbox.close();
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
    expect((await client.query('SELECT number FROM casetally.version')).rows).toEqual([{ number: 4 }]);
    await client.query('UPDATE casetally.version SET number = 99');
    await expect(open()).rejects.toMatchObject({ code: 'outbox-unreadable' });
    await client.end();
    await Promise.all(opened.map(outbox => outbox.close()));
  });
});
