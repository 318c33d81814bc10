import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, it } from 'vitest';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { fourProcessesShare } from './several-processes.js';

const folder = mkdtempSync(join(tmpdir(), 'outbox-processes-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('SQLite outbox shared by processes', () => {
  it('four processes put and claim 1,000 items: none lost, none claimed twice, nobody sees it busy', async () => {
    const path = join(folder, 'shared.db');
    await fourProcessesShare(path, () => openSqliteOutbox(path, { newId: () => 'x' }));
  });
});
