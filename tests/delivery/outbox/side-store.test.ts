import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import pg from 'pg';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import {
  openPostgresSide,
  openSqliteSide,
  type SideStore,
  type SideStoreOptions,
} from '../../../src/delivery/outbox/side-store.js';
import { postgresIn, SQLITE } from '../../../src/delivery/outbox/sql-schema.js';
import { countedIds } from './ids.js';
import { openFiles } from './open-files.js';

/** A server: the names that are there in its schema, the version, what is sealed, and what it was sent. */
const server = {
  there: new Set<string>(),
  version: 2 as number | undefined,
  held: [] as object[],
  sent: [] as string[],
};

async function query(sql: string, params: unknown[] = []): Promise<{ rows: object[] }> {
  server.sent.push(sql);
  if (sql.includes('to_regclass')) return { rows: server.there.has(String(params[0])) ? [{}] : [] };
  if (sql.startsWith('SELECT number'))
    return { rows: server.version === undefined ? [] : [{ number: server.version }] };
  return { rows: sql.includes('AS held') ? server.held : [] };
}

class Pool {
  on() {}
  async connect() {
    return { query, on() {}, off() {}, release() {} };
  }
  async end() {
    server.sent.push('end');
  }
}

/** Notes: an invented store, in its second version. */
const NOTES: SideStore = {
  name: 'The store of notes',
  lock: 'notes tables',
  version: 2,
  schema: 'notes',
  tables: ({ prefix, options }) => [`CREATE TABLE ${prefix}note (text text NOT NULL, at text) ${options}`],
  changesSince: (version, { prefix }) =>
    version < 2 ? [`ALTER TABLE ${prefix}note ADD COLUMN at text`] : [],
  indexes: {
    of: ({ prefix }) => [`CREATE INDEX IF NOT EXISTS note_at ON ${prefix}note (at)`],
    probe: 'note_at',
  },
  heldIn: ({ prefix }) => `SELECT text AS held FROM ${prefix}note LIMIT 1`,
  says: {
    unreadable: path => `${path} holds no notes`,
    newer: place => `the notes in ${place} are newer`,
    notSealed: place => `the notes in ${place} are plain`,
    otherKey: (place, key) => `the notes in ${place} have the key ${key}`,
  },
};
const { indexes: _none, ...WITHOUT } = NOTES;

const key = (n: number) => sealingWith([Buffer.alloc(32, n).toString('base64')]);
const sealed = key(1).seal('a note', 'note');
const keys: [
  what: string,
  held: string | undefined,
  options: SideStoreOptions,
  refused: string | undefined,
][] = [
  ['no note and no key', undefined, { sealing: unsealed }, undefined],
  ['no note and a key', undefined, { sealing: key(2) }, undefined],
  ['a plain note and no key', 'a note', { sealing: unsealed }, undefined],
  ['a plain note and a key', 'a note', { sealing: key(1) }, 'are plain'],
  ['a plain note and a key, to change keys', 'a note', { sealing: key(1), anyKeys: true }, undefined],
  ['a sealed note and its key', sealed, { sealing: key(1) }, undefined],
  ['a sealed note and another key', sealed, { sealing: key(2) }, `have the key ${key(1).keys[0]}`],
  ['a sealed note and no key', sealed, { sealing: unsealed }, `have the key ${key(1).keys[0]}`],
  ['a sealed note and no key, to look at it', sealed, { sealing: unsealed, anyKeys: true }, undefined],
  ['an empty note and a key', '', { sealing: key(1) }, 'are plain'],
];

