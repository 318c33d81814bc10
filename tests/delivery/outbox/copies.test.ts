import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import {
  askBeforeSending,
  backupStore,
  intoNewFile,
  openToRead,
  restoreStore,
} from '../../../src/delivery/outbox/copies.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { countedIds } from './ids.js';
import { openFiles } from './open-files.js';
import { delivery } from './samples.js';

const root = mkdtempSync(join(tmpdir(), 'copies-'));
afterAll(() => rmSync(root, { recursive: true }));
const newId = countedIds();
const folderOf = countedIds('folder');
const parked = { reason: 'invalid', by: 'x', at: 0, findings: [] };

let folder: string;
let store: string;
beforeEach(async () => {
  folder = join(root, folderOf());
  mkdirSync(folder);
  store = join(folder, 'outbox.db');
  const outbox = await openSqliteOutbox(store, { newId });
  for (const caseKey of ['sent', 'gone', 'stuck', 'unsure', 'fresh']) {
    const digest = `sha256:${caseKey}`;
    const { id } = await outbox.put(
      { destination: 'd', caseKey, patientKey: caseKey, payload: '{}', digest },
      1,
    );
    if (caseKey === 'gone') await outbox.discard(id, parked);
    if (caseKey === 'fresh') continue;
    const lease = await outbox.claim('d', 1, 10_000);
    if (!lease) continue;
    await outbox.begin(lease, caseKey === 'unsure' ? 900 : 300);
    if (caseKey === 'sent') await outbox.settle(lease, { kind: 'delivered', receipt: delivery }, 2);
    if (caseKey === 'stuck') await outbox.settle(lease, { kind: 'parked', parked }, 2);
  }
  await outbox.close();
});

const doubts = async (path: string) => {
  const outbox = await openSqliteOutbox(path, { newId });
  const items = await outbox.list();
  await outbox.close();
  return items.map(({ caseKey, state, unknownSince }) => [caseKey, state, unknownSince]);
};

/** A SQLite file that somebody else made. */
function foreign(version: number, table = 'other'): string {
  const path = join(folder, 'foreign.db');
  const db = new Database(path);
  db.exec(`CREATE TABLE ${table} (a)`);
  db.pragma(`user_version = ${version}`);
  db.close();
  return path;
}

