import {
  closeSync,
  mkdtempSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backupStore, restoreStore } from '../../../src/delivery/outbox/copies.js';
import { openPostgresOutbox } from '../../../src/delivery/outbox/open-postgres.js';
import { rescueStore } from '../../../src/delivery/outbox/rescue.js';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { SqlOutbox } from '../../../src/delivery/outbox/sql-outbox.js';
import { SQLITE } from '../../../src/delivery/outbox/sql-schema.js';
import { SqliteConnection } from '../../../src/delivery/outbox/sqlite-connection.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { countedIds } from './ids.js';

const folder = mkdtempSync(join(tmpdir(), 'faults-'));
afterAll(() => rmSync(folder, { recursive: true }));
const newId = countedIds();
const item = (caseKey: string, length = 20) => {
  const payload = JSON.stringify({ canary: `CANARY-${caseKey}-${'x'.repeat(length)}` });
  return { destination: 'd', caseKey, patientKey: caseKey, payload, digest: digestOf(payload) };
};
const rescueOptions = {
  sealing: unsealed,
  isWhole: ({ payload, digest }: { payload: string; digest: string }) => digestOf(payload) === digest,
  now: 5_000,
};

async function filled(name: string, items: number, length = 20): Promise<string> {
  const path = join(folder, name);
  const outbox = await openSqliteOutbox(path, { newId });
  for (let i = 0; i < items; i += 1) await outbox.put(item(`c${i}`, length), i);
  await outbox.close();
  return path;
}

/** Writes over some bytes of a file, as a bad block would. */
function hurt(path: string, at: number, bytes: number): void {
  const file = openSync(path, 'r+');
  writeSync(file, Buffer.alloc(bytes, 0xa5), 0, bytes, at);
  closeSync(file);
}

