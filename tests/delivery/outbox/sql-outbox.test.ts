import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { SqlOutbox } from '../../../src/delivery/outbox/sql-outbox.js';
import { SQLITE } from '../../../src/delivery/outbox/sql-schema.js';
import { SqliteConnection } from '../../../src/delivery/outbox/sqlite-connection.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { countedIds } from './ids.js';
import { openFiles } from './open-files.js';

const folder = mkdtempSync(join(tmpdir(), 'sql-'));
afterAll(() => rmSync(folder, { recursive: true }));
const newId = countedIds();
const storeOf = countedIds('store');
const parked = { reason: 'invalid', by: 'x', at: 5, findings: [] };
const item = { destination: 'records', caseKey: 'c', patientKey: 'p', payload: '{}', digest: 'x' };

describe('an outbox in a database', () => {
  let path: string;
  let connection: SqliteConnection;
  let outbox: SqlOutbox;
  beforeEach(async () => {
    path = join(folder, `${storeOf()}.db`);
    await (await openSqliteOutbox(path, { newId })).close();
    connection = new SqliteConnection(new Database(path), path);
    outbox = new SqlOutbox(connection, { dialect: SQLITE, newId, sealing: unsealed });
    return () => connection.close();
  });

  it('lets wait for each other what is of one destination, and the gate of it apart', async () => {
    const decide = vi.spyOn(connection, 'decide');
    const transact = vi.spyOn(connection, 'transact');
    await outbox.put(item, 0);
    await outbox.claim('other', 0, 100);
    await outbox.changeGate('records', gate => ({ ...gate, failures: 1 }));
    expect(transact.mock.calls.map(call => [...call].at(1))).toEqual(['records']);
    expect(decide.mock.calls.map(call => [...call].at(2))).toEqual(['other', 'gate records']);
  });

  it('writes a gate only when something of it changes', async () => {
    const watch = new Database(path);
    const version = () => watch.pragma('data_version', { simple: true });
    await outbox.changeGate('records', gate => ({ ...gate, failures: 1 }));
    const before = version();
    await outbox.changeGate('records', gate => ({ ...gate }));
    expect(version()).toBe(before);
    await outbox.changeGate('records', gate => ({ ...gate, failures: 2 }));
    expect(version()).not.toBe(before);
    watch.close();
    // A store may write over what is the same and not show it.
    const decide = vi.spyOn(connection, 'decide');
    await outbox.changeGate('records', gate => ({ ...gate, failures: 2 }));
    const [, then] = decide.mock.calls[0] ?? [];
    expect(then?.([{ closed_until: 0, failures: 2, paused: null }])).toBeUndefined();
    expect(then?.([{ closed_until: 0, failures: 1, paused: null }])?.params).toEqual(['records', 0, 2, null]);
  });

  it('asks for nothing where no state and no destination is asked for', async () => {
    await outbox.put(item, 0);
    const read = vi.spyOn(connection, 'read');
    expect([await outbox.list({ states: [] }), await outbox.nextDue([])]).toEqual([[], undefined]);
    expect(read).not.toHaveBeenCalled();
    expect(await outbox.nextDue(['other', 'records'])).toBe(0);
    expect(read.mock.calls.map(([, params]) => params)).toEqual([['other', 'records']]);
  });

  it('gives back room when something was purged, and else leaves the files alone', async () => {
    const tidy = vi.spyOn(connection, 'tidy');
    const { id } = await outbox.put(item, 0);
    await outbox.discard(id, parked);
    expect([await outbox.purge(5), tidy.mock.calls.length]).toEqual([0, 0]);
    expect([await outbox.purge(6), tidy.mock.calls.length]).toEqual([1, 1]);
  });

  it('writes what is to be sent once, and takes it away with its item', async () => {
    const payload = `{"long":"${'x'.repeat(200_000)}"}`;
    const { id } = await outbox.put({ ...item, payload }, 0);
    const watch = new Database(path);
    watch.pragma('wal_checkpoint(TRUNCATE)');
    const lease = await outbox.claim('records', 0, 100);
    expect(lease?.item.payload).toBe(payload);
    await outbox.begin(lease!, 1);
    await outbox.settle(lease!, { kind: 'parked', parked }, 2);
    expect(statSync(`${path}-wal`).size).toBeLessThan(payload.length);
    await outbox.discard(id, parked);
    expect(await outbox.purge(6)).toBe(1);
    expect(watch.prepare('SELECT count(*) AS n FROM content').get()).toEqual({ n: 0 });
    watch.close();
  });

  it('takes a case in anew where what it has of it cannot be opened', async () => {
    const { id, sequence } = await outbox.put(item, 0);
    expect((await outbox.put(item, 1)).id).toBe(id);
    const hurting = new Database(path);
    hurting.prepare('DELETE FROM content WHERE sequence = ?').run(sequence);
    hurting.close();
    const anew = await outbox.put(item, 2);
    expect(anew).toMatchObject({ payload: item.payload, createdAt: 2 });
    expect(anew.id).not.toBe(id);
    expect(await outbox.get(anew.id)).toEqual(anew);
  });

  it('has nothing open once it is closed', async () => {
    await outbox.put(item, 0);
    await outbox.close();
    expect(openFiles(path)).toEqual([]);
  });
});
