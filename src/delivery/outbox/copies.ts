import { chmodSync, closeSync, existsSync, mkdirSync, openSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import type Sqlite from 'better-sqlite3';
import { CasetallyError, reason } from '../../findings/errors.js';
import { itemTable, SCHEMA_VERSION } from './sql-schema.js';
import { loadSqlite, prepareSchema } from './sqlite-outbox.js';
import { sqliteCode, sqliteFault } from './store-faults.js';

/**
 * Copies an embedded store whole, as of one moment, while others read and write it. What is sealed stays sealed; no
 * key is needed. @returns how many items it has. @throws CasetallyError where there is a file already, or the store
 * is damaged.
 */
export function backupStore(from: string, to: string): Promise<number> {
  return copyStore(from, to, OUTBOX, async () => undefined);
}

/**
 * Makes a store of a backup, where there is none. What is not delivered in it may have been sent since: it is asked
 * for at its destination before it is sent. @returns how many items it has.
 */
export function restoreStore(from: string, to: string, now: number): Promise<number> {
  return copyStore(from, to, OUTBOX, part => askBeforeSending(part, now));
}

/** Opens a store that is only read. */
export async function openToRead(path: string): Promise<Sqlite.Database> {
  const Database = await loadSqlite();
  if (!existsSync(path) || statSync(path).isDirectory())
    throw new CasetallyError('file-unreadable', `There is no file ${path}: nothing was copied.`);
  try {
    return new Database(path, { readonly: true, timeout: 10_000 });
  } catch (error) {
    throw sqliteFault(error, path);
  }
}

/** Makes a new file by work on one beside it, which is moved there when that is done and removed when it fails. */
export async function intoNewFile<T>(to: string, work: (part: string) => Promise<T>): Promise<T> {
  const part = newFile(to);
  try {
    const made = await work(part);
    renameSync(part, to);
    return made;
  } finally {
    for (const end of ['', '-wal', '-shm']) rmSync(`${part}${end}`, { force: true });
  }
}

/** An empty file beside `to`, for its owner only. Nothing is written over. */
function newFile(to: string): string {
  // A log left beside would be played into the new file.
  const there = [to, `${to}-wal`].find(path => existsSync(path));
  if (there !== undefined)
    throw new CasetallyError(
      'file-unwritable',
      `${there} is there already, and is not written over: move it away, or name another place.`,
    );
  const part = `${to}.${process.pid}.part`;
  try {
    mkdirSync(dirname(to), { recursive: true, mode: 0o700 });
    closeSync(openSync(part, 'w', 0o600));
    chmodSync(part, 0o600);
  } catch (cause) {
    throw new CasetallyError('file-unwritable', `No copy can be kept at ${to}: ${reason(cause)}.`, { cause });
  }
  return part;
}

/** Lets what is not delivered be asked for at its destination before it is sent. */
export async function askBeforeSending(path: string, now: number): Promise<void> {
  const Database = await loadSqlite();
  const db = new Database(path);
  try {
    prepareSchema(db, path);
    db.prepare<[number]>(
      "UPDATE queue_item SET unknown_since = max(coalesce(unknown_since, 0), ?) WHERE state NOT IN ('delivered', 'discarded')",
    ).run(now);
  } finally {
    db.close();
  }
}

/** A kind of store, as its copy is looked through. */
export interface StoreKind {
  /** With its article, for messages. */
  readonly name: string;
  /** The newest version of its tables. */
  readonly version: number;
  /** The table whose rows are counted, as a version calls it; another kind of store has none of that name. */
  readonly table: (version: number) => string;
  /** What to do where the store is damaged. */
  readonly ifDamaged: string;
}

const OUTBOX: StoreKind = {
  name: 'an outbox',
  version: SCHEMA_VERSION,
  table: itemTable,
  ifDamaged: "Take an older backup, or copy what can be read with 'casetally outbox rescue'.",
};

/** Copies a store of a kind whole, as of one moment, to a new file, and does more with the copy before it is there. */
export async function copyStore(
  from: string,
  to: string,
  kind: StoreKind,
  then: (part: string) => Promise<void>,
): Promise<number> {
  const source = await openToRead(from);
  try {
    return await intoNewFile(to, async part => {
      // All pages at one go: a busy store would make it begin anew again and again.
      await source.backup(part, { progress: () => 0x7fff_ffff });
      const items = await countWhole(part, from, kind);
      await then(part);
      return items;
    });
  } catch (error) {
    throw copyFault(error, from);
  } finally {
    source.close();
  }
}

/** What SQLite threw while a store was copied, in words; a file that it cannot read at all is told apart from a damaged one. */
export function copyFault(error: unknown, from: string): unknown {
  if (sqliteCode(error) !== 'SQLITE_NOTADB') return sqliteFault(error, from);
  return new CasetallyError(
    'outbox-unreadable',
    `${from} is not a file that Casetally keeps anything in, or its beginning is damaged: nothing was copied.`,
    { cause: error },
  );
}

/** @throws CasetallyError when the copy is damaged, of another kind, or of a newer version. */
async function countWhole(path: string, from: string, kind: StoreKind): Promise<number> {
  const Database = await loadSqlite();
  const db = new Database(path);
  try {
    const version = Number(db.pragma('user_version', { simple: true }));
    const table = kind.table(version);
    const isKind =
      version > 0 && db.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?").get(table);
    if (!isKind || version > kind.version)
      throw new CasetallyError(
        'outbox-unreadable',
        `${from} is ${isKind ? `${kind.name} of a newer version of Casetally` : `not ${kind.name}`}: nothing was copied.`,
      );
    if (db.pragma('integrity_check', { simple: true }) !== 'ok')
      throw new CasetallyError('outbox-damaged', `${from} is damaged: nothing was copied. ${kind.ifDamaged}`);
    return db.prepare<[], { items: number }>(`SELECT count(*) AS items FROM ${table}`).get()?.items ?? 0;
  } finally {
    db.close();
  }
}