describe('a store in SQLite', () => {
  it('says that its disk is full; what was stored stands, and it goes on when there is room', async () => {
    const path = await filled('full.db', 2);
    const db = new Database(path);
    db.pragma(`max_page_count = ${Number(db.pragma('page_count', { simple: true })) + 1}`);
    const outbox = new SqlOutbox(new SqliteConnection(db, path), {
      dialect: SQLITE,
      newId,
      sealing: unsealed,
    });
    const full = await outbox.put(item('big', 100_000), 9).catch(e => e);
    expect(full).toMatchObject({ code: 'outbox-full' });
    expect(full.message).toMatch(/no room left .*Nothing of this step is stored.*Make room/);
    expect(full.message).not.toContain('CANARY');
    expect(await outbox.list()).toHaveLength(2);
    db.pragma('max_page_count = 100000');
    await outbox.put(item('big', 100_000), 9);
    expect(await outbox.list()).toHaveLength(3);
    await outbox.close();
  });

  it('says that it may not be written to, and can still be read', async () => {
    const path = await filled('read-only.db', 2);
    const db = new Database(path, { readonly: true });
    const outbox = new SqlOutbox(new SqliteConnection(db, path), {
      dialect: SQLITE,
      newId,
      sealing: unsealed,
    });
    await expect(outbox.put(item('x'), 9)).rejects.toMatchObject({
      code: 'outbox-read-only',
      message: expect.stringContaining('read-only'),
    });
    expect(await outbox.list()).toHaveLength(2);
    await outbox.close();
  });

  it.each([
    ['the items', (bytes: Buffer) => bytes.lastIndexOf(item('c100', 1_000).digest)],
    ['what is to be sent', (bytes: Buffer) => bytes.length / 2],
  ])(
    'says that it is damaged in %s; doctor goes on, and rescue copies what can be read',
    async (what, place) => {
      const name = what.replaceAll(' ', '-');
      const path = await filled(`${name}.db`, 200, 1_000);
      const bytes = readFileSync(path);
      hurt(path, Math.floor(place(bytes) / 4096) * 4096, 4096);
      const refused = await openSqliteOutbox(path, { newId })
        .then(outbox => outbox.list())
        .catch(e => e);
      expect(refused).toMatchObject({ code: 'outbox-damaged' });
      expect(refused.message).toMatch(/outbox rescue/);
      const looked = await openSqliteOutbox(path, { newId, anyKeys: true });
      const { store, items } = await looked.check();
      await looked.close();
      expect(store.length).toBeGreaterThan(0);
      const areLost = what === 'the items';
      // Where their content alone is hurt, all of them are known, and which of them it is.
      expect(items.length).toBeGreaterThan(100);
      expect(items.length < 200).toBe(areLost);
      const whole = items.filter(one => one.item);
      expect(whole.length).toBeGreaterThan(100);
      expect(whole.length < items.length).toBe(!areLost);
      const to = join(folder, `${name}-rescued`, 'outbox.db');
      const rescued = await rescueStore(path, to, rescueOptions);
      expect(rescued).toMatchObject({ copied: whole.length, lost: areLost });
      expect(rescued.hurt.map(({ id }) => id)).toEqual(items.filter(one => !one.item).map(({ id }) => id));
      expect(readFileSync(path)).toHaveLength(bytes.length);
      expect(statSync(to).mode & 0o777).toBe(0o600);
      expect(statSync(join(folder, `${name}-rescued`)).mode & 0o777).toBe(0o700);
      const outbox = await openSqliteOutbox(to, { newId });
      expect((await outbox.check()).store).toEqual([]);
      const kept = await outbox.list();
      expect(kept).toHaveLength(rescued.copied);
      for (const { payload, digest, unknownSince } of kept) {
        expect(digestOf(payload)).toBe(digest);
        expect(unknownSince).toBe(5_000);
      }
      expect((await outbox.claim('d', 10_000, 1_000))?.item.id).toBe(kept[0]?.id);
      await outbox.close();
      await expect(rescueStore(path, to, rescueOptions)).rejects.toMatchObject({ code: 'file-unwritable' });
    },
  );

  it('whose item has other bytes than it was given names the item and does not copy it', async () => {
    const path = await filled('bytes.db', 3, 20_000);
    const at = readFileSync(path).indexOf('x'.repeat(3_000), 60_000);
    expect(at).toBeGreaterThan(0);
    hurt(path, at + 1_000, 8);
    const rescued = await rescueStore(path, join(folder, 'bytes', 'outbox.db'), rescueOptions);
    expect(rescued).toMatchObject({ copied: 2, hurt: [{ destination: 'd' }] });
  });

  it('whose first page is gone is said to be no outbox, or damaged', async () => {
    const path = await filled('first.db', 3);
    hurt(path, 0, 4096);
    for (const anyKeys of [false, true])
      await expect(openSqliteOutbox(path, { newId, anyKeys })).rejects.toMatchObject({
        code: 'outbox-unreadable',
        message: expect.stringMatching(/beginning is damaged.*casetally restore/),
      });
  });

  it('keeps nothing of what was purged in any of its files', async () => {
    const path = join(folder, 'purged.db');
    const outbox = await openSqliteOutbox(path, { newId });
    const { id } = await outbox.put(item('GONE', 9_000), 0);
    const stays = await outbox.put(item('STAYS', 9_000), 0);
    await outbox.discard(id, { reason: 'no', by: 'x', at: 0, findings: [] });
    const bytes = () => ['', '-wal'].map(end => readFileSync(path + end).toString('latin1')).join('');
    expect(bytes()).toContain('CANARY-GONE');
    expect(await outbox.purge(10)).toBe(1);
    expect(bytes()).not.toContain('CANARY-GONE');
    expect(bytes()).toContain('CANARY-STAYS');
    expect((await outbox.list()).map(i => i.id)).toEqual([stays.id]);
    await outbox.close();
  });

  it('is copied while it is worked with; the copy restored asks before it sends, and goes on', async () => {
    const path = await filled('live.db', 3);
    const running = await openSqliteOutbox(path, { newId });
    const lease = await running.claim('d', 10, 60_000);
    const copy = join(folder, 'copies', 'backup.db');
    expect(await backupStore(path, copy)).toBe(3);
    await running.put(item('later'), 20);
    expect(await running.begin(lease!, 20)).toBe(true);
    expect(statSync(copy).mode & 0o777).toBe(0o600);
    await expect(restoreStore(copy, path, 1_000)).rejects.toMatchObject({ code: 'file-unwritable' });
    await running.close();
    renameSync(path, `${path}.away`);
    expect(await restoreStore(copy, path, 100_000)).toBe(3);
    const restored = await openSqliteOutbox(path, { newId });
    expect((await restored.list()).map(i => i.unknownSince)).toEqual([100_000, 100_000, 100_000]);
    await restored.put(item('new'), 100_001);
    expect((await restored.claim('d', 100_002, 1_000))?.item.caseKey).toBe('c0');
    expect((await restored.check()).store).toEqual([]);
    await restored.close();
    hurt(copy, 4096, 4096);
    await expect(restoreStore(copy, join(folder, 'never', 'outbox.db'), 0)).rejects.toMatchObject({
      code: 'outbox-damaged',
    });
  });
});

const absent = postgresPrograms() === undefined;
describe.skipIf(absent)(
  `a store in PostgreSQL${absent ? ': SKIPPED, no server programs on this machine' : ''}`,
  () => {
    let server: TestPostgres;
    beforeAll(async () => {
      server = await startPostgres();
    });

    it('says that it may not be written to, and that it is away', async () => {
      const readOnly = `${server.address}?options=-c%20default_transaction_read_only%3Don`;
      await expect(openPostgresOutbox(readOnly, { newId, waitsMs: [1] })).rejects.toMatchObject({
        code: 'outbox-read-only',
      });
      const outbox = await openPostgresOutbox(server.address, { newId, waitsMs: [1] });
      await outbox.put(item('a'), 0);
      await server.stop();
      const away = await outbox.put(item('b'), 0).catch(e => e);
      expect(away).toMatchObject({ code: 'outbox-away' });
      expect(away.message).toMatch(/cannot be reached .*not known/);
      expect(`${away.stack}`).not.toMatch(/CANARY|postgres:\/\//);
      await outbox.close();
    });
  },
);