describe('a store beside the outbox, in a file', () => {
  const folder = mkdtempSync(join(tmpdir(), 'side-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  const nameOf = countedIds('notes');
  let path: string;
  beforeEach(() => {
    path = join(folder, `${nameOf()}.db`);
  });
  const open = (options: Partial<SideStoreOptions> = {}, store: SideStore = NOTES) =>
    openSqliteSide(path, store, { sealing: unsealed, ...options });
  /** The file as a version of its tables left it. */
  const made = (version: number, ...statements: string[]) => {
    const db = new Database(path);
    for (const sql of statements) db.exec(sql);
    db.pragma(`user_version = ${version}`);
    db.close();
  };
  const about = () => {
    const db = new Database(path, { readonly: true });
    const names = db.prepare('SELECT name FROM sqlite_schema ORDER BY name').pluck().all();
    const version = db.pragma('user_version', { simple: true });
    db.close();
    return [version, ...names];
  };

  it('is made where it is not there, safely and for its owner alone', async () => {
    const store = await open();
    expect(about()).toEqual([2, 'note', 'note_at']);
    expect([store.place, statSync(path).mode & 0o777]).toEqual([path, 0o600]);
    expect(await store.read('PRAGMA journal_mode')).toEqual([{ journal_mode: 'wal' }]);
    await store.run({ sql: 'INSERT INTO note VALUES ($1, $2)', params: ['a', 'b'] });
    await store.close();
    const again = await open();
    expect(await again.read('SELECT * FROM note')).toEqual([{ text: 'a', at: 'b' }]);
    await again.close();
  });

  it('of an earlier version is brought up to date, and loses nothing', async () => {
    made(1, 'CREATE TABLE note (text text NOT NULL) STRICT', "INSERT INTO note VALUES ('a')");
    const store = await open();
    expect(about()).toEqual([2, 'note', 'note_at']);
    expect(await store.read('SELECT * FROM note')).toEqual([{ text: 'a', at: null }]);
    await store.close();
  });

  it('that needs no index has none; one that is up to date is not written to', async () => {
    await (await open({}, WITHOUT)).close();
    expect(about()).toEqual([2, 'note']);
    const watch = new Database(path);
    const version = () => watch.pragma('data_version', { simple: true });
    const before = version();
    const store = await open({}, WITHOUT);
    expect(version()).toBe(before);
    await store.close();
    watch.close();
  });

  it('of a newer version is not changed', async () => {
    made(3, 'CREATE TABLE later (a)');
    await expect(open()).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: `the notes in ${path} are newer`,
    });
    expect(about()).toEqual([3, 'later']);
  });

  it('that is none is said to be none, with the cause', async () => {
    writeFileSync(path, 'no database '.repeat(1000));
    await expect(open()).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: `${path} holds no notes`,
      cause: { code: 'SQLITE_NOTADB' },
    });
    expect(openFiles(folder)).toEqual([]);
    await expect(openSqliteSide(join(path, 'below.db'), NOTES, { sealing: unsealed })).rejects.toMatchObject({
      code: 'file-unwritable',
      message: expect.stringMatching(/^The store of notes cannot be kept at /),
    });
  });

  it('that is damaged is said to be damaged', async () => {
    await (await open()).close();
    const bytes = readFileSync(path);
    bytes.fill(0xa5, 4096, 8192);
    writeFileSync(path, bytes);
    await expect(open()).rejects.toMatchObject({ code: 'outbox-damaged' });
  });

  it.each(keys)('with %s', async (_what, held, options, refused) => {
    made(1, 'CREATE TABLE note (text text NOT NULL) STRICT');
    const db = new Database(path);
    if (held !== undefined) db.prepare('INSERT INTO note VALUES (?)').run(held);
    db.close();
    if (refused === undefined) await (await open(options)).close();
    else
      await expect(open(options)).rejects.toMatchObject({
        code: 'outbox-key',
        message: `the notes in ${path} ${refused}`,
      });
    // What is refused is not brought up to date either.
    expect(about()).toEqual(refused === undefined ? [2, 'note', 'note_at'] : [1, 'note']);
  });
});

describe('a store beside the outbox, in a database', () => {
  const open = (options: Partial<SideStoreOptions & { schema: string }> = {}, store: SideStore = NOTES) =>
    openPostgresSide('postgres://localhost/d', store, { sealing: unsealed, ...options });
  const written = () => server.sent.filter(sql => !/^(BEGIN|SELECT|COMMIT)/.test(sql));
  const dialect = postgresIn('notes');

  beforeEach(() => {
    server.there = new Set(['notes.version', 'notes.note_at']);
    server.version = 2;
    server.held = [];
    server.sent.length = 0;
    const { Pool: real } = pg;
    pg.Pool = Pool as unknown as typeof real;
    return () => {
      pg.Pool = real;
    };
  });

  it('is made where it is not there, in one transaction and under one lock', async () => {
    server.there.clear();
    const { db, dialect: own } = await open();
    expect(written()).toEqual([
      'CREATE SCHEMA IF NOT EXISTS notes',
      ...NOTES.tables(dialect),
      'CREATE TABLE notes.version (number integer NOT NULL)',
      'INSERT INTO notes.version VALUES (2)',
      ...(NOTES.indexes?.of(dialect) ?? []),
    ]);
    expect(own).toEqual(dialect);
    expect(own).not.toEqual(SQLITE);
    expect(server.sent[0]).toMatch(/pg_advisory_xact_lock\(-?\d+\)$/);
    expect(server.sent.filter(sql => sql === 'COMMIT')).toHaveLength(1);
    await db.rows('note');
    expect(server.sent.at(-2)).toBe('SELECT * FROM notes.note ORDER BY sequence');
  });

  it('in a schema of another name is looked for there', async () => {
    server.there = new Set(['other.version']);
    await open({ schema: 'other' });
    expect(written()).toEqual(NOTES.indexes?.of(postgresIn('other')));
  });

  it('that is up to date is not written to', async () => {
    await open();
    expect(written()).toEqual([]);
    server.there.delete('notes.note_at');
    await open({}, WITHOUT);
    expect(written()).toEqual([]);
  });

  it.each([1, undefined])('of version %s is brought up to date', async version => {
    server.version = version;
    await open();
    expect(written()).toEqual([...NOTES.changesSince(1, dialect), 'UPDATE notes.version SET number = 2']);
  });

  it('of a newer version is not changed', async () => {
    server.version = 3;
    await expect(open()).rejects.toMatchObject({
      code: 'outbox-unreadable',
      message: 'the notes in the PostgreSQL database are newer',
    });
    expect(written()).toEqual(['ROLLBACK', 'end']);
  });

  it.each(keys)('with %s', async (_what, held, options, refused) => {
    server.version = 1;
    server.held = held === undefined ? [] : [{ held }];
    if (refused === undefined) await open(options);
    else
      await expect(open(options)).rejects.toMatchObject({
        code: 'outbox-key',
        message: `the notes in the PostgreSQL database ${refused}`,
      });
    expect(written().length).toBe(2);
    expect(written().includes('ROLLBACK')).toBe(refused !== undefined);
  });
});
