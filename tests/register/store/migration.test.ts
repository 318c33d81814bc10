import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { openPostgresRegister, openSqliteRegister } from '../../../src/register/store/open.js';
import type { Register } from '../../../src/register/store/register.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { SYSTEM } from '../facts.js';

/*
 * `earlier/` has registers as version 1 of the tables left them: a drain placed in case A and removed in B, both from
 * items of the outbox, a drain of case C that a person unlinked.
 */
const EARLIER = join(import.meta.dirname, 'earlier');
const folder = mkdtempSync(join(tmpdir(), 'earlier-register-'));
afterAll(() => rmSync(folder, { recursive: true }));
const options = { sealing: unsealed, ownSystem: SYSTEM };

async function goesOn(register: Register): Promise<void> {
  expect(await register.check()).toEqual([]);
  expect(await register.counts()).toMatchObject({ cases: 3, uses: 2, inside: 0 });
  expect((await register.use('B/old'))?.state).toBe('removed');
  // Which destinations accepted the cases was not kept: the outbox is asked once more.
  expect(await register.notReplayed(['item-1', 'item-2'])).toEqual(['item-1', 'item-2']);
  expect(await register.owed.list()).toEqual([]);
  expect(await register.owed.askAll('records')).toBe(1);
  expect((await register.owed.work({ case: 'A', destination: 'records' })).closings).toHaveLength(2);
}

describe('a register of the release before', () => {
  it('in SQLite is brought up to date once, and goes on', async () => {
    const path = join(folder, 'register.db');
    copyFileSync(join(EARLIER, 'schema-1.sqlite'), path);
    const register = await openSqliteRegister(path, options);
    await goesOn(register);
    await register.setReplayed(['item-1']);
    await register.close();
    const again = await openSqliteRegister(path, options);
    expect(await again.notReplayed(['item-1'])).toEqual([]);
    expect(await again.owed.list()).toHaveLength(1);
    await again.close();
    const db = new Database(path);
    expect(db.pragma('user_version', { simple: true })).toBe(2);
    db.close();
  });

  it('is left as it is where the key does not fit', async () => {
    const path = join(folder, 'other-key.db');
    copyFileSync(join(EARLIER, 'schema-1.sqlite'), path);
    const sealing = sealingWith([Buffer.alloc(32, 7).toString('base64')]);
    await expect(openSqliteRegister(path, { ...options, sealing })).rejects.toThrow('Nothing was changed');
    const db = new Database(path);
    expect(db.pragma('user_version', { simple: true })).toBe(1);
    db.close();
  });

  it('made by a later release is left alone', async () => {
    const path = join(folder, 'later.db');
    const db = new Database(path);
    db.pragma('user_version = 99');
    db.close();
    await expect(openSqliteRegister(path, options)).rejects.toMatchObject({ code: 'outbox-unreadable' });
  });
});

describe.skipIf(postgresPrograms() === undefined)('a register of the release before in PostgreSQL', () => {
  let database: TestPostgres;
  beforeAll(async () => {
    database = await startPostgres();
  }, 60_000);
  afterAll(() => database.stop());

  it('is brought up to date once, however many open it, and goes on', async () => {
    const client = new pg.Client({ connectionString: database.address });
    await client.connect();
    await client.query(readFileSync(join(EARLIER, 'schema-1.sql'), 'utf8'));
    const open = () => openPostgresRegister(database.address, options);
    const opened = await Promise.all([open(), open(), open()]);
    await goesOn(opened[0]!);
    expect(await opened[1]!.owed.list()).toHaveLength(1);
    expect((await client.query('SELECT number FROM casetally_register.version')).rows).toEqual([
      { number: 2 },
    ]);
    await client.end();
    await Promise.all(opened.map(register => register.close()));
  });
});
