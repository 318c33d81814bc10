import { describe, expect, it } from 'vitest';
import type { CaseFacts } from '../../src/register/facts.js';
import { fold } from '../../src/register/fold.js';
import type { Decision, Use } from '../../src/register/use.js';
import { caseOf, device, options, SYSTEM } from './facts.js';

const by = (uses: readonly Use[], id: string) => uses.find(use => use.id === id);
const kinds = (use: Use | undefined) => use?.events.map(({ kind }) => kind);
const history = (cases: readonly CaseFacts[], decisions: readonly Decision[] = []) =>
  fold(cases, decisions, options);
const drain = { di: '09506000117843', side: 'left', site: 'Left kidney' } as const;
const carried = (more: object = {}) => ({ ...drain, carried: {}, ...more });
const earlier = (value: string) => ({ system: SYSTEM, value });

describe('placed, exchanged, removed elsewhere', () => {
  const placed = caseOf('A', '2024-01-10', [device('drain', { ...drain, lot: 'L1' })]);
  const exchanged = caseOf('B', '2024-04-02', [
    device('old', carried({ lot: 'L1', out: 1, replacedBy: 'new' })),
    device('new', { ...drain, lot: 'L2' }),
  ]);
  const removed = caseOf('C', '2024-06-30', [device('drain', carried({ lot: 'L2', out: 1 }))], {
    case: { system: 'https://ids.hilltop.example/cases', value: 'C' },
  });

  it('are one history with exact dwell', () => {
    const { uses, unlinked, gaps } = history([placed, exchanged, removed]);
    expect(unlinked).toEqual([]);
    expect(gaps).toEqual([]);
    expect(
      uses.map(({ id, state, placed: from, ended, dwellDays }) => [id, state, from, ended, dwellDays]),
    ).toEqual([
      // 10 January to 2 April 2024 is 83 days, 2 April to 30 June is 89 (from memory of the calendar: 21+29+31+2, 28+31+30).
      ['A/drain', 'removed', '2024-01-10', '2024-04-02', 83],
      ['B/new', 'removed', '2024-04-02', '2024-06-30', 89],
    ]);
    expect(by(uses, 'B/new')?.events.at(-1)).toMatchObject({
      kind: 'removed',
      case: 'https://ids.hilltop.example/cases|C',
      evidence: 'lot',
    });
  });

  it('without the case in the middle have a gap, and nothing is closed', () => {
    const { uses, gaps } = history([placed, removed]);
    expect(by(uses, 'A/drain')).toMatchObject({ state: 'inside', inside: 1 });
    const other = by(uses, 'https://ids.hilltop.example/cases|C/drain');
    expect(other).toMatchObject({ state: 'removed', insertionHeld: false });
    expect(other).not.toHaveProperty('placed');
    expect(gaps).toEqual([
      { person: 'p1', use: 'A/drain', case: 'https://ids.hilltop.example/cases|C', device: 'drain' },
    ]);
  });

  it('come out the same in whatever order they were taken in', () => {
    const all = [placed, exchanged, removed];
    const one = history(all);
    for (const other of [
      [removed, exchanged, placed],
      [exchanged, placed, removed],
      [removed, placed, exchanged, placed],
    ])
      expect(history(other)).toEqual(one);
  });
});

describe('two of one lot, left and right', () => {
  const stent = { di: '09506000117843', lot: 'S7', family: 'stent', kind: 'ureteric stent' } as const;
  const both = caseOf('A', '2024-01-10', [
    device('left', { ...stent, side: 'left' }),
    device('right', { ...stent, side: 'right' }),
  ]);
  const out = (more: object) =>
    caseOf('B', '2024-03-01', [device('stent', { ...stent, carried: {}, out: 1, ...more })]);

  it('left removed: right stays', () => {
    const { uses, unlinked } = history([both, out({ side: 'left' })]);
    expect(unlinked).toEqual([]);
    expect(uses.map(({ id, state }) => [id, state])).toEqual([
      ['A/left', 'removed'],
      ['A/right', 'inside'],
    ]);
  });

  it('no side said: several fit, and nothing is closed', () => {
    const { uses, unlinked } = history([both, out({})]);
    expect(unlinked).toMatchObject([
      { why: 'several fit', candidates: ['A/left', 'A/right'], case: 'B', device: 'stent' },
    ]);
    expect(uses.filter(({ state }) => state === 'inside')).toHaveLength(2);
  });

  it('no side said, beside one of another lot: several fit, and nothing is missing', () => {
    const third = caseOf('A3', '2024-01-11', [device('third', { ...stent, lot: 'S8' })]);
    const { unlinked, gaps } = history([both, third, out({})]);
    expect(unlinked).toMatchObject([{ why: 'several fit' }]);
    expect(gaps).toEqual([]);
  });

  it('a person decides, and takes it back', () => {
    const said = { case: 'B', device: 'stent', by: 'Dr Okonjo', why: 'Seen on the film' };
    const link: Decision = { kind: 'link', use: 'A/right', at: 1, ...said };
    const decided = history([both, out({})], [link]);
    expect(decided.unlinked).toEqual([]);
    expect(by(decided.uses, 'A/right')).toMatchObject({ state: 'removed' });
    expect(by(decided.uses, 'A/right')?.events.at(-1)).toMatchObject({ evidence: 'decided' });
    const undone = history([both, out({})], [{ kind: 'unlink', at: 2, ...said }, link]);
    expect(undone.uses.filter(({ state }) => state === 'inside')).toHaveLength(2);
    expect(by(undone.uses, 'B/stent')).toMatchObject({ state: 'removed', insertionHeld: false });
  });
});

