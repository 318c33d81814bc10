import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Steps } from '../../../src/delivery/outbox/connection.js';
import { sealingWith } from '../../../src/delivery/outbox/sealing.js';
import { SqliteConnection } from '../../../src/delivery/outbox/sqlite-connection.js';
import { keepSafely, openSqliteOutbox, sqliteFile } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { countedIds } from './ids.js';
import { openFiles } from './open-files.js';

const folder = mkdtempSync(join(tmpdir(), 'sqlite-'));
afterAll(() => rmSync(folder, { recursive: true }));
const newId = countedIds();
const pathOf = countedIds('store');
const item = (caseKey: string, payload = '{}') => ({
  ...{ destination: 'd', caseKey, patientKey: caseKey, payload, digest: caseKey },
});

describe('a connection to SQLite', () => {
  let path: string;
  let db: Database.Database;
  let connection: SqliteConnection;
  beforeEach(async () => {
    path = join(folder, `${pathOf()}.db`);
    db = await sqliteFile(path, 'The store');
    keepSafely(db);
    db.exec('CREATE TABLE note (sequence INTEGER PRIMARY KEY, text text NOT NULL)');
    connection = new SqliteConnection(db, '/the/place');
    return () => db.close();
  });
  const put = (text: string | null) => ({
    ...{ sql: 'INSERT INTO note (text) VALUES ($1) RETURNING sequence, text', params: [text] },
  });
  const all = () => connection.read<{ text: string }>('SELECT text FROM note ORDER BY sequence');

  it('gives the rows that a statement returns, and none for one that returns none', async () => {
    expect(await connection.run(put('a'))).toEqual([{ sequence: 1, text: 'a' }]);
    expect(
      await connection.run({ sql: 'UPDATE note SET text = $2 WHERE text = $1', params: ['a', 'b'] }),
    ).toEqual([]);
    expect(await all()).toEqual([{ text: 'b' }]);
    expect(await connection.read('SELECT $2 || $1 AS said', ['a', 'b'])).toEqual([{ said: 'ba' }]);
    expect(await connection.rows('note')).toEqual([{ sequence: 1, text: 'b' }]);
    expect(connection.place).toBe('/the/place');
  });

  it('decides by what it read, in one transaction, or not to write at all', async () => {
    await connection.run(put('a'));
    const read = { sql: 'SELECT text FROM note', params: [] };
    expect(await connection.decide<{ text: string }>(read, ([row]) => put(`${row?.text}b`))).toEqual([
      { sequence: 2, text: 'ab' },
    ]);
    expect(await connection.decide(read, () => undefined)).toEqual([]);
    await expect(connection.decide(read, () => put(null))).rejects.toThrow('NOT NULL');
    const inside: boolean[] = [];
    await connection.decide(read, () => {
      inside.push(db.inTransaction);
      return undefined;
    });
    expect([inside, db.inTransaction]).toEqual([[true], false]);
  });

  it('takes steps with the rows of the last one, and takes all of them back when one fails', async () => {
    function* steps(): Steps<string> {
      const [first] = yield put('a');
      const [second] = yield put(`${first?.['sequence']} and more`);
      return `${second?.['text']}`;
    }
    expect(await connection.transact(steps)).toBe('1 and more');
    function* failing(): Steps<void> {
      yield put('b');
      yield put(null);
    }
    await expect(connection.transact(failing)).rejects.toThrow('NOT NULL');
    expect(await all()).toEqual([{ text: 'a' }, { text: '1 and more' }]);
  });

  it.each<[what: string, step: () => Promise<unknown>]>([
    ['a statement', () => connection.run(put('b'))],
    ['a decision', () => connection.decide({ sql: 'SELECT 1', params: [] }, () => put('b'))],
    [
      'steps',
      () =>
        connection.transact(function* () {
          yield put('b');
        }),
    ],
  ])('waits for no other writer in the middle of %s: it begins by being the writer', async (_what, step) => {
    const other = new Database(path);
    other.exec('BEGIN IMMEDIATE');
    db.pragma('busy_timeout = 0');
    await expect(step()).rejects.toMatchObject({
      code: 'outbox-away',
      message: expect.stringContaining('/the/place'),
    });
    expect(await all()).toEqual([]);
    other.exec('COMMIT');
    other.close();
    await step();
    expect(await all()).toHaveLength(1);
  });

  it('prepares each statement once, and keeps a hundred of them', async () => {
    const prepare = vi.spyOn(db, 'prepare');
    const ask = (n: number) => connection.read(`SELECT ${n} AS n`);
    for (const n of [0, 0, 1, 0]) await ask(n);
    expect(prepare).toHaveBeenCalledTimes(2);
    for (let n = 2; n < 100; n += 1) await ask(n);
    await ask(0);
    expect(prepare).toHaveBeenCalledTimes(100);
    await ask(100);
    await ask(0);
    expect(prepare).toHaveBeenCalledTimes(102);
  });

  it('gives back the room of what was removed, in the file and in its log', async () => {
    await connection.run(put('x'.repeat(500_000)));
    db.pragma('wal_checkpoint(TRUNCATE)');
    expect(statSync(path).size).toBeGreaterThan(500_000);
    await connection.run({ sql: 'DELETE FROM note', params: [] });
    await connection.tidy();
    expect(statSync(path).size).toBeLessThan(50_000);
    expect(statSync(`${path}-wal`).size).toBe(0);
  });

  it('is whole, or says what is wrong, or why that cannot be said', async () => {
    expect(await connection.integrity()).toEqual([]);
    await connection.run(put('a'));
    db.unsafeMode().exec(
      "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = 'CREATE TABLE note (sequence INTEGER PRIMARY KEY, text text NOT NULL CHECK (text = 1))' WHERE name = 'note'",
    );
    const again = new Database(path);
    expect(await new SqliteConnection(again, path).integrity()).toEqual(['CHECK constraint failed in note']);
    await new SqliteConnection(again, path).close();
    expect(again.open).toBe(false);
    expect(await new SqliteConnection(again, path).integrity()).toEqual([
      'The database connection is not open',
    ]);
  });
});

