import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findingRow, messageOf, remedyOf } from '../../src/findings/finding.js';
import { languages } from '../../src/findings/languages.js';
import type { Contribution, GivenValue, SourceKind, Typed } from '../../src/intake/contribution.js';
import { type Merged, mergeSources } from '../../src/intake/merge.js';
import { writeRecord } from '../../src/intake/write/write.js';
import { readText } from '../../src/record/read.js';
import { runs } from '../support/sampled.js';

const AT = '2024-03-14T08:12:00Z';
const LATER = '2024-03-14T09:30:00Z';

const source = (
  from: SourceKind,
  values: readonly GivenValue[],
  over: Partial<Contribution> = {},
): Contribution => ({ from, at: AT, values, findings: [], ...over });
const set = (path: string, value: Typed, over: Partial<GivenValue> = {}): GivenValue => ({
  path: path.split('.'),
  value,
  as: 'set',
  ...over,
});
const add = (path: string, value: Typed, over: Partial<GivenValue> = {}): GivenValue => ({
  ...set(path, value, over),
  as: 'add',
});

const record = `casetally: 1
case: { id: HB-0193, accession: A-77120, status: completed, date: 2024-03-14, timeZone: Europe/Lisbon, kind: biliary drainage }
patient:
  identifiers: [{ system: "urn:oid:2.16.840.1.113883.19.5", value: "00481516" }]
  name: Vela Quintanar
  birthDate: 1957-08-02
  weight: 68 kg
before:
  labs:
    - { what: INR, value: "1.3", at: 2024-03-13T18:20 }
`;

const codes = (merged: Merged) => merged.findings.map(f => f.code);
const pairs = (merged: Merged) =>
  [...merged.set, ...merged.add].map(claim => [claim.path.join('.'), claim.value]);
const mergeInto = (text: string, ...contributions: readonly Contribution[]) =>
  mergeSources(text, contributions);
const written = (text: string, ...contributions: readonly Contribution[]): string => {
  const out = writeRecord(text, mergeSources(text, contributions));
  if (out.text === undefined) throw new Error(JSON.stringify(out.findings));
  return out.text;
};
const said = (merged: Merged) => merged.findings.map(f => messageOf(f));

describe('what a person typed', () => {
  it('stays, and the other value is told with where it came from', () => {
    const merged = mergeInto(record, source('order', [set('patient.weight', '82 kg')], { by: '4711' }));
    expect(pairs(merged)).toEqual([]);
    expect(said(merged)).toEqual([
      'patient.weight differs: 68 kg (typed), 82 kg (order 4711). It was left as it is.',
    ]);
    expect(merged.findings[0]).toMatchObject({ severity: 'error', path: 'patient.weight', line: 7 });
  });

  it.each([
    ['patient.weight', '68.0 kg'],
    ['patient.weight', '68000 g'],
    ['patient.name', 'QUINTANAR, Vela'],
    ['patient.name', { family: 'Quintanar', given: ['Vela'] }],
    ['case.kind', 'Biliary  drainage'],
  ])('%s: the same value written otherwise is no disagreement', (path, value) => {
    const merged = mergeInto(record, source('order', [set(path, value)]));
    expect([pairs(merged), codes(merged)]).toEqual([[], []]);
  });

  it.each([
    ['case.id', 'HB-193'],
    ['case.id', 'hb-0193'],
    ['patient.weight', '68 g'],
    ['patient.weight', '6.8 kg'],
    ['patient.birthDate', '1957-02-08'],
    ['patient.name', 'Vela Quintana'],
  ])('%s: %j is another value', (path, value) => {
    expect(codes(mergeInto(record, source('form', [set(path, value)])))).toEqual(['intake.disagrees']);
  });

  it('none that was typed is not added to, and a list is not called none', () => {
    const text = `${record}  allergies: none\n`;
    const penicillin = add('before.allergies', { to: 'penicillin', severity: 'severe' });
    expect(said(mergeInto(text, source('order', [penicillin])))[0]).toContain('none (typed)');
    expect(pairs(mergeInto(text, source('order', [penicillin])))).toEqual([]);
    expect(codes(mergeInto(record, source('form', [set('before.labs', 'none')])))).toEqual([
      'intake.disagrees',
    ]);
    const radiation = `${record}radiation: none\n`;
    expect(codes(mergeInto(radiation, source('dose report', [set('radiation.frames', '46')])))).toEqual([
      'intake.disagrees',
    ]);
  });

  it('counts as typed where its line of sources cannot be read', () => {
    const text = `${record}sources: [{ path: patient.weight, from: rumour, at: ${AT} }]\n`;
    const merged = mergeInto(text, source('order', [set('patient.weight', '82 kg')], { at: LATER }));
    expect(pairs(merged)).toEqual([]);
    expect(said(merged)[0]).toContain('68 kg (typed)');
  });
});

