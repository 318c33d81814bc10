import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backupStore } from '../../../src/delivery/outbox/copies.js';
import { sealingWith } from '../../../src/delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { copyRegister } from '../../../src/register/store/copies.js';
import { openSqliteRegister } from '../../../src/register/store/open.js';
import { caseOf, device, SYSTEM } from '../facts.js';

const sealing = sealingWith([Buffer.alloc(32, 7).toString('base64')]);
let folder: string;
let path: string;
let copy: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'register-copies-'));
  path = join(folder, 'register.db');
  copy = join(folder, 'kept', 'copy.db');
});
afterEach(() => rmSync(folder, { recursive: true }));

const open = (at: string) => openSqliteRegister(at, { sealing, ownSystem: SYSTEM });
const facts = (n: number) => caseOf(`C${n}`, '2024-01-10', [device('drain', { lot: `L${n}` })]);

describe('a backup of the register', () => {
  it('is whole, sealed and for its owner only, made while cases are taken in', async () => {
    const register = await open(path);
    for (let n = 0; n < 20; n += 1) await register.take({ facts: facts(n), record: 'Mrs Quintanar' }, 1);
    const more = (async () => {
      for (let n = 20; n < 40; n += 1) await register.take({ facts: facts(n), record: '' }, 1);
    })();
    const versions = await copyRegister(path, copy);
    await more;
    expect(versions).toBeGreaterThanOrEqual(20);
    expect(statSync(copy).mode & 0o777).toBe(0o600);
    expect(readFileSync(copy, 'latin1')).not.toContain('Quintanar');
    await expect(
      openSqliteRegister(copy, {
        sealing: sealingWith([Buffer.alloc(32, 8).toString('base64')]),
        ownSystem: SYSTEM,
      }),
    ).rejects.toThrow('sealed');
    const again = await open(copy);
    expect(await again.check()).toEqual([]);
    expect((await again.counts()).cases).toBe(versions);
    for (const one of [again, register]) await one.close();
  });

  it('is put back as it was', async () => {
    const register = await open(path);
    await register.take({ facts: facts(1), record: '' }, 1);
    const uses = await register.use('C1/drain');
    await copyRegister(path, copy);
    await register.close();
    const back = join(folder, 'back', 'register.db');
    expect(await copyRegister(copy, back)).toBe(1);
    const restored = await open(back);
    expect(await restored.use('C1/drain')).toEqual(uses);
    await restored.close();
  });

  it('writes nothing over, and takes nothing else for a register', async () => {
    const register = await open(path);
    await copyRegister(path, copy);
    await expect(copyRegister(path, copy)).rejects.toThrow('is there already');
    await register.close();
    const outbox = join(folder, 'outbox.db');
    await (await openSqliteOutbox(outbox, { newId: () => 'x' })).close();
    await expect(copyRegister(outbox, `${copy}2`)).rejects.toThrow('not a register');
    await expect(backupStore(path, `${copy}3`)).rejects.toThrow('not an outbox');
    writeFileSync(join(folder, 'text.db'), 'no database at all, but long enough to be looked at'.repeat(40));
    await expect(copyRegister(join(folder, 'text.db'), `${copy}4`)).rejects.toThrow();
    await expect(copyRegister(join(folder, 'none.db'), `${copy}5`)).rejects.toThrow('There is no file');
    expect(readdirSync(join(folder, 'kept'))).toEqual(['copy.db']);
  });

  it('that is killed in the middle leaves no copy, and the next one succeeds', async () => {
    const register = await open(path);
    for (let n = 0; n < 50; n += 1) await register.take({ facts: facts(n), record: 'x'.repeat(200_000) }, 1);
    const module = join(import.meta.dirname, '../../../dist/register/store/copies.js');
    const child = spawn(process.execPath, [
      '--input-type=module',
      '-e',
      `const { copyRegister } = await import(${JSON.stringify(module)});
       await copyRegister(${JSON.stringify(path)}, ${JSON.stringify(copy)}).then(() => setTimeout(() => {}, 60_000));`,
    ]);
    // Killed as soon as it has begun to write.
    await new Promise<void>(resolve => {
      const watch = setInterval(() => {
        if (!existsSync(join(folder, 'kept')) && child.exitCode === null) return;
        clearInterval(watch);
        resolve();
      }, 1);
    });
    child.kill('SIGKILL');
    await new Promise(resolve => child.once('exit', resolve));
    const before = existsSync(copy);
    if (before) expect((await (await open(copy)).counts()).cases).toBe(50);
    else expect(await copyRegister(path, copy)).toBe(50);
    expect((await register.counts()).cases).toBe(50);
    await register.close();
  });
});
