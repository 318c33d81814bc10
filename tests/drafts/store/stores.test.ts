import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { copyDrafts } from '../../../src/drafts/store/copies.js';
import type { Drafts } from '../../../src/drafts/store/drafts.js';
import { openPostgresDrafts, openSqliteDrafts } from '../../../src/drafts/store/open.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { draftsContract, text, version } from './contract.js';

const key = Buffer.alloc(32, 7).toString('base64');
const second = Buffer.alloc(32, 9).toString('base64');

async function sqlite(sealing = unsealed) {
  const folder = mkdtempSync(join(tmpdir(), 'drafts-'));
  const path = join(folder, 'drafts.db');
  const opened: Drafts[] = [];
  const open = async () => {
    const drafts = await openSqliteDrafts(path, { sealing });
    opened.push(drafts);
    return drafts;
  };
  return {
    path,
    folder,
    drafts: await open(),
    reopen: open,
    async cleanUp() {
      for (const drafts of opened) await drafts.close();
      rmSync(folder, { recursive: true });
    },
  };
}

draftsContract('SQLite', () => sqlite());
draftsContract('SQLite, sealed', () => sqlite(sealingWith([key])));

describe('sealed drafts', () => {
  it('have nothing in their file that was entered, or by whom, without the key', async () => {
    const store = await sqlite(sealingWith([key]));
    const canary = 'casetally: 1\ncase: { id: CANARY-1, date: 2024-01-10 }\npatient: { name: Mrs Canary }\n';
    await store.drafts.begin('d1', '2024-01-10', version(canary, { by: 'Nurse Canary' }));
    const edits = [{ path: 'canary', value: 'canary' }];
    await store.drafts.write(
      'd1',
      1,
      version(`${canary}canary: canary\n`, { by: 'Dr Canary', edits, batch: 'b', digest: 'canary' }),
    );
    const why = 'It was Mr Canary';
    await store.drafts.write('d1', 2, version(canary, { state: 'discarded', why, items: ['canary'] }));
    const bytes = () =>
      [store.path, `${store.path}-wal`]
        .flatMap(path => {
          try {
            return [readFileSync(path, 'latin1')];
          } catch {
            return [];
          }
        })
        .join('');
    expect(bytes()).not.toMatch(/canary/i);
    expect(bytes()).toContain('2024-01-10');
    await store.drafts.close();
    expect(bytes()).not.toMatch(/canary/i);
    await expect(openSqliteDrafts(store.path, { sealing: unsealed })).rejects.toThrow('sealed');
    const other = sealingWith([second]);
    await expect(openSqliteDrafts(store.path, { sealing: other })).rejects.toThrow('Nothing was changed');
    await store.cleanUp();
  });

  it('cannot be moved from one draft to another', async () => {
    const store = await sqlite(sealingWith([key]));
    await store.drafts.begin('d1', '2024-01-10', version(text('A')));
    await store.drafts.begin('d2', '2024-01-10', version(text('B')));
    await store.drafts.close();
    const { default: Database } = await import('better-sqlite3');
    const db = new Database(store.path);
    db.exec("UPDATE draft SET body = (SELECT body FROM draft WHERE id = 'd1') WHERE id = 'd2'");
    db.close();
    const again = await store.reopen();
    await expect(again.get('d2')).rejects.toThrow('was changed or cut');
    await store.cleanUp();
  });
});

describe('a changed key', () => {
  it('seals everything anew, what was not sealed too, and earlier versions can be read', async () => {
    const store = await sqlite();
    await store.drafts.begin('d1', '2024-01-10', version(text('A')));
    await store.drafts.write('d1', 1, version(text('B')));
    await store.drafts.close();
    const open = (keys: [string, ...string[]], anyKeys = false) =>
      openSqliteDrafts(store.path, { sealing: sealingWith(keys), anyKeys });
    await expect(open([key])).rejects.toThrow('not sealed');
    for (const keys of [[key], [second, key]] as [string, ...string[]][]) {
      const opened = await open(keys, true);
      expect(await opened.rekey()).toBe(3);
      await opened.close();
    }
    const after = await open([second]);
    expect([await after.textOf('d1', 1), await after.textOf('d1', 2)]).toEqual([text('A'), text('B')]);
    expect(await after.list({ limit: 2 })).toMatchObject([{ case: 'B', by: 'Nurse Aho' }]);
    await after.close();
    await expect(open([key])).rejects.toThrow('are sealed with the key');
    await store.cleanUp();
  });
});

describe('a copy', () => {
  it('has everything that was there, and is never written over', async () => {
    const store = await sqlite(sealingWith([key]));
    await store.drafts.begin('d1', '2024-01-10', version(text('A')));
    const to = join(store.folder, 'copy.db');
    expect(await copyDrafts(store.path, to)).toBe(1);
    await expect(copyDrafts(store.path, to)).rejects.toThrow('is there already');
    const copy = await openSqliteDrafts(to, { sealing: sealingWith([key]) });
    expect((await copy.get('d1'))?.text).toBe(text('A'));
    await copy.close();
    await store.cleanUp();
  });
});

describe.skipIf(postgresPrograms() === undefined)('in PostgreSQL', () => {
  let server: TestPostgres;
  let schemas = 0;
  beforeAll(async () => {
    server = await startPostgres();
  });
  afterAll(() => server.stop());

  draftsContract('PostgreSQL', async () => {
    schemas += 1;
    const schema = `drafts_${schemas}`;
    const opened: Drafts[] = [];
    const open = async () => {
      const drafts = await openPostgresDrafts(server.address, { sealing: sealingWith([key]), schema });
      opened.push(drafts);
      return drafts;
    };
    return {
      drafts: await open(),
      reopen: open,
      async cleanUp() {
        for (const drafts of opened) await drafts.close();
      },
    };
  });
});
