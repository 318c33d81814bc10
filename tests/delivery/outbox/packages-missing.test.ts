import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { postgresPool } from '../../../src/delivery/outbox/open-postgres.js';
import { loadSqlite, openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';

const PACKAGES = ['pg', 'better-sqlite3'];
beforeAll(() => {
  for (const name of PACKAGES)
    vi.doMock(name, () => {
      throw new Error(`Cannot find package '${name}'`);
    });
});
const install = () => {
  for (const name of PACKAGES) vi.doUnmock(name);
};
afterAll(install);

it('a package that is not installed is named, with how to install it, and used once it is there', async () => {
  await expect(postgresPool('postgres://localhost/d')).rejects.toMatchObject({
    code: 'optional-package-missing',
    message:
      "The outbox in PostgreSQL needs the package 'pg', which is not installed. Install it with: npm install pg@8",
    cause: expect.any(Error),
  });
  const sqlite = {
    code: 'optional-package-missing',
    message:
      "The outbox needs the package 'better-sqlite3', which is not installed. Install it with: npm install better-sqlite3@12 (where no built copy fits the machine, it needs a C++ compiler, make and Python)",
    cause: expect.any(Error),
  };
  await expect(loadSqlite()).rejects.toMatchObject(sqlite);
  const path = join(tmpdir(), 'never-made', 'outbox.db');
  await expect(openSqliteOutbox(path, { newId: () => 'x' })).rejects.toMatchObject(sqlite);
  install();
  const Database = await loadSqlite();
  new Database(':memory:').close();
  await (await postgresPool('postgres://localhost/d')).end();
});
