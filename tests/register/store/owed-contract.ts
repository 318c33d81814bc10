import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CaseFacts } from '../../../src/register/facts.js';
import type { Owed } from '../../../src/register/store/owed.js';
import type { Register } from '../../../src/register/store/register.js';
import { caseOf, device } from '../facts.js';
import type { RegisterUnderTest } from './contract.js';

const drain = { di: '09506000117843', lot: 'L1', side: 'left', site: 'Left kidney' } as const;
const plan = { key: 'left/1', what: 'Exchange', by: 'ward', due: '2024-02-01' };
const placed = caseOf('A', '2024-01-10', [device('drain', { ...drain, inOn: '2024-01-10', plans: [plan] })]);
const old = device('old', { ...drain, carried: {}, out: 1, outOn: '2024-03-01' });
const removed = caseOf('B', '2024-03-01', [old]);

/** What every store of the register keeps of what destinations are still to be told. */
export function owedContract(name: string, open: () => Promise<RegisterUnderTest>): void {
  describe(`what is owed to destinations: ${name}`, () => {
    let store: RegisterUnderTest;
    let register: Register;
    let owed: Owed;
    beforeEach(async () => {
      store = await open();
      register = store.register;
      owed = register.owed;
    });
    afterEach(() => store.cleanUp());

    const take = (facts: CaseFacts, destination?: string, now = 1) =>
      register.take({ facts, record: '', ...(destination !== undefined && { destination }) }, now);
    const list = async () =>
      (await owed.list()).map(({ case: of, destination, held }) => [of, destination, held]);
    const finishAll = async () => {
      for (;;) {
        const lease = await owed.claim(['records', 'archive'], 1_000_000, 10);
        if (!lease) return;
        await owed.finish(lease, 1_000_000);
      }
    };

    it('asks for a look at a case that a destination accepted, and at each that a later one changes', async () => {
      expect((await take(placed, 'records')).changed).toEqual(['A']);
      await take(placed, 'archive');
      expect(await list()).toEqual([
        ['A', 'archive', false],
        ['A', 'records', false],
      ]);
      await finishAll();
      // Wherever the later case goes, or where it came from.
      expect((await take(removed)).changed).toEqual(['A']);
      expect(await list()).toHaveLength(2);
      expect(await owed.work({ case: 'A', destination: 'records' })).toEqual({
        closings: [
          { kind: 'device', device: 'drain', on: '2024-03-01', by: 'B' },
          { kind: 'plan', key: 'left/1', how: 'done', by: 'B' },
        ],
        changes: [],
        numbers: [{ system: 'https://ids.harbour.example/mrn', value: '4711' }],
        acceptedAt: 1,
      });
      await finishAll();
      await take({ ...removed, version: 2, digest: 'B2', status: 'withdrawn' });
      expect(await list()).toHaveLength(2);
      expect((await owed.work({ case: 'A', destination: 'records' })).closings).toEqual([]);
    });

    it('asks for nothing where nothing changes, and of nobody who has not accepted the case', async () => {
      await take(placed);
      await take(removed, 'records');
      expect(await list()).toEqual([['B', 'records', false]]);
      await finishAll();
      await take(caseOf('C', '2024-05-01', [device('other')]));
      await register.rebuild(async (_record, facts) => facts);
      await register.rekey();
      expect(await list()).toEqual([]);
    });

    it('asks again when a person decides, joins or has it made anew', async () => {
      await take(placed, 'records');
      const { lot: _lot, di: _di, ...bare } = old;
      await take({ ...removed, devices: [bare] });
      await finishAll();
      const said = { case: 'B', device: 'old', by: 'Dr Okonjo', why: 'Seen', at: 5 };
      await register.decide({ kind: 'link', use: 'A/drain', ...said });
      expect(await list()).toEqual([['A', 'records', false]]);
      await finishAll();
      await register.decide({ kind: 'unlink', ...said, at: 6 });
      expect(await list()).toEqual([['A', 'records', false]]);
      await finishAll();
      await register.rebuild(async (_record, facts) =>
        facts.case.value === 'A' ? { ...facts, devices: [device('drain', { ...drain, plans: [] })] } : facts,
      );
      expect(await list()).toEqual([]);
    });

    it('asks when two numbers become one person', async () => {
      const system = 'https://ids.harbour.example/mrn';
      const person = { system, value: '9' };
      await take(placed, 'records');
      await take({ ...removed, person, numbers: [person] });
      await finishAll();
      await register.join({ one: { system, value: '4711' }, other: person, by: 'x', why: 'y', at: 3 });
      expect(await list()).toEqual([['A', 'records', false]]);
      const { numbers } = await owed.work({ case: 'A', destination: 'records' });
      expect(numbers.map(({ value }) => value).sort()).toEqual(['4711', '9']);
    });

    it('is claimed by one at a time, and by another once the lease has run out', async () => {
      await take(placed, 'records');
      const first = await owed.claim(['records'], 100, 50);
      expect(first).toMatchObject({ case: 'A', attempts: 1, until: 150 });
      expect(await owed.claim(['records'], 149, 50)).toBeUndefined();
      expect(await owed.nextDue(['records'])).toBe(150);
      const second = await owed.claim(['records'], 150, 50);
      expect(second).toMatchObject({ case: 'A', attempts: 2, until: 200 });
      // The first one comes too late: nothing of it is written.
      await owed.finish(first!, 151);
      await owed.postpone(first!, 'x');
      expect(await list()).toEqual([['A', 'records', false]]);
      await owed.finish(second!, 160);
      expect(await list()).toEqual([]);
      expect(await owed.nextDue(['records'])).toBeUndefined();
    });

    it('is claimed for some destinations and cases alone', async () => {
      await take(placed, 'records');
      expect(await owed.claim([], 100, 50)).toBeUndefined();
      expect(await owed.claim(['archive'], 100, 50)).toBeUndefined();
      expect(await owed.claim(['records'], 100, 50, [])).toBeUndefined();
      expect(await owed.claim(['records'], 100, 50, ['B'])).toBeUndefined();
      expect(await owed.claim(['archive', 'records'], 100, 50, ['B', 'A'])).toBeDefined();
    });

    it('is due again where it was asked for meanwhile', async () => {
      await take(placed, 'records');
      for (const end of ['finish', 'postpone', 'hold'] as const) {
        const lease = await owed.claim(['records'], 100, 50);
        await take(removed, undefined);
        await take(placed, 'records');
        if (end === 'finish') await owed.finish(lease!, 100);
        else await owed.postpone(lease!, 'x', end === 'postpone' ? 9_000 : undefined);
        expect(await owed.list()).toMatchObject([{ held: false, attempts: 0 }]);
      }
      expect(await owed.claim(['records'], 120, 50)).toBeDefined();
    });

    it('waits for its time, or for a person', async () => {
      await take(placed, 'records');
      await owed.postpone((await owed.claim(['records'], 100, 50))!, 'unavailable', 900);
      expect(await owed.list()).toMatchObject([{ reason: 'unavailable', dueAt: 900, held: false }]);
      expect(await owed.claim(['records'], 899, 50)).toBeUndefined();
      await owed.postpone((await owed.claim(['records'], 900, 50))!, 'register.not-ours');
      expect(await owed.claim(['records'], 1e12, 50)).toBeUndefined();
      expect(await owed.nextDue(['records'])).toBeUndefined();
      await owed.retry(2_000, 'archive');
      expect(await list()).toEqual([['A', 'records', true]]);
      await owed.retry(2_000, 'records');
      expect(await owed.claim(['records'], 2_000, 50)).toBeDefined();
    });

    it('keeps what was changed until it is changed back, through all that is made anew', async () => {
      const of = { case: 'A', destination: 'records' };
      const change = {
        ...{ type: 'Task', value: 'one', before: { status: 'accepted', 'timingPeriod.end': null } },
        after: [{ status: 'completed' }],
      };
      await take(placed, 'records');
      await owed.remember(of, change);
      expect(await owed.changed('records', ['two'])).toEqual(new Map());
      const twice = { ...change, after: [...change.after, { status: 'cancelled' }] };
      await owed.remember(of, twice);
      await owed.remember({ ...of, destination: 'archive' }, change);
      await register.rebuild(async (_record, facts) => facts);
      const again = (await store.reopen()).owed;
      expect((await again.work(of)).changes).toEqual([twice]);
      expect(await again.changed('records', ['one', 'two'])).toEqual(
        new Map([['Task one', { status: 'cancelled' }]]),
      );
      await again.forget(of, change);
      expect((await again.work(of)).changes).toEqual([]);
      expect((await again.work({ ...of, destination: 'archive' })).changes).toEqual([change]);
    });

    it('looks at every case that later ones say something of, when a person wants that', async () => {
      await take(placed);
      await take(removed);
      await take(caseOf('C', '2024-05-01', [device('other')]));
      expect(await owed.askAll('records')).toBe(1);
      expect(await list()).toEqual([['A', 'records', false]]);
    });

    it('knows of a case that was moved to another person whose it is', async () => {
      const person = { system: 'https://ids.harbour.example/mrn', value: '9' };
      await take(placed, 'records');
      await take(
        { ...placed, version: 2, digest: 'A2', status: 'amended', person, numbers: [person] },
        'records',
      );
      await take({ ...removed, person, numbers: [person] });
      const { closings, numbers } = await owed.work({ case: 'A', destination: 'records' });
      expect(closings).toHaveLength(2);
      expect(numbers).toEqual([person]);
    });
  });
}