describe('the file of an outbox in SQLite', () => {
  // https://sqlite.org/pragma.html: synchronous FULL is 2, and what is off or on is 0 or 1.
  it('is kept safely: logged, on the disk before it counts, and written over where it is removed', async () => {
    const db = await sqliteFile(join(folder, `${pathOf()}.db`), 'The outbox');
    const says = (name: string) => db.pragma(name, { simple: true });
    db.pragma('trusted_schema = ON');
    db.pragma('synchronous = OFF');
    keepSafely(db);
    expect(['journal_mode', 'secure_delete', 'synchronous', 'trusted_schema'].map(says)).toEqual([
      ...['wal', 1, 2, 0],
    ]);
    expect(says('busy_timeout')).toBe(10_000);
    db.close();
  });

  it('that cannot be made is said with its name and place, and why', async () => {
    const path = join(folder, 'a-file');
    writeFileSync(path, '');
    const below = join(path, 'outbox.db');
    await expect(sqliteFile(below, 'The register')).rejects.toMatchObject({
      code: 'file-unwritable',
      message: `The register cannot be kept at ${below}: it exists already`,
      cause: { code: 'EEXIST' },
    });
    const place = join(folder, 'a-folder');
    mkdirSync(place);
    await expect(openSqliteOutbox(place, { newId })).rejects.toMatchObject({
      code: 'file-unwritable',
      message: `The outbox cannot be kept at ${place}: it is a folder`,
    });
  });

  it('that is none is not changed, and is said to be none', async () => {
    const path = join(folder, `${pathOf()}.db`);
    writeFileSync(path, 'no database '.repeat(1000));
    await expect(openSqliteOutbox(path, { newId })).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: `The file ${path} is not an outbox that can be read, or its beginning is damaged. It was not changed; 'casetally restore' takes a backup.`,
      cause: { code: 'SQLITE_NOTADB' },
    });
    expect([readFileSync(path, 'utf8'), openFiles(folder)]).toEqual(['no database '.repeat(1000), []]);
  });

  it('made by a newer version is not changed, and is said to be newer', async () => {
    const path = join(folder, `${pathOf()}.db`);
    const db = new Database(path);
    db.pragma('user_version = 5');
    await expect(openSqliteOutbox(path, { newId, anyKeys: true })).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: `The outbox ${path} was made by a newer version of Casetally`,
    });
    expect(db.prepare('SELECT count(*) AS tables FROM sqlite_schema').get()).toEqual({ tables: 0 });
    db.close();
  });

  it('that is up to date is opened without a write', async () => {
    const path = join(folder, `${pathOf()}.db`);
    const first = await openSqliteOutbox(path, { newId });
    await first.put(item('a'), 0);
    const watch = new Database(path);
    const version = () => watch.pragma('data_version', { simple: true });
    const before = version();
    const second = await openSqliteOutbox(path, { newId });
    expect(version()).toBe(before);
    expect(await second.list()).toHaveLength(1);
    await second.put(item('b'), 0);
    expect(version()).not.toBe(before);
    for (const open of [first, second]) await open.close();
    watch.close();
  });

  it('is opened with a key that fits no item only to look at it', async () => {
    const path = join(folder, `${pathOf()}.db`);
    const key = (n: number) => sealingWith([Buffer.alloc(32, n).toString('base64')]);
    const first = await openSqliteOutbox(path, { newId, sealing: key(1) });
    await first.put(item('a'), 0);
    await first.close();
    await expect(openSqliteOutbox(path, { newId, sealing: key(2) })).rejects.toMatchObject({
      code: 'outbox-key',
      message: expect.stringContaining(`The outbox in ${path} has 1 item sealed`),
    });
    const looked = await openSqliteOutbox(path, { newId, sealing: key(2), anyKeys: true });
    expect(await looked.idsOf('waiting')).toHaveLength(1);
    await looked.close();
    const opened = await openSqliteOutbox(path, { newId, sealing: key(1) });
    expect((await opened.list()).map(({ caseKey }) => caseKey)).toEqual(['a']);
    await opened.close();
  });
});
