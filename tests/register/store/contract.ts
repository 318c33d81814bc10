import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CaseFacts, CaseFigures } from '../../../src/register/facts.js';
import type { RecallLine, Register } from '../../../src/register/store/register.js';
import { caseOf, device, SYSTEM } from '../facts.js';

export interface RegisterUnderTest {
  readonly register: Register;
  /** Opens a second one on the same data. */
  reopen(): Promise<Register>;
  cleanUp(): Promise<void>;
}

const drain = { di: '09506000117843', lot: 'L1', side: 'left', site: 'Left kidney' } as const;
const out = (more: object = {}) =>
  device('drain', {
    ...drain,
    carried: {},
    out: 1,
    outOn: '2024-03-01',
    moved: true,
    replacedBy: 'new',
    ...more,
  });

/** The one suite that every store of the register passes. */
export function registerContract(name: string, open: () => Promise<RegisterUnderTest>): void {
  describe(`register contract: ${name}`, () => {
    let store: RegisterUnderTest;
    let register: Register;
    beforeEach(async () => {
      store = await open();
      register = store.register;
    });
    afterEach(() => store.cleanUp());

    const take = (facts: CaseFacts, item?: string) =>
      register.take({ facts, record: `record of ${facts.case.value}`, ...(item && { item }) }, 1);
    const inside = async (value = '4711') => {
      const [person] = await register.people(value);
      return (person ? await register.usesOf(person.id) : []).map(({ id, state }) => [id, state]);
    };
    const other = (value: string): Partial<CaseFacts> => {
      const person = { system: 'https://ids.harbour.example/mrn', value };
      return { person, numbers: [person] };
    };

    it('keeps one history of a device, and finds it by every name it has', async () => {
      await take(
        caseOf('A', '2024-01-10', [device('drain', { ...drain, inOn: '2024-01-10', purpose: 'temporary' })]),
      );
      await take(caseOf('B', '2024-03-01', [out()]));
      expect(await register.check()).toEqual([]);
      expect(await inside()).toEqual([['A/drain', 'removed']]);
      const use = await register.use('B/drain');
      expect(use).toMatchObject({ id: 'A/drain', dwellDays: 51, insertionHeld: true });
      expect(use?.events.map(({ kind, as }) => [kind, as])).toEqual([
        ['inserted', 'A/drain'],
        ['removed', 'B/drain'],
      ]);
      expect(await register.use('A/drain')).toEqual(use);
      expect(await register.use('C/drain')).toBeUndefined();
    });

    it('gives the same rows in any order, and takes a version in once', async () => {
      const cases = [
        caseOf('A', '2024-01-10', [device('drain', drain)]),
        caseOf('B', '2024-03-01', [out()]),
        caseOf('B', '2024-03-01', [out({ out: 0, inside: 1 })], { version: 2, status: 'amended' }),
      ];
      for (const facts of [...cases].reverse()) expect((await take(facts)).isNew).toBe(true);
      for (const facts of cases) expect((await take(facts)).isNew).toBe(false);
      expect(await inside()).toEqual([['A/drain', 'inside']]);
      expect(await register.check()).toEqual([]);
      expect(await register.counts()).toMatchObject({ cases: 2, people: 1, uses: 1, inside: 1 });
    });

    it('is there after it was opened again', async () => {
      await take(caseOf('A', '2024-01-10', [device('drain', { ...drain, plans: [plan('2024-02-01')] })]));
      register = await store.reopen();
      expect(await inside()).toEqual([['A/drain', 'inside']]);
      expect((await register.use('A/drain'))?.plans).toEqual([{ ...plan('2024-02-01'), case: 'A' }]);
      const [person] = await register.people('4711');
      expect(person?.numbers).toEqual([{ system: 'https://ids.harbour.example/mrn', value: '4711' }]);
    });

    it('tells what it cannot link, and closes it when a person says so', async () => {
      await take(caseOf('A', '2024-01-10', [device('one', drain), device('two', drain)]));
      const taken = await take(caseOf('B', '2024-03-01', [out()]));
      expect(taken.unlinked).toMatchObject([{ why: 'several fit', candidates: ['A/one', 'A/two'] }]);
      expect(await register.unlinked()).toHaveLength(1);
      const said = { case: 'B', device: 'drain', by: 'Dr Okonjo', why: 'Seen on the film', at: 5 };
      expect(await register.decide({ kind: 'link', use: 'A/two', ...said })).toBeDefined();
      expect(await register.unlinked()).toEqual([]);
      expect(await inside()).toEqual([
        ['A/one', 'inside'],
        ['A/two', 'removed'],
      ]);
      await register.decide({ kind: 'unlink', ...said, at: 6 });
      expect(await inside()).toContainEqual(['A/two', 'inside']);
      expect(await register.check()).toEqual([]);
    });

    it('decides on nothing that it does not hold, and never across people', async () => {
      await take(caseOf('A', '2024-01-10', [device('drain', drain)]));
      await take(caseOf('X', '2024-01-10', [device('drain', drain)], other('9')));
      await take(caseOf('B', '2024-03-01', [out({ lot: 'L9' })]));
      const said = { device: 'drain', by: 'Dr Okonjo', why: 'x', at: 5 };
      expect(await register.decide({ kind: 'link', case: 'B', use: 'X/drain', ...said })).toBeUndefined();
      expect(await register.decide({ kind: 'link', case: 'Q', use: 'A/drain', ...said })).toBeUndefined();
      expect(await register.decide({ kind: 'link', case: 'B', use: 'A/drain', ...said })).toBeDefined();
    });

    it('reopens what a withdrawn removal had closed', async () => {
      await take(caseOf('A', '2024-01-10', [device('drain', drain)]));
      await take(caseOf('B', '2024-03-01', [out()]));
      await take(caseOf('B', '2024-03-01', [out()], { version: 2, status: 'withdrawn' }));
      expect(await inside()).toEqual([['A/drain', 'inside']]);
    });

    it('moves a case to another person when a later version says so', async () => {
      await take(caseOf('A', '2024-01-10', [device('drain', drain)]));
      await take(
        caseOf('A', '2024-01-10', [device('drain', drain)], { ...other('9'), version: 2, status: 'amended' }),
      );
      expect(await inside()).toEqual([['A/drain', 'withdrawn']]);
      expect(await inside('9')).toEqual([['A/drain', 'inside']]);
      expect((await register.use('A/drain'))?.state).toBe('inside');
      expect(await register.check()).toEqual([]);
    });

    it('keeps people apart until somebody joins them', async () => {
      await take(caseOf('A', '2024-01-10', [device('drain', drain)]));
      await take(caseOf('B', '2024-03-01', [out()], other('9')));
      expect(await inside()).toEqual([['A/drain', 'inside']]);
      const system = 'https://ids.harbour.example/mrn';
      const joined = {
        one: { system, value: '4711' },
        other: { system, value: '9' },
        by: 'Registration',
        why: 'Merged',
        at: 3,
      };
      expect(await register.join({ ...joined, other: { system, value: '77' } })).toBeUndefined();
      expect(await register.join(joined)).toBeDefined();
      expect(await inside('9')).toEqual([['A/drain', 'removed']]);
      expect(await inside()).toEqual([['A/drain', 'removed']]);
      await take(caseOf('C', '2024-05-01', [device('new', drain)], other('9')));
      expect(await inside()).toContainEqual(['C/new', 'inside']);
      expect(await register.check()).toEqual([]);
    });

    it('keeps a case whose record gives no number that counts, without a person', async () => {
      const { person: _person, ...facts } = caseOf('A', '2024-01-10', [device('drain', drain)]);
      expect(await take(facts)).toMatchObject({ isNew: true, unlinked: [] });
      expect(await register.counts()).toMatchObject({ withoutPerson: 1, uses: 0 });
    });

    it('tells a serial number that two people have', async () => {
      const serial = { ...drain, serial: 'S1' };
      await take(caseOf('A', '2024-01-10', [device('drain', serial)]));
      const taken = await take(caseOf('B', '2024-02-10', [device('drain', serial)], other('9')));
      expect(taken.sameSerial).toEqual([{ di: drain.di, serial: 'S1', use: 'B/drain', other: 'A/drain' }]);
      expect(await register.sameSerials()).toHaveLength(1);
    });

    it('tells two texts of one version', async () => {
      await take(caseOf('A', '2024-01-10', [device('drain', drain)]));
      const taken = await take(
        caseOf('A', '2024-01-10', [device('drain', drain)], { digest: 'sha256:other' }),
      );
      expect(taken).toMatchObject({ isNew: true, versionTwice: true });
    });

    const plan = (due: string, more: object = {}) => ({ key: 'k', what: 'Change', by: 'ward', due, ...more });

    it('lists what is due, what is overdue and what nobody reviews', async () => {
      const filter = { kind: 'caval filter', family: 'filter', retrievable: true } as const;
      await take(
        caseOf('A', '2024-01-10', [
          device('soon', { ...drain, plans: [plan('2024-05-01', { latest: '2024-05-20' })] }),
          device('late', { ...drain, lot: 'L2', plans: [plan('2024-04-01', { by: 'clinic' })] }),
          device('gone', { ...drain, lot: 'L3', plans: [plan('2024-04-01')] }),
          device('filter', { ...filter, plans: [plan('2024-04-05')] }),
          // Nobody can account for it: nothing can be done about it as planned.
          device('lost', { ...drain, lot: 'L4', open: 1, plans: [plan('2024-04-02')] }),
          device('planned', { ...filter, lot: 'F2', plans: [plan('2024-09-05')] }),
        ]),
      );
      await take(caseOf('B', '2024-03-01', [out({ lot: 'L3' })]));
      const uses = async (asked: Parameters<Register['plans']>[0]) =>
        (await register.plans(asked)).map(({ use, due }) => [use.id, due]);
      expect(await uses({ from: '2024-04-20', to: '2024-05-04' })).toEqual([['A/soon', '2024-05-01']]);
      expect(await uses({ overdueOn: '2024-05-10' })).toEqual([
        ['A/late', '2024-04-01'],
        ['A/filter', '2024-04-05'],
      ]);
      expect(await uses({ overdueOn: '2024-05-21', by: 'ward', kind: 'drainage catheter' })).toEqual([
        ['A/soon', '2024-05-01'],
      ]);
      expect(await uses({ overdueOn: '2024-05-21', kind: 'filter' })).toEqual([['A/filter', '2024-04-05']]);
      expect(await uses({ overdueOn: '2024-05-10', limit: 1 })).toEqual([['A/late', '2024-04-01']]);
      expect(await register.planCount({ overdueOn: '2024-05-10', limit: 1 })).toBe(2);
      expect(await register.planCount({ overdueOn: '2024-05-10', kind: 'drain' })).toBe(1);
      expect(await register.planCount({ overdueOn: '2024-05-10', by: 'clinic' })).toBe(1);
      expect((await register.unreviewed('2024-05-10')).map(({ id }) => id)).toEqual(['A/filter']);
    });

    it('answers a recall: carries now, carried, cannot be excluded', async () => {
      await take(
        caseOf('A', '2024-01-10', [
          device('now', drain),
          device('past', { ...drain, lot: 'L2' }),
          device('other', { ...drain, lot: 'L8' }),
          device('nolot', { di: drain.di }),
          device('nothing', { lot: 'L1' }),
          device('elsewhere', { di: '00380740000011', lot: 'L1' }),
          device('dated', { ...drain, lot: 'L7', expires: '2025-03' }),
        ]),
      );
      await take(caseOf('B', '2024-03-01', [out({ lot: 'L2' })]));
      const answers = async (line: Omit<RecallLine, 'line'>) =>
        (await register.recall([{ line: 1, ...line }])).map(({ use, answer, unknown }) => [
          use.id,
          answer,
          ...unknown,
        ]);
      expect(await answers({ di: drain.di, lot: 'L1' })).toEqual([
        ['A/nolot', 'perhaps', 'lot'],
        ['A/nothing', 'perhaps', 'identifier'],
        ['A/now', 'carries now'],
      ]);
      expect(await answers({ di: drain.di, lot: 'L2' })).toContainEqual(['A/past', 'carried']);
      expect(await answers({ lot: 'L1' })).toEqual([
        ['A/elsewhere', 'carries now'],
        ['A/nothing', 'carries now'],
        ['A/now', 'carries now'],
      ]);
      expect(
        await answers({ di: drain.di, expiresFrom: '2025-03-15', expiresTo: '2025-04-01' }),
      ).toContainEqual(['A/dated', 'carries now']);
      expect(await answers({ di: drain.di, expiresFrom: '2025-04-01' })).not.toContainEqual([
        'A/dated',
        'carries now',
      ]);
      expect(await answers({ di: '00000000000000' })).toEqual([]);
      expect(await register.insideWithoutIdentifier()).toBe(1);
      const many = Array.from({ length: 1_201 }, (_, n) => ({ line: n + 1, di: drain.di, lot: `L${n}` }));
      const found = await register.recall(many);
      expect(
        found.filter(({ answer }) => answer === 'carries now').map(({ line, use }) => [line, use.id]),
      ).toEqual([
        [2, 'A/now'],
        [8, 'A/dated'],
        [9, 'A/other'],
      ]);
    });

    it('makes everything anew from the records, and keeps what can no longer be read', async () => {
      const first = caseOf('A', '2024-01-10', [device('drain', drain)]);
      await take(first);
      await take(caseOf('B', '2024-03-01', [out({ lot: 'L2' })]));
      const seen: string[] = [];
      const { unread } = await register.rebuild(async (record, facts) => {
        seen.push(record);
        return facts.case.value === 'A'
          ? { ...facts, devices: [device('drain', { ...drain, lot: 'L2' })] }
          : undefined;
      });
      expect(seen.sort()).toEqual(['record of A', 'record of B']);
      expect(unread).toEqual(['B']);
      expect(await inside()).toEqual([['A/drain', 'removed']]);
      expect(await register.check()).toEqual([]);
    });

    it('gives what measures of a period are made of, by the newest version of each case', async () => {
      const figures: CaseFigures = {
        kinds: ['nephrostomy'],
        status: 'completed',
        complications: 'none',
        kermaArea: '4.2',
      };
      const short = device('short', { di: '1', out: 1, outOn: '2024-01-10', inOn: '2024-01-10' });
      const first = [device('drain', { ...drain, inOn: '2024-01-10', plans: [plan('2024-02-01')] }), short];
      await take(caseOf('A', '2024-01-10', first, { figures }));
      const amended = { ...figures, kermaArea: '5' };
      await take(caseOf('A', '2024-01-10', first, { figures: amended, version: 2, status: 'amended' }));
      await take(caseOf('B', '2024-03-01', [out()], { died: '2024-03-05' }));
      await take(caseOf('W', '2024-03-01', [], { figures, status: 'withdrawn' }));
      await take(caseOf('Z', '2023-12-31', [device('old', { lot: 'L9' })], { figures }));
      await take(caseOf('S', '2024-04-01', [device('seen', { lot: 'L8', carried: {} })], other('9')));
      expect(await register.measureRows('2024-01-01', '2024-12-31')).toEqual({
        figures: [amended],
        withoutFigures: 2,
        uses: [
          {
            ...{ kind: 'drainage catheter', family: 'drain', retrievable: false, state: 'removed' },
            ...{ placed: '2024-01-10', ended: '2024-03-01', died: '2024-03-05' },
          },
        ],
        plans: [
          {
            ...{ kind: 'drainage catheter', state: 'removed', last: '2024-02-01' },
            closed: { how: 'exchanged', date: '2024-03-01' },
          },
        ],
        notPlacedHere: 1,
      });
    });

    it('remembers which items of the outbox it has', async () => {
      await take(caseOf('A', '2024-01-10', []), 'item-1');
      await register.setReplayed(['item-2', 'item-1']);
      expect(await register.notReplayed(['item-1', 'item-3', 'item-2'])).toEqual(['item-3']);
    });

    it('names by their system cases that are not of the site', async () => {
      await take(
        caseOf('A', '2024-01-10', [device('drain', drain)], {
          case: { system: 'https://ids.hilltop.example/cases', value: 'A' },
        }),
      );
      await take(
        caseOf('A', '2024-01-11', [device('drain', { ...drain, lot: 'L5' })], {
          case: { system: SYSTEM, value: 'A' },
        }),
      );
      expect(await inside()).toEqual([
        ['https://ids.hilltop.example/cases|A/drain', 'inside'],
        ['A/drain', 'inside'],
      ]);
    });
  });
}
