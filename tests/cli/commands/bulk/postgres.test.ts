import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPostgresOutbox } from '../../../../src/delivery/outbox/open-postgres.js';
import { unsealed } from '../../../../src/delivery/outbox/sealing.js';
import { program } from '../../../support/built.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../../support/postgres.js';
import { madeCase, siteText } from './made.js';

describe.skipIf(!postgresPrograms())('casetally bulk into PostgreSQL', () => {
  const root = mkdtempSync(join(tmpdir(), 'casetally-bulk-postgres-'));
  const site = join(root, 'site.yaml');
  let server: TestPostgres;
  beforeAll(async () => {
    server = await startPostgres();
    writeFileSync(site, siteText);
    const folders = { left: ['P-1', 'P-2', 'P-3'], right: ['P-3', 'P-4'] };
    for (const [folder, ids] of Object.entries(folders)) {
      mkdirSync(join(root, folder));
      for (const id of ids) writeFileSync(join(root, folder, `${id}.yaml`), madeCase(id));
    }
  });
  afterAll(async () => {
    await server.stop();
    rmSync(root, { recursive: true });
  });

  async function bulk(folder: string): Promise<{ done: number; before: number; journal: string }> {
    const env = { ...process.env, CASETALLY_DATA: server.address, XDG_DATA_HOME: join(root, 'home') };
    const args = ['bulk', join(root, folder), '--to', 'records', '--site', site, '--threads', '1', '--json'];
    const child = spawn(process.execPath, [program, ...args], { env });
    const out: string[] = [];
    child.stdout.setEncoding('utf8').on('data', chunk => void out.push(chunk));
    child.stderr.setEncoding('utf8').on('data', chunk => void out.push(chunk));
    expect(await once(child, 'close')).toEqual([0, null]);
    return JSON.parse(out.join(''));
  }

  it('stores each case once, also from two processes at once that have one in common', async () => {
    const [left, right] = await Promise.all([bulk('left'), bulk('right')]);
    expect([left.done, right.done]).toEqual([3, 2]);
    // The journal is on this machine, and nothing of the address is in its name.
    expect(left.journal).toMatch(/home\/casetally\/bulk\/[0-9a-f]{16}\/bulk-journal\.txt$/);
    expect(await bulk('left')).toMatchObject({ done: 0, before: 3 });
    const outbox = await openPostgresOutbox(server.address, {
      ...{ newId: () => 'none', sealing: unsealed, clock: () => Date.now() },
    });
    try {
      const items = await outbox.list();
      expect(new Set(items.map(({ caseKey }) => caseKey)).size).toBe(4);
      expect(items.length).toBe(4);
    } finally {
      await outbox.close();
    }
  });
});