describe('a copy of an outbox', () => {
  it('as a backup is what was there, for its owner only', async () => {
    const to = join(folder, 'deep', 'er', 'backup.db');
    expect(await backupStore(store, to)).toBe(5);
    expect(statSync(to).mode & 0o777).toBe(0o600);
    expect(statSync(join(folder, 'deep')).mode & 0o777).toBe(0o700);
    expect(readdirSync(join(folder, 'deep', 'er'))).toEqual(['backup.db']);
    expect(await doubts(to)).toEqual([
      ['sent', 'delivered', undefined],
      ['gone', 'discarded', undefined],
      ['stuck', 'parked', 300],
      ['unsure', 'sending', 900],
      ['fresh', 'waiting', undefined],
    ]);
    expect(await doubts(to)).toEqual(await doubts(store));
  });

  it('as it is restored is in doubt from now, or from later, about all that is not done with', async () => {
    const to = join(folder, 'restored.db');
    expect(await restoreStore(store, to, 500)).toBe(5);
    expect(await doubts(to)).toEqual([
      ['sent', 'delivered', undefined],
      ['gone', 'discarded', undefined],
      ['stuck', 'parked', 500],
      ['unsure', 'sending', 900],
      ['fresh', 'waiting', 500],
    ]);
    await askBeforeSending(to, 1_000);
    expect(openFiles(folder)).toEqual([]);
    expect((await doubts(to)).map(([, , since]) => since)).toEqual([
      undefined,
      undefined,
      1_000,
      1_000,
      1_000,
    ]);
  });

  it('is made at one go: a store that is written to all the time is copied all the same', async () => {
    const busy = new Database(store);
    busy.pragma('wal_autocheckpoint = 0');
    busy.exec('CREATE TABLE filler (n INTEGER PRIMARY KEY, bytes)');
    for (let n = 0; n < 300; n += 1) busy.prepare('INSERT INTO filler (bytes) VALUES (zeroblob(4000))').run();
    let over = false;
    const made = backupStore(store, join(folder, 'busy.db')).finally(() => {
      over = true;
    });
    // One that began anew with each write would not end before the writing does.
    for (let turns = 0; !over && turns < 20_000; turns += 1) {
      busy.prepare('UPDATE filler SET bytes = ? WHERE n = 1').run(turns);
      await new Promise(resolve => setImmediate(resolve));
    }
    const done = over;
    busy.close();
    expect([await made, done]).toEqual([5, true]);
    expect(openFiles(folder)).toEqual([]);
  });

  it.each(['outbox.db', 'outbox.db-wal'])('is not written over %s', async name => {
    const to = join(folder, 'there', 'outbox.db');
    const there = join(folder, 'there', name);
    mkdirSync(join(folder, 'there'));
    writeFileSync(there, 'something');
    await expect(backupStore(store, to)).rejects.toMatchObject({
      code: 'file-unwritable',
      message: `${there} is there already, and is not written over: move it away, or name another place.`,
    });
    expect(readFileSync(there, 'utf8')).toBe('something');
    expect(readdirSync(join(folder, 'there'))).toEqual([name]);
  });

  it('where none can be kept is said with the reason', async () => {
    const to = join(store, 'below', 'outbox.db');
    await expect(backupStore(store, to)).rejects.toMatchObject({
      code: 'file-unwritable',
      message: `No copy can be kept at ${to}: a part of the path is not a folder.`,
      cause: { code: 'ENOTDIR' },
    });
  });

  it('of nothing is none', async () => {
    const absent = join(folder, 'absent.db');
    const to = join(folder, 'to.db');
    for (const from of [absent, folder, join(store, 'below')])
      await expect(backupStore(from, to)).rejects.toMatchObject({
        code: 'file-unreadable',
        message: `There is no file ${from}: nothing was copied.`,
      });
    expect([existsSync(absent), existsSync(to)]).toEqual([false, false]);
  });

  it('is only read, and waits for a writer', async () => {
    const db = await openToRead(store);
    expect([db.readonly, db.pragma('busy_timeout', { simple: true })]).toEqual([true, 10_000]);
    db.close();
    // SQLite takes no path of more than 512 letters on Unix: MAX_PATHNAME, from memory.
    const far = join(folder, ...Array.from({ length: 6 }, () => 'x'.repeat(100)));
    mkdirSync(far, { recursive: true });
    copyFileSync(store, join(far, 'outbox.db'));
    await expect(openToRead(join(far, 'outbox.db'))).rejects.toMatchObject({ code: 'outbox-read-only' });
  });

  it.each([
    ['not an outbox', () => foreign(1)],
    ['not an outbox', () => foreign(0, 'item')],
    ['an outbox of a newer version of Casetally', () => foreign(5, 'queue_item')],
  ])('of what is %s is none', async (what, from) => {
    const path = from();
    await expect(backupStore(path, join(folder, 'to.db'))).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: `${path} is ${what}: nothing was copied.`,
    });
    expect(readdirSync(folder).sort()).toEqual(['foreign.db', 'outbox.db']);
    expect(openFiles(folder)).toEqual([]);
  });

  it('of one that an earlier version made is one of that version', async () => {
    const from = join(folder, 'earlier.db');
    copyFileSync(join(import.meta.dirname, 'earlier', 'schema-1.sqlite'), from);
    const to = join(folder, 'to.db');
    expect(await backupStore(from, to)).toBe(5);
    const db = new Database(to, { readonly: true });
    expect(db.pragma('user_version', { simple: true })).toBe(1);
    db.close();
  });

  it('of one that is damaged is none, and says what to do', async () => {
    const bytes = readFileSync(store);
    bytes.fill(0xa5, 4096, 8192);
    const from = join(folder, 'damaged.db');
    writeFileSync(from, bytes);
    await expect(restoreStore(from, join(folder, 'to.db'), 0)).rejects.toMatchObject({
      code: 'outbox-damaged',
    });
    await expect(backupStore(from, join(folder, 'to.db'))).rejects.toMatchObject({
      code: 'outbox-damaged',
      message: `${from} is damaged: nothing was copied. Take an older backup, or copy what can be read with 'casetally outbox rescue'.`,
    });
    expect(readdirSync(folder).filter(name => name.startsWith('to'))).toEqual([]);
  });

  it('of what is no database is none', async () => {
    const from = join(folder, 'text.db');
    writeFileSync(from, 'no database '.repeat(1000));
    await expect(restoreStore(from, join(folder, 'to.db'), 0)).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: `${from} is not a file that Casetally keeps anything in, or its beginning is damaged: nothing was copied.`,
      cause: { code: 'SQLITE_NOTADB' },
    });
    expect(readdirSync(folder).sort()).toEqual(['outbox.db', 'text.db']);
  });
});

describe('a new file', () => {
  it('is made beside its place, moved there when it is done, and gone when it is not', async () => {
    const to = join(folder, 'new.db');
    let part = '';
    const made = await intoNewFile(to, async path => {
      part = path;
      expect([existsSync(to), readFileSync(path, 'utf8')]).toEqual([false, '']);
      expect(statSync(path).mode & 0o777).toBe(0o600);
      for (const end of ['-wal', '-shm']) writeFileSync(`${path}${end}`, 'left by the work');
      writeFileSync(path, 'done');
      return 7;
    });
    expect([made, readFileSync(to, 'utf8')]).toEqual([7, 'done']);
    expect(part).toBe(`${to}.${process.pid}.part`);
    const failed = intoNewFile(join(folder, 'failed.db'), async path => {
      writeFileSync(`${path}-wal`, '');
      throw new Error('no room');
    });
    await expect(failed).rejects.toThrow('no room');
    expect(readdirSync(folder).sort()).toEqual(['new.db', 'outbox.db']);
  });

  it('left by a process that died is begun anew, for its owner only', async () => {
    const to = join(folder, 'new.db');
    writeFileSync(`${to}.${process.pid}.part`, 'half of it', { mode: 0o644 });
    await intoNewFile(to, async path => {
      expect([readFileSync(path, 'utf8'), statSync(path).mode & 0o777]).toEqual(['', 0o600]);
    });
  });
});
