import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, describe, expect, it } from 'vitest';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';

const folder = mkdtempSync(join(tmpdir(), 'outbox-processes-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('SQLite outbox shared by processes', () => {
  it('four processes put and claim 1,000 items: none lost, none claimed twice, nobody sees it busy', async () => {
    const path = join(folder, 'shared.db');
    const run = promisify(execFile);
    const filler = fileURLToPath(new URL('./filler.ts', import.meta.url));
    const taken = await Promise.all(
      ['a', 'b', 'c', 'd'].map(async name => {
        const { stdout } = await run(process.execPath, ['--import', 'tsx', filler, path, name, '250']);
        return JSON.parse(stdout) as string[];
      }),
    );
    const outbox = await openSqliteOutbox(path, { newId: () => 'x' });
    const items = await outbox.list();
    await outbox.close();
    expect(items).toHaveLength(1_000);
    const claimed = taken.flat();
    expect(new Set(claimed).size).toBe(claimed.length);
    expect(new Set(items.filter(i => i.state === 'parked').map(i => i.id))).toEqual(new Set(claimed));
    expect(items.filter(i => i.state !== 'parked').every(i => i.state === 'waiting')).toBe(true);
    expect(claimed.length).toBeGreaterThan(900);
  }, 120_000);
});
