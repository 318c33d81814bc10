import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { openPostgresRegister, openSqliteRegister } from '../../../src/register/store/open.js';
import type { Register } from '../../../src/register/store/register.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { caseOf, device, SYSTEM } from '../facts.js';
import { registerContract } from './contract.js';
import { owedContract } from './owed-contract.js';

const key = Buffer.alloc(32, 7).toString('base64');

async function sqlite(sealing = unsealed) {
  const folder = mkdtempSync(join(tmpdir(), 'register-'));
  const path = join(folder, 'register.db');
  const opened: Register[] = [];
  const open = async () => {
    const register = await openSqliteRegister(path, { sealing, ownSystem: SYSTEM });
    opened.push(register);
    return register;
  };
  return {
    path,
    register: await open(),
    reopen: open,
    async cleanUp() {
      for (const register of opened) await register.close();
      rmSync(folder, { recursive: true });
    },
  };
}

registerContract('SQLite', () => sqlite());
registerContract('SQLite, sealed', () => sqlite(sealingWith([key])));
owedContract('SQLite', () => sqlite());
owedContract('SQLite, sealed', () => sqlite(sealingWith([key])));

describe('a sealed register', () => {
  it('has no number, record or name of a case in its file that the key does not open, beside what lists need', async () => {
    const store = await sqlite(sealingWith([key]));
    const person = { system: 'https://ids.harbour.example/mrn', value: 'CANARY-4711' };
    const typed = {
      name: 'Canary drain',
      maker: 'Canary Devices',
      model: 'Canary',
      reference: 'Canary 1',
      site: 'Kidney of Mrs Canary',
      plans: [
        { key: 'k', what: 'Call Mrs Canary', by: 'ward', due: '2024-02-01', condition: 'Canary is home' },
      ],
    };
    const facts = caseOf('A', '2024-01-10', [device('drain', typed)], { person, numbers: [person] });
    await store.register.take({ facts, record: 'name: Canary Quintanar' }, 1);
    const changed = { date: '2024-01-11', why: 'It was Mr Canary' };
    const again = { ...facts, version: 2, digest: 'x', status: 'amended' as const, changed };
    await store.register.take({ facts: again, record: 'name: Canary Quintanar' }, 1);
    const bare = device('drain', { ...typed, carried: {}, out: 1 });
    const later = caseOf('B', '2024-03-01', [bare], { person, numbers: [person] });
    const { unlinked } = await store.register.take({ facts: later, record: '' }, 1);
    expect(unlinked).toHaveLength(1);
    expect((await store.register.unlinked())[0]?.name).toBe('Canary drain');
    expect((await store.register.plans({ overdueOn: '2024-02-03' }))[0]).toMatchObject({
      what: 'Call Mrs Canary',
      use: { name: 'Canary drain', site: 'Kidney of Mrs Canary' },
    });
    expect(await store.register.check()).toEqual([]);
    await store.register.close();
    const bytes = [store.path, `${store.path}-wal`].flatMap(path => {
      try {
        return readFileSync(path, 'latin1');
      } catch {
        return [];
      }
    });
    expect(bytes.join('')).not.toMatch(/canary/i);
    expect(bytes.join('')).toContain('drainage catheter');
    await expect(openSqliteRegister(store.path, { sealing: unsealed, ownSystem: SYSTEM })).rejects.toThrow(
      'sealed',
    );
    const other = sealingWith([Buffer.alloc(32, 8).toString('base64')]);
    await expect(openSqliteRegister(store.path, { sealing: other, ownSystem: SYSTEM })).rejects.toThrow(
      'Nothing was changed',
    );
    await store.cleanUp();
  });
});

describe('a changed key', () => {
  it('seals everything anew, what was not sealed too', async () => {
    const store = await sqlite();
    const facts = caseOf('A', '2024-01-10', [device('drain')]);
    await store.register.take({ facts, record: 'name: Quintanar' }, 1);
    await store.register.close();
    const second = Buffer.alloc(32, 9).toString('base64');
    const open = (keys: [string, ...string[]], anyKeys = false) =>
      openSqliteRegister(store.path, { sealing: sealingWith(keys), ownSystem: SYSTEM, anyKeys });
    await expect(open([key])).rejects.toThrow('not sealed');
    for (const keys of [[key], [second, key]] as [string, ...string[]][]) {
      const opened = await open(keys, true);
      expect(await opened.rekey()).toBe(2);
      await opened.close();
    }
    const after = await open([second]);
    expect((await after.people('4711'))[0]?.numbers).toHaveLength(1);
    expect(await after.check()).toEqual([]);
    await after.close();
    await expect(open([key])).rejects.toThrow('is sealed with the key');
    rmSync(dirname(store.path), { recursive: true });
  });
});

describe.skipIf(postgresPrograms() === undefined)('in PostgreSQL', () => {
  let server: TestPostgres;
  let schemas = 0;
  beforeAll(async () => {
    server = await startPostgres();
  });
  afterAll(() => server.stop());

  const postgres = async () => {
    schemas += 1;
    const schema = `register_${schemas}`;
    const opened: Register[] = [];
    const open = async () => {
      const register = await openPostgresRegister(server.address, {
        sealing: unsealed,
        ownSystem: SYSTEM,
        schema,
      });
      opened.push(register);
      return register;
    };
    return {
      register: await open(),
      reopen: open,
      async cleanUp() {
        for (const register of opened) await register.close();
      },
    };
  };
  registerContract('PostgreSQL', postgres);
  owedContract('PostgreSQL', postgres);

  it('takes cases of one person in from several sides at once', async () => {
    const open = () =>
      openPostgresRegister(server.address, { sealing: unsealed, ownSystem: SYSTEM, schema: 'at_once' });
    const sides = [await open(), await open()];
    const cases = Array.from({ length: 20 }, (_, n) =>
      caseOf(`C${n}`, `2024-01-${String(n + 1).padStart(2, '0')}`, [
        device('drain', { di: '1', lot: `L${n}` }),
      ]),
    );
    await Promise.all(cases.map((facts, n) => sides[n % 2]?.take({ facts, record: '' }, 1)));
    expect(await sides[0]?.counts()).toMatchObject({ cases: 20, uses: 20, inside: 20, people: 1 });
    expect(await sides[1]?.check()).toEqual([]);
    for (const side of sides) await side.close();
  });
});