describe('what links a device that was carried in', () => {
  const cases = (before: object, now: object) => [
    caseOf('A', '2024-01-10', [device('drain', { ...drain, ...before })]),
    caseOf('B', '2024-03-01', [device('drain', { ...drain, out: 1, carried: {}, ...now })]),
  ];
  const evidence = (before: object, now: object) => {
    const { uses, unlinked } = history(cases(before, now));
    const [told] = unlinked;
    return told ? [told.why, ...told.against] : by(uses, 'A/drain')?.events.at(-1)?.evidence;
  };

  it.each([
    ['the use that is named', {}, { carried: { use: 'A/drain' }, di: undefined }, 'use'],
    ['the case that is named', {}, { carried: { case: earlier('A') }, di: undefined }, 'case'],
    ['identifier and serial number', { serial: '1' }, { serial: '1' }, 'serial'],
    ['identifier, lot, site and side', { lot: 'L' }, { lot: 'L' }, 'lot'],
    ['kind, site and side alone: proposed', { di: undefined }, { di: undefined }, ['proposed']],
    [
      'another serial number in the case that is named',
      { serial: '1' },
      { serial: '2', carried: { case: earlier('A') } },
      ['contradiction', 'serial'],
    ],
    [
      'another side',
      { lot: 'L' },
      { lot: 'L', side: 'right', site: 'Right kidney' },
      ['contradiction', 'side'],
    ],
    [
      'another day of placing',
      { lot: 'L' },
      { lot: 'L', carried: { date: '2023-12' } },
      ['contradiction', 'dates'],
    ],
    ['the month of placing', { lot: 'L' }, { lot: 'L', carried: { date: '2024-01' } }, 'lot'],
    [
      'another case than the one that is named',
      { lot: 'L' },
      { lot: 'L', carried: { case: earlier('Z') } },
      ['contradiction', 'case'],
    ],
    [
      'a use that is not held',
      { lot: 'L' },
      { lot: 'L', carried: { use: 'Z/drain' } },
      ['contradiction', 'use'],
    ],
    ['more than there were', { lot: 'L' }, { lot: 'L', count: 2, out: 2 }, ['contradiction', 'count']],
  ])('%s', (_what, before, now, expected) => expect(evidence(before, now)).toEqual(expected));

  it('never closes what was placed after it came out', () => {
    const { uses, unlinked } = history([
      caseOf('A', '2024-05-01', [device('drain', { ...drain, lot: 'L' })]),
      caseOf('B', '2024-03-01', [device('drain', { ...drain, lot: 'L', carried: {}, out: 1 })]),
    ]);
    expect(by(uses, 'A/drain')?.state).toBe('inside');
    expect(unlinked).toEqual([]);
  });

  it('is another case of the same number elsewhere, when its system differs', () => {
    const [a, b] = cases(
      {},
      { carried: { case: { system: 'https://ids.hilltop.example/cases', value: 'A' } }, di: undefined },
    );
    if (!a || !b) throw new Error('no cases');
    expect(by(history([a, b]).uses, 'A/drain')?.state).toBe('inside');
  });
});

describe('corrections', () => {
  const placed = caseOf('A', '2024-01-10', [device('drain', { ...drain, lot: 'L' })]);
  const removal = caseOf('B', '2024-03-01', [device('drain', carried({ lot: 'L', out: 1 }))]);

  it('a withdrawn removal leaves it inside, and says so', () => {
    const withdrawn = { ...removal, version: 2, status: 'withdrawn' as const, digest: 'x' };
    const { uses } = history([placed, removal, withdrawn]);
    expect(by(uses, 'A/drain')).toMatchObject({ state: 'inside', inside: 1 });
    expect(kinds(by(uses, 'A/drain'))).toEqual(['inserted', 'withdrawn']);
  });

  it('a withdrawn placing is no use inside', () => {
    const { uses } = history([placed, { ...placed, version: 2, status: 'withdrawn', digest: 'x' }]);
    expect(uses.map(({ state, inside }) => [state, inside])).toEqual([['withdrawn', 0]]);
  });

  it('a removal that a later version no longer tells is reopened', () => {
    const second = caseOf('B', '2024-03-01', [device('drain', carried({ lot: 'L', out: 0 }))], {
      version: 2,
      status: 'amended',
      changed: { date: '2024-03-02', why: 'It was only flushed' },
    });
    const { uses } = history([second, placed, removal]);
    expect(by(uses, 'A/drain')).toMatchObject({ state: 'inside' });
    expect(kinds(by(uses, 'A/drain'))).toEqual(['inserted', 'seen', 'corrected']);
  });

  it('a device that a later version no longer has is withdrawn, and no longer inside', () => {
    const second = caseOf('A', '2024-01-10', [], {
      version: 2,
      status: 'amended',
      changed: { why: 'Not placed' },
    });
    const { uses } = history([placed, second]);
    expect(uses.map(({ id, state, inside }) => [id, state, inside])).toEqual([['A/drain', 'withdrawn', 0]]);
    expect(uses[0]?.events.at(-1)).toMatchObject({ kind: 'corrected', note: 'Not placed', version: 2 });
  });
});

