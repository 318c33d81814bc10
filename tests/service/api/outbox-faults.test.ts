import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, expect, it } from 'vitest';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { SqlOutbox } from '../../../src/delivery/outbox/sql-outbox.js';
import { SQLITE } from '../../../src/delivery/outbox/sql-schema.js';
import { SqliteConnection } from '../../../src/delivery/outbox/sqlite-connection.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { createServiceApp } from '../../../src/service/api/app.js';
import type { ServicePorts } from '../../../src/service/api/handlers.js';

const folder = mkdtempSync(join(tmpdir(), 'service-faults-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('answers 503 for a damaged outbox, says what to do, and no word of where it is', async () => {
  const path = join(folder, 'outbox.db');
  let n = 0;
  const newId = () => {
    n += 1;
    return `item-${n}`;
  };
  const filled = await openSqliteOutbox(path, { newId });
  for (let i = 0; i < 20; i += 1)
    await filled.put(
      { destination: 'd', caseKey: `${i}`, patientKey: `${i}`, payload: 'x'.repeat(2_000), digest: `${i}` },
      i,
    );
  await filled.close();
  const bytes = statSync(path).size - 4096;
  const file = openSync(path, 'r+');
  writeSync(file, Buffer.alloc(bytes, 0xa5), 0, bytes, 4096);
  closeSync(file);
  const outbox = new SqlOutbox(new SqliteConnection(new Database(path), path), {
    ...{ dialect: SQLITE, newId, sealing: unsealed },
  });
  // Only the outbox is asked for on these paths.
  const cases = { state: { failedStarts: 0 } };
  const ports = { outbox, cases } as unknown as ServicePorts;
  const app = createServiceApp(ports, {
    ...{ tokens: undefined, maxBytes: 1_000, clock: () => 0 },
    page: { language: 'en-GB', file: () => undefined },
  });
  const server = app.listen(0, '127.0.0.1');
  await new Promise(resolve => server.once('listening', resolve));
  const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const answer = await fetch(`${base}/outbox/item-1`);
  const text = await answer.text();
  expect(answer.status).toBe(503);
  expect(answer.headers.get('retry-after')).toBe('60');
  expect(JSON.parse(text)).toMatchObject({ issue: [{ severity: 'fatal', code: 'transient' }] });
  expect(text).toMatch(/outbox-damaged.*outbox doctor/);
  expect(text).not.toContain(folder);
  expect((await fetch(`${base}/healthz`)).status).toBe(503);
  await new Promise(resolve => server.close(resolve));
  await outbox.close();
});
