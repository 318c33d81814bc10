import { randomBytes } from 'node:crypto';
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, expect, it } from 'vitest';
import { run } from '../../../../src/cli/program.js';
import { openSqliteOutbox } from '../../../../src/delivery/outbox/sqlite-outbox.js';
import { digestOf } from '../../../../src/delivery/request/submission.js';

const folder = mkdtempSync(join(tmpdir(), 'outbox-copies-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => {
  delete process.env['CASETALLY_OUTBOX_KEY'];
});

async function told(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const code = await run(args, {
    out: (text: string | Uint8Array) => {
      said.out += text;
    },
    err: (text: string) => {
      said.err += text;
    },
    color: false,
  });
  return { code, ...said };
}

async function filled(name: string, items: number): Promise<string> {
  const data = join(folder, name);
  let n = 0;
  const outbox = await openSqliteOutbox(join(data, 'outbox.db'), {
    newId: () => {
      n += 1;
      return `item-${n}`;
    },
  });
  for (let i = 0; i < items; i += 1) {
    const payload = `{"n":"${i} ${'x'.repeat(1_000)}"}`;
    await outbox.put(
      { destination: 'd', caseKey: `c${i}`, patientKey: `p${i}`, payload, digest: digestOf(payload) },
      i,
    );
  }
  await outbox.close();
  return data;
}

it('keys: a plain store and a key is exit 2; rekey seals it; then only the key opens it', async () => {
  const data = await filled('keys', 2);
  expect(await told('outbox', 'rekey', '--data', data)).toMatchObject({
    code: 2,
    err: expect.stringContaining('the new key, then a comma'),
  });
  process.env['CASETALLY_OUTBOX_KEY'] = randomBytes(32).toString('base64');
  const refused = await told('outbox', 'list', '--data', data);
  expect(refused).toMatchObject({ code: 2, err: expect.stringMatching(/not sealed.*outbox rekey/) });
  const sealed = await told('outbox', 'rekey', '--data', data, '--json');
  expect([sealed.code, JSON.parse(sealed.out).changed]).toEqual([0, 2]);
  expect((await told('outbox', 'doctor', '--data', data)).code).toBe(0);
  delete process.env['CASETALLY_OUTBOX_KEY'];
  expect(await told('outbox', 'list', '--data', data)).toMatchObject({
    code: 2,
    err: expect.stringContaining('is sealed, and no key was given'),
  });
});

it('backup and restore: never over what is there', async () => {
  const data = await filled('live', 3);
  const copy = join(folder, 'copy.db');
  expect(await told('backup', '--to', copy, '--data', data)).toMatchObject({
    code: 0,
    out: expect.stringContaining('3 items'),
  });
  expect((await told('backup', '--to', copy, '--data', data)).code).toBe(2);
  expect((await told('restore', copy, '--data', data)).code).toBe(2);
  const restored = join(folder, 'restored');
  expect((await told('restore', copy, '--data', restored)).code).toBe(0);
  const listed = await told('outbox', 'list', '--data', restored, '--json');
  expect(JSON.parse(listed.out).map((i: { id: string; unknown: boolean }) => [i.id, i.unknown])).toEqual([
    ['item-1', true],
    ['item-2', true],
    ['item-3', true],
  ]);
  const nowhere = await told('backup', '--to', join(folder, 'never.db'), '--data', join(folder, 'no-such'));
  expect(nowhere.code).toBe(2);
  expect(existsSync(join(folder, 'never.db'))).toBe(false);
  expect(await told('backup', '--to', join(folder, 'pg.db'), '--data', 'postgres://h/d')).toMatchObject({
    code: 2,
    err: expect.stringContaining('pg_dump'),
  });
});

it('damage: list is exit 2 with the way on, doctor tells what is hurt, rescue copies the rest', async () => {
  const data = await filled('hurt', 200);
  const path = join(data, 'outbox.db');
  const file = openSync(path, 'r+');
  const middle = Math.floor(statSync(path).size / 2 / 4096) * 4096;
  writeSync(file, Buffer.alloc(4096, 0xa5), 0, 4096, middle);
  closeSync(file);
  const listed = await told('outbox', 'list', '--data', data);
  expect(listed).toMatchObject({ code: 2, err: expect.stringMatching(/is damaged.*outbox rescue/) });
  expect(listed.err).not.toContain('fault in Casetally');
  const looked = await told('outbox', 'doctor', '--data', data, '--json');
  expect(looked.code).toBe(1);
  expect(JSON.parse(looked.out).store.length).toBeGreaterThan(0);
  const to = join(folder, 'rescued');
  const rescued = await told('outbox', 'rescue', '--to', to, '--data', data, '--json');
  expect(rescued.code).toBe(1);
  const { copied } = JSON.parse(rescued.out);
  expect(copied).toBeGreaterThan(100);
  const after = await told('outbox', 'doctor', '--data', to, '--json');
  expect([after.code, JSON.parse(after.out).items]).toEqual([0, copied]);
});