describe('a value from a source', () => {
  const sourced = `${record}sources:\n  - { path: patient.weight, from: order, at: ${AT}, by: "4711" }\n`;
  const order = (weight: string, at: string, by = '4711') =>
    source('order', [set('patient.weight', weight)], { at, by });

  it('is renewed by a later word of the same source, and that is told', () => {
    const merged = mergeInto(sourced, order('70 kg', LATER));
    expect(pairs(merged)).toEqual([['patient.weight', '70 kg']]);
    expect(said(merged)).toEqual(['patient.weight was renewed from order 4711: 68 kg became 70 kg.']);
    expect(written(sourced, order('70 kg', LATER))).toBe(
      sourced.replace('68 kg', '70 kg').replace(AT, `"${LATER}"`).replace(`"${LATER}"`, LATER),
    );
  });

  it('is not renewed by an earlier word, by another source, or by two that differ', () => {
    expect(mergeInto(sourced, order('66 kg', '2024-03-14T07:00:00Z'))).toMatchObject({
      set: [],
      findings: [],
    });
    expect(codes(mergeInto(sourced, order('70 kg', AT)))).toEqual(['intake.disagrees']);
    expect(codes(mergeInto(sourced, order('70 kg', LATER, '4712')))).toEqual(['intake.disagrees']);
    const both = mergeInto(sourced, order('70 kg', LATER), source('form', [set('patient.weight', '71 kg')]));
    expect([pairs(both), codes(both)]).toEqual([[], ['intake.disagrees']]);
  });

  it('keeps its digits and its line where a later word says the same', () => {
    expect(written(sourced, order('68.0 kg', LATER))).toBe(sourced);
  });

  it('that two sources give alike is one value, of the first by rank, with its digits', () => {
    const [form, dose] = [
      source('form', [set('radiation.fluoroscopyTime', '330 s')]),
      source('dose report', [set('radiation.fluoroscopyTime', '5.50 min')], { by: 'a.dcm' }),
    ];
    const merged = mergeInto(record, form, dose);
    expect(pairs(merged)).toEqual([['radiation.fluoroscopyTime', '5.50 min']]);
    expect(merged.sources).toEqual([
      { path: ['radiation', 'fluoroscopyTime'], from: 'dose report', at: AT, by: 'a.dcm' },
    ]);
  });

  it('that two sources give differently stays open, both as remarks', () => {
    const merged = mergeInto(
      record,
      source('form', [set('patient.height', '1.62 m')]),
      source('order', [set('patient.height', '1.26 m')]),
    );
    expect(pairs(merged)).toEqual([]);
    expect(codes(merged)).toEqual(['intake.disagrees']);
    const text = writeRecord(record, merged).text ?? '';
    expect(text).toContain('  # from the order, patient.height: 1.26 m\n');
    expect(text).toContain('  # from the form, patient.height: 1.62 m\n');
    expect(readText(text).tree).toEqual(readText(record).tree);
  });
});

