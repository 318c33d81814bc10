import { randomBytes } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sealedByIn } from '../../../src/delivery/outbox/keys-held.js';
import { openPostgresOutbox } from '../../../src/delivery/outbox/open-postgres.js';
import type { Outbox } from '../../../src/delivery/outbox/outbox.js';
import { keyOfSealed, type Sealing, sealingWith } from '../../../src/delivery/outbox/sealing.js';
import { postgresIn, SQLITE } from '../../../src/delivery/outbox/sql-schema.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { countedIds } from './ids.js';

const folder = mkdtempSync(join(tmpdir(), 'keys-'));
afterAll(() => rmSync(folder, { recursive: true }));
const newId = countedIds();
const key = () => randomBytes(32).toString('base64');
const [old, fresh, other] = [key(), key(), key()];
const item = (caseKey: string) => ({
  ...{ destination: 'd', caseKey, patientKey: caseKey, payload: `{"case":"${caseKey}"}` },
  ...{ context: 'CANARY-CONTEXT', digest: caseKey },
});

type Open = (sealing?: Sealing, anyKeys?: boolean) => Promise<Outbox>;

/** Everything that keys may do, on an empty store that `open` opens again and again. */
async function keysAreMinded(open: Open): Promise<void> {
  const filled = await open(sealingWith([old]));
  const { id } = await filled.put(item('a'), 0);
  await filled.put(item('b'), 0);
  await filled.park(id, { reason: 'invalid', by: 'x', at: 0, findings: [] });
  const before = await filled.list();
  await filled.close();

  await expect(open()).rejects.toMatchObject({
    code: 'outbox-key',
    message: expect.stringMatching(/is sealed, and no key was given \(2 items .*CASETALLY_OUTBOX_KEY/),
  });
  await expect(open(sealingWith([other]))).rejects.toMatchObject({
    code: 'outbox-key',
    message: expect.stringMatching(/2 items sealed with the key [0-9a-f]{12}, which is not among/),
  });
  // A worker that was opened all the same claims nothing that it cannot read, and rekey refuses as a whole.
  const blind = await open(sealingWith([other]), true);
  await expect(blind.claim('d', 10, 1_000)).rejects.toMatchObject({ code: 'outbox-key' });
  await expect(blind.rekey()).rejects.toMatchObject({ code: 'outbox-key' });
  await blind.close();

  const both = await open(sealingWith([fresh, other, old]));
  expect(await both.list()).toEqual(before);
  await both.put(item('c'), 1);
  expect(await both.rekey()).toBe(2);
  expect(await both.rekey()).toBe(0);
  await both.close();
  const rotated = await open(sealingWith([fresh]));
  expect((await rotated.list()).slice(0, 2)).toEqual(before);
  await rotated.close();
  await expect(open(sealingWith([old]))).rejects.toMatchObject({ code: 'outbox-key' });
}

/** A key given to a store that is not sealed. */
async function plainIsSealed(open: Open): Promise<void> {
  const plain = await open();
  await plain.put(item('a'), 0);
  const before = await plain.list();
  await plain.close();
  await expect(open(sealingWith([fresh]))).rejects.toMatchObject({
    code: 'outbox-key',
    message: expect.stringMatching(/1 item that is not sealed, and a key was given: .*outbox rekey/),
  });
  const sealing = await open(sealingWith([fresh]), true);
  expect(await sealing.rekey()).toBe(1);
  await sealing.close();
  const sealed = await open(sealingWith([fresh]));
  expect(await sealed.list()).toEqual(before);
  await sealed.close();
}

describe('keys of a store in SQLite', () => {
  const at =
    (path: string): Open =>
    (sealing, anyKeys) =>
      openSqliteOutbox(path, { newId, ...(sealing && { sealing }), ...(anyKeys && { anyKeys }) });

  it('are minded before anything is changed, and can be changed', async () => {
    await keysAreMinded(at(join(folder, 'keys.db')));
  });

  it('seal a plain store, of which no byte can be read afterwards', async () => {
    const path = join(folder, 'plain.db');
    await plainIsSealed(at(path));
    expect(readFileSync(path).toString('latin1')).not.toContain('CANARY');
  });
});

const absent = postgresPrograms() === undefined;
describe.skipIf(absent)(
  `keys of a store in PostgreSQL${absent ? ': SKIPPED, no server programs on this machine' : ''}`,
  () => {
    let server: TestPostgres;
    beforeAll(async () => {
      server = await startPostgres();
    });
    afterAll(() => server.stop());
    const at =
      (schema: string): Open =>
      (sealing, anyKeys) =>
        openPostgresOutbox(server.address, {
          ...{ newId, schema },
          ...(sealing && { sealing }),
          ...(anyKeys && { anyKeys }),
        });

    it('are minded before anything is changed, and can be changed', () => keysAreMinded(at('keys')));
    it('seal a plain store', () => plainIsSealed(at('plain')));
  },
);

it('what is sealed is told from JSON by how it begins', () => {
  const { seal, keys } = sealingWith([old, fresh]);
  expect(keyOfSealed(seal('x', 'a/payload'))).toBe(keys[0]);
  expect(keyOfSealed('{"ct1.":"ct1.0123456789ab."}')).toBeUndefined();
});

it.each([
  [3, 'item'],
  [4, 'content'],
  [undefined, 'content'],
])('the keys of a store of version %s are counted in its table %s', (version, table) => {
  expect(sealedByIn(SQLITE, version)).toMatch(new RegExp(`\\nFROM ${table} GROUP BY`));
  expect(sealedByIn(postgresIn('s'), version)).toMatch(new RegExp(`\\nFROM s\\.${table} GROUP BY`));
});
