import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { openPostgresSubmissions, openSqliteSubmissions } from '../../../src/registry/store/open.js';
import type { Submissions } from '../../../src/registry/store/submissions.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { batchOf, newLine } from '../made.js';
import { submissionsContract } from './contract.js';

const key = Buffer.alloc(32, 7).toString('base64');

async function sqlite(sealing = unsealed) {
  const folder = mkdtempSync(join(tmpdir(), 'registry-'));
  const path = join(folder, 'registry.db');
  const opened: Submissions[] = [];
  const open = async () => {
    const submissions = await openSqliteSubmissions(path, { sealing });
    opened.push(submissions);
    return submissions;
  };
  return {
    path,
    submissions: await open(),
    reopen: () => openSqliteSubmissions(path, { sealing }),
    async cleanUp() {
      for (const submissions of opened) await submissions.close();
      rmSync(folder, { recursive: true });
    },
  };
}

submissionsContract('SQLite', () => sqlite());
submissionsContract('SQLite, sealed', () => sqlite(sealingWith([key])));

describe('what was given to registries, sealed', () => {
  it('has nothing of a person in its file, and opens with its key alone', async () => {
    const store = await sqlite(sealingWith([key]));
    const number = { system: 'https://ids.harbour.example/mrn', value: 'CANARY-4711' };
    const line = newLine('drain', { number }, { maker: 'Canary Devices', lot: 'CANARY-L1' });
    await store.submissions.addBatch(batchOf('b-1'), 'Canary bytes', [line], []);
    const name = { case: 'A', device: 'drain' };
    await store.submissions.setAnswer('drains', 'b-1', {
      ...{ text: 'Canary answer', digest: 'x', at: 2 },
      verdicts: [{ name, version: 1, state: 'refused', code: 'R1', says: 'Canary is not known' }],
    });
    await store.submissions.resolve({ pseudonym: 'x', by: 'Dr Canary', why: 'Canary asked', at: 3 });
    await store.submissions.close();
    const bytes = ['', '-wal'].map(end => {
      try {
        return readFileSync(`${store.path}${end}`).toString('latin1');
      } catch {
        return '';
      }
    });
    expect(bytes.join('')).not.toMatch(/canary/i);
    // The case number is there: lists search by it.
    expect(bytes.join('')).toContain('drain');
    for (const other of [unsealed, sealingWith([Buffer.alloc(32, 8).toString('base64')])])
      await expect(openSqliteSubmissions(store.path, { sealing: other })).rejects.toMatchObject({
        code: 'outbox-key',
      });
    await expect(openSqliteSubmissions(store.path, { sealing: sealingWith([key]) })).resolves.toBeDefined();
    await store.cleanUp();
  });
});

describe.skipIf(postgresPrograms() === undefined)('in PostgreSQL', () => {
  let server: TestPostgres;
  let n = 0;
  beforeAll(async () => {
    server = await startPostgres();
  });
  afterAll(() => server.stop());

  submissionsContract('PostgreSQL', async () => {
    n += 1;
    const schema = `registry_${n}`;
    const open = () => openPostgresSubmissions(server.address, { sealing: unsealed, schema });
    const submissions = await open();
    return { submissions, reopen: open, cleanUp: () => submissions.close() };
  });
});