describe('lists', () => {
  const inr = (value: string, over: object = {}) =>
    add('before.labs', { what: 'INR', value, at: '2024-03-13T18:20', ...over });
  it('get no entry twice, whoever says it and however it is written', () => {
    const same = add('before.labs', { what: 'inr', value: '1.30', at: '2024-03-13T18:20:00Z' });
    expect(pairs(mergeInto(record, source('order', [same]), source('form', [inr('1.3')])))).toEqual([]);
    const two = mergeInto(
      record,
      source('order', [add('before.labs', { what: 'platelets', value: '180 10^9/L', at: '2024-03-13' })]),
      source('form', [add('before.labs', { what: 'Platelets', value: '180 10^9/L', at: '2024-03-13' })]),
    );
    expect(two.add).toHaveLength(1);
    expect(two.sources).toEqual([{ path: ['before', 'labs', 1], from: 'order', at: AT }]);
  });
  it('get no entry that another one contradicts', () => {
    const merged = mergeInto(record, source('order', [inr('2.9')]));
    expect([merged.add, codes(merged)]).toEqual([[], ['intake.disagrees']]);
    const both = mergeInto(
      record,
      source('order', [add('before.allergies', { to: 'latex', severity: 'mild' })]),
      source('form', [add('before.allergies', { to: 'Latex', severity: 'severe' })]),
    );
    expect([both.add, codes(both), both.proposals.length]).toEqual([[], ['intake.disagrees'], 2]);
  });
  it('none from one source and an entry from another are left to a person', () => {
    const merged = mergeInto(
      record,
      source('order', [set('before.allergies', 'none')]),
      source('form', [add('before.allergies', { to: 'latex' })]),
    );
    expect([pairs(merged), codes(merged)]).toEqual([[], ['intake.disagrees']]);
  });
});

describe('what is too old', () => {
  const lab = (at: string) =>
    source('order', [add('before.labs', { what: 'platelets', value: '180 10^9/L', at })]);
  it('is proposed and not taken: by the limit of the site, else by ours', () => {
    expect(mergeInto(record, lab('2024-02-14')).add).toHaveLength(1);
    const old = mergeInto(record, lab('2024-02-12'));
    expect([old.add, codes(old), old.proposals.length]).toEqual([[], ['intake.too-old'], 1]);
    const strict = mergeSources(record, [lab('2024-03-12')], { olderThan: { labs: '24 hours' } });
    expect(strict.add).toEqual([]);
    const off = mergeSources(record, [lab('1999-01-01')], { olderThan: { labs: 'off' } });
    expect(off.add).toHaveLength(1);
  });
  it('an answer about pregnancy from last week is not taken', () => {
    const merged = mergeInto(record, source('form', [set('patient.pregnant', 'no', { at: '2024-03-07' })]));
    expect([pairs(merged), codes(merged)]).toEqual([[], ['intake.too-old']]);
    expect(writeRecord(record, merged).text).toContain(
      '# from the form of 2024-03-07, patient.pregnant: no\n',
    );
  });
});

describe('another patient or another case', () => {
  const about = (facts: Contribution['about']) =>
    source('dose report', [set('radiation.frames', '46')], { by: 'a.dcm', ...(facts && { about: facts }) });
  const mrn = 'urn:oid:2.16.840.1.113883.19.5';
  it.each([
    ['a number of the same system', { identifiers: [{ system: mrn, value: '00481517' }] }, '00481517'],
    ['a birth date', { birthDate: '1957-08-20', name: 'Vela Quintanar' }, '1957-08-20'],
    ['a name', { name: 'Oriel Sandes' }, 'Oriel Sandes'],
    ['an accession number', { accession: 'A-77121', name: 'Vela Quintanar' }, 'A-77121'],
  ])('%s: held back whole, both sides shown', (_, facts, theirs) => {
    const merged = mergeInto(record, about(facts), source('form', [set('patient.height', '1.62 m')]));
    expect(pairs(merged)).toEqual([['patient.height', '1.62 m']]);
    expect(merged.held).toEqual([{ from: 'dose report', at: AT, by: 'a.dcm' }]);
    const [found] = merged.findings;
    expect(found?.code).toBe('intake.other-patient');
    expect(said(merged)[0]).toContain(theirs);
    for (const language of languages) expect(found && remedyOf(found, language)).not.toMatch(/[{}]/);
  });
  it.each([
    ['a name in another order and case', { name: 'QUINTANAR^VELA' }],
    ['a name with one letter off', { name: 'Vela Quintana' }],
    ['the year of birth alone', { birthDate: '1957', name: 'Vela Quintanar' }],
    [
      'another name under the same number',
      { identifiers: [{ system: mrn, value: '00481516' }], name: 'Vela Marsh' },
    ],
    [
      'a number of another system',
      { identifiers: [{ system: 'urn:x:1', value: '9' }], name: 'Vela Quintanar' },
    ],
    ['the number without its system', { identifiers: [{ value: '00481516' }] }],
  ])('%s: taken', (_, facts) => {
    const merged = mergeInto(record, about(facts));
    expect([pairs(merged).length, codes(merged)]).toEqual([1, []]);
  });
  it('what cannot be compared is taken and told', () => {
    const merged = mergeInto(record, about({ identifiers: [{ value: '777' }] }));
    expect([pairs(merged).length, codes(merged)]).toEqual([1, ['intake.patient-unconfirmed']]);
  });
  it('in a new record the order says who it is; two orders that differ say nothing', () => {
    const bare = 'casetally: 1\n';
    const order = source('order', [set('patient.name', 'Vela Quintanar')], {
      about: { birthDate: '1957-08-02' },
      by: '1',
    });
    const merged = mergeInto(bare, about({ birthDate: '1961-01-01' }), order);
    expect(merged.held.map(({ from }) => from)).toEqual(['dose report']);
    const other = { ...order, by: '2', about: { birthDate: '1961-01-01' } };
    expect(mergeInto(bare, order, other)).toMatchObject({ set: [], held: [{ by: '1' }, { by: '2' }] });
  });
});