describe('several alike, parts and what nobody finds', () => {
  it('counts what came out of a counted use', () => {
    const coils = { di: '09506000117843', lot: 'C', family: 'anchor', kind: 'anchor' } as const;
    const { uses } = history([
      caseOf('A', '2024-01-10', [device('anchors', { ...coils, count: 4 })]),
      caseOf('B', '2024-02-10', [device('anchors', { ...coils, carried: {}, count: 4, out: 3 })]),
      caseOf('C', '2024-03-10', [device('last', { ...coils, carried: {}, out: 1 })]),
    ]);
    expect(uses).toHaveLength(1);
    expect(uses[0]).toMatchObject({ count: 4, inside: 0, state: 'removed', ended: '2024-03-10' });
    expect(uses[0]?.events.map(({ kind, count }) => [kind, count])).toEqual([
      ['inserted', 4],
      ['seen', undefined],
      ['removed', 3],
      ['removed', undefined],
    ]);
  });

  it('keeps a part that stayed as a use of its own', () => {
    const { uses } = history([
      caseOf('A', '2024-01-10', [
        device('wire', { out: 1, family: 'guidewire' }),
        device('wire', { part: 'tip', family: 'guidewire', purpose: 'unintended', ofUse: true }),
      ]),
    ]);
    expect(uses.map(({ id, state }) => [id, state])).toEqual([
      ['A/wire', 'removed'],
      ['A/wire/tip', 'inside'],
    ]);
    expect(kinds(uses[1])).toEqual(['part left']);
  });

  it('does not call inside what nobody can find, and lets it be found later', () => {
    const lost = caseOf('A', '2024-01-10', [device('sponge', { ...drain, open: 1 })]);
    expect(history([lost]).uses[0]).toMatchObject({ state: 'unknown', inside: 1 });
    const found = caseOf('B', '2024-01-12', [
      device('drain', carried({ carried: { case: earlier('A') }, out: 1 })),
    ]);
    expect(history([lost, found]).uses).toMatchObject([{ state: 'removed', ended: '2024-01-12' }]);
  });
});

describe('what is to be done', () => {
  const plan = (due: string, latest = due) => [{ key: 'k', what: 'Change', by: 'ward', due, latest }];
  const placed = caseOf('A', '2024-01-10', [
    device('drain', { ...drain, lot: 'L', plans: plan('2024-04-01', '2024-04-10') }),
  ]);

  it('is open until it comes out, and exchanged where another took its place', () => {
    expect(history([placed]).uses[0]).toMatchObject({ due: '2024-04-01', latest: '2024-04-10' });
    const exchanged = caseOf('B', '2024-03-01', [
      device('old', carried({ lot: 'L', out: 1, replacedBy: 'new' })),
    ]);
    const [use] = history([placed, exchanged]).uses;
    expect(use).not.toHaveProperty('due');
    expect(use?.plans).toMatchObject([{ closed: { how: 'exchanged', case: 'B', date: '2024-03-01' } }]);
  });

  it('is planned anew by a case that saw it and says so, and stands where that says nothing', () => {
    const seen = (plans: ReturnType<typeof plan> | []) =>
      history([placed, caseOf('B', '2024-03-01', [device('drain', carried({ lot: 'L', plans }))])]).uses[0];
    expect(seen([])).toMatchObject({ due: '2024-04-01' });
    expect(seen(plan('2024-07-01'))).toMatchObject({ due: '2024-07-01', latest: '2024-07-01' });
    expect(seen(plan('2024-07-01'))?.plans.map(({ closed }) => closed?.how)).toEqual([
      'planned anew',
      undefined,
    ]);
  });

  it('ends with the death of the patient, while the device stays inside', () => {
    const death = caseOf('D', '2024-02-01', [], { died: '2024-02-01' });
    const [use] = history([placed, death]).uses;
    expect(use).toMatchObject({ state: 'inside', plans: [{ closed: { how: 'died', case: 'D' } }] });
    expect(use).not.toHaveProperty('due');
  });
});