describe('devices of kits', () => {
  const drain = { kind: 'drainage catheter', size: '8 Fr', maker: 'Makebelieve Catheters' };
  const kit = (by: string, device: Typed = drain) => source('kit', [set('devices.drain', device)], { by });
  it('come in whole, with one line of sources', () => {
    const merged = mergeInto(record, kit('A'));
    expect(merged.sources).toEqual([{ path: ['devices', 'drain'], from: 'kit', at: AT, by: 'A' }]);
    expect(written(record, kit('A'))).toContain(
      'devices:\n  drain: { kind: drainage catheter, size: 8 Fr, maker: Makebelieve Catheters }\n',
    );
  });
  it('fill nothing into an entry that a person typed', () => {
    const text = `${record}devices:\n  drain: { kind: drainage catheter }\n`;
    expect(mergeInto(text, kit('A'))).toMatchObject({ set: [], sources: [] });
    expect(codes(mergeInto(text, kit('A')))).toEqual(['intake.entry-there']);
  });
  it('of two kits under one key are two things', () => {
    expect(codes(mergeInto(record, kit('B'), kit('A')))).toEqual(['intake.key-twice']);
    expect(codes(mergeInto(written(record, kit('A')), kit('B')))).toEqual(['intake.key-twice']);
    expect(codes(mergeInto(written(record, kit('A')), kit('A')))).toEqual([]);
  });
  it('that a person has put right stay so when the kit is brought in again', () => {
    const text = written(record, kit('A')).replace('8 Fr', '10 Fr');
    const merged = mergeInto(text, { ...kit('A'), at: LATER });
    expect([pairs(merged), codes(merged)]).toEqual([[], ['intake.disagrees']]);
  });
  it('take the lot from a scan, and no size that the scan contradicts', () => {
    const scan = source('scan', [set('devices.drain.lot', '1234AB'), set('devices.drain.size', '10 Fr')]);
    const merged = mergeInto(record, kit('A'), scan);
    expect(codes(merged)).toEqual(['intake.disagrees']);
    const again = mergeInto(written(record, kit('A'), scan), kit('A'), scan);
    expect([pairs(again), codes(again)]).toEqual([[], ['intake.disagrees']]);
    expect(pairs(merged)).toContainEqual(['devices.drain.lot', '1234AB']);
    expect(pairs(merged).map(([path]) => path)).not.toContain('devices.drain.size');
    expect(merged.sources.map(({ path, from }) => [path.join('.'), from])).toEqual([
      ['devices.drain', 'kit'],
      ['devices.drain.lot', 'scan'],
    ]);
  });
});

describe('hostile sources', () => {
  it.each([
    ['__proto__'],
    ['devices.__proto__.kind'],
    ['devices.constructor'],
    ['constructor.prototype.polluted'],
    ['sources'],
    ['case.kinds'],
    ['devices.1 2'],
    ['before.labs.0.value'],
    [''],
    ['casetally.x'],
    ['patient.name.family'],
    [Array(3000).fill('a').join('.')],
  ])('%j is no field', path => {
    const merged = mergeInto(record, source('form', [set(path, 'x')]));
    expect([pairs(merged), codes(merged)]).toEqual([[], ['intake.not-a-field']]);
    expect(said(merged)[0]?.length).toBeLessThan(250);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
  it.each([
    ['empty', ' '],
    ['control characters', 'a\u0000b'],
    ['half a pair', '\ud800'],
    ['too long', 'x'.repeat(60_000)],
    ['one endless word', 'x'.repeat(1_001)],
    ['a forbidden key', JSON.parse('{"__proto__":{"a":"b"}}') as Typed],
    ['nothing in it', {}],
    ['too deep', Array.from({ length: 60 }).reduce<Typed>(inner => [inner], 'x')],
  ])('%s is no value', (_, value) => {
    const merged = mergeInto(record, source('form', [set('indication.text', value)]));
    expect(pairs(merged)).toEqual([]);
    expect(codes(merged).every(code => /^intake\.not-a-(?:value|field)$/.test(code))).toBe(true);
    expect(codes(merged).length).toBe(1);
  });
  it('a source without a time that a record can hold is not taken', () => {
    for (const at of [
      '',
      'yesterday',
      '2024-03-14',
      '2024-03-14T08:12',
      '2024-02-30T08:12:00Z',
      `x${'1'.repeat(999)}`,
    ]) {
      const merged = mergeInto(record, source('form', [set('patient.height', '1.62 m')], { at }));
      expect([pairs(merged), codes(merged)]).toEqual([[], ['intake.not-a-value']]);
    }
    const exact = source('form', [set('patient.height', '1.62 m')], { at: '2024-03-14T08:12:00.250+01:00' });
    expect(written(record, exact)).toContain('at: 2024-03-14T08:12:00+01:00');
  });
  it('a name of a source cannot break out of its remark', () => {
    const text = written(
      record,
      source('kit', [{ ...set('sedation', { kind: 'none"\n x: y' }), as: 'propose' }], {
        by: 'A\nradiation: none\u2028x: y',
      }),
    );
    expect(readText(text).tree).toEqual(readText(record).tree);
  });
  it('a text that is no record takes nothing and says why', () => {
    for (const text of ['', '[', 'just text', '{"resourceType":"Patient"}', '\u0000']) {
      const merged = mergeInto(text, source('form', [set('case.kind', 'x')]));
      expect(pairs(merged)).toEqual([]);
      expect(merged.findings.length).toBeGreaterThan(0);
    }
  });
});

/** Few places and few values, so that sources meet. */
const given: fc.Arbitrary<GivenValue> = fc.oneof(
  fc.record({
    path: fc.constantFrom(
      ['patient', 'weight'],
      ['patient', 'height'],
      ['case', 'kind'],
      ['radiation', 'frames'],
      ['devices', 'wire', 'length'],
      ['devices', 'wire', 'lot'],
    ),
    value: fc.constantFrom('68 kg', '68.0 kg', '46', '1.62 m', '162 cm', 'x', 'none'),
    as: fc.constantFrom('set', 'propose'),
    at: fc.constantFrom('2024-03-13', '2023-01-01'),
  }),
  fc.record({
    path: fc.constantFrom(['radiation'], ['before', 'allergies'], ['patient']),
    value: fc.constantFrom<Typed>('none', { frames: '46' }, { weight: '70 kg', height: '1.62 m' }),
    as: fc.constant('set' as const),
  }),
  fc.record({
    path: fc.constantFrom(['before', 'labs'], ['before', 'allergies'], ['drugs']),
    value: fc.constantFrom<Typed>(
      { what: 'INR', value: '1.3', at: '2024-03-13T18:20' },
      { what: 'INR', value: '1.30', at: '2024-03-13T18:20' },
      { what: 'INR', value: '2.9', at: '2024-03-13T18:20' },
      { to: 'latex' },
      { to: 'Latex', severity: 'mild' },
      { to: 'latex', severity: 'severe' },
    ),
    as: fc.constantFrom('add', 'propose-entry'),
  }),
  fc.record({
    path: fc.constantFrom(['devices', 'wire'], ['devices', 'drain']),
    value: fc.constantFrom<Typed>(
      { kind: 'guidewire', length: '145 cm' },
      { kind: 'guidewire', length: '1450 mm' },
      { kind: 'drainage catheter' },
    ),
    as: fc.constant('set' as const),
  }),
  // Anything at all.
  fc.record({
    path: fc.array(fc.constantFrom('devices', 'wire', '__proto__', 'case', 'kind', 'toString', ''), {
      maxLength: 4,
    }),
    value: fc.oneof(
      fc.string(),
      fc.dictionary(fc.string({ maxLength: 5 }), fc.string(), { maxKeys: 3 }),
      fc.boolean(),
    ),
    as: fc.constantFrom('set', 'add', 'propose', 'propose-entry'),
  }),
);
const contribution: fc.Arbitrary<Contribution> = fc.record({
  from: fc.constantFrom<SourceKind>('order', 'kit', 'dose report', 'form', 'scan', 'line'),
  at: fc.constantFrom(AT, LATER),
  by: fc.constantFrom('A', 'B'),
  values: fc.array(given, { maxLength: 4 }),
  findings: fc.constant([]),
  about: fc.constantFrom(
    {},
    { name: 'Vela Quintanar' },
    { birthDate: '1957-08-02' },
    { name: 'Oriel Sandes' },
  ),
});
const several = fc.array(contribution, { minLength: 1, maxLength: 5 });
const base = fc.constantFrom(
  record,
  'casetally: 1\n',
  `${record}radiation: none\ndevices:\n  wire: { kind: guidewire, length: 145 cm }\n`,
  `${record}devices:\n  wire: { kind: guidewire, length: 145 cm }\nsources:\n  - { path: devices.wire, from: kit, at: 2024-03-14T08:00:00Z, by: A }\n  - { path: patient.weight, from: order, at: 2024-03-14T08:00:00Z, by: A }\n`,
);
const rows = (merged: Merged) => merged.findings.map(findingRow);

/** Places at which the one data has something that the other has not, or not so. */
function lost(before: unknown, after: unknown, at = ''): string[] {
  if (typeof before !== 'object' || before === null) return before === after ? [] : [at];
  if (typeof after !== 'object' || after === null) return [at];
  return Object.entries(before).flatMap(([name, value]) =>
    lost(value, (after as Record<string, unknown>)[name], `${at}/${name}`),
  );
}

describe('whatever sources give', () => {
  it('the order in which they come makes no difference', () => {
    fc.assert(
      fc.property(
        base,
        several.chain(list =>
          fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
        ),
        (text, [list, shuffled]) => {
          const [one, other] = [mergeSources(text, list), mergeSources(text, shuffled)];
          expect(rows(other)).toEqual(rows(one));
          expect(writeRecord(text, other)).toEqual(writeRecord(text, one));
        },
      ),
      { numRuns: runs(120) },
    );
  });

  it('it can be written, and brought in again it changes nothing', () => {
    fc.assert(
      fc.property(base, several, (text, list) => {
        const once = writeRecord(text, mergeSources(text, list));
        expect(once.findings).toEqual([]);
        const again = writeRecord(once.text ?? '', mergeSources(once.text, list));
        expect(again).toEqual(once);
      }),
      { numRuns: runs(120) },
    );
  });

  it('nothing that a person typed is changed', () => {
    fc.assert(
      fc.property(base, several, (text, list) => {
        const before = readText(text).tree as Record<string, unknown>;
        const after = readText(writeRecord(text, mergeSources(text, list)).text ?? '').tree as Record<
          string,
          unknown
        >;
        // `sources` grows, and the weight that an order gave may be renewed by it.
        const { sources, ...typed } = before;
        if (sources !== undefined) delete (typed['patient'] as Record<string, unknown>)['weight'];
        expect(lost(typed, after)).toEqual([]);
      }),
      { numRuns: runs(120) },
    );
  });

  it('of sources that do not contradict each other, one after the other gives the same values as all at once', () => {
    fc.assert(
      fc.property(base, several, (text, list) => {
        const all = mergeSources(text, list);
        fc.pre(!all.findings.some(f => f.severity === 'error'));
        const atOnce = readText(writeRecord(text, all).text ?? '').tree as Record<string, unknown>;
        const inTurn = list.reduce<string>(
          (here, one) => writeRecord(here, mergeSources(here, [one])).text ?? '',
          text,
        );
        const values = ({ sources: _, ...rest }: Record<string, unknown>) => Object.keys(rest).sort();
        expect(values(readText(inTurn).tree as Record<string, unknown>)).toEqual(values(atOnce));
      }),
      { numRuns: runs(80) },
    );
  });
});
