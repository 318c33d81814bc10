import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { FindingCode } from '../../../src/findings/catalogue.js';
import { messageOf, remedyOf, stops } from '../../../src/findings/finding.js';
import { languages } from '../../../src/findings/languages.js';
import { fromResponse } from '../../../src/intake/form/from-response.js';
import { MAX_FINDINGS } from '../../../src/intake/form/notes.js';

const options = { version: '0.0.0-test', timeZone: 'Europe/Lisbon' };

type Item = { linkId: string; answer?: unknown; item?: unknown; [name: string]: unknown };
const text = (linkId: string, ...values: string[]): Item => ({
  linkId,
  answer: values.map(valueString => ({ valueString })),
});
const word = (linkId: string, code: string): Item => ({ linkId, answer: [{ valueCoding: { code } }] });
const group = (linkId: string, ...item: Item[]): Item => ({ linkId, item });

const own = group(
  'case',
  ...[text('case.id', 'T-1'), word('case.status', 'completed'), text('case.kind', 'drain removal')],
  { linkId: 'case.date', answer: [{ valueDate: '2024-03-14' }] },
);
const patient = group(
  'patient',
  group(
    'patient.identifiers',
    text('patient.identifiers.system', 'urn:oid:2.16.840.1.113883.19.5'),
    text('patient.identifiers.value', '1'),
  ),
);
const rest = [
  group(
    'team',
    text('team.key', 'op'),
    word('team.role', 'operator'),
    group('team.name', text('team.name.text', 'Dr Ilse Branquinho')),
  ),
  group('indication', text('indication.text', 'Invented')),
  group('report', word('report.status', 'preliminary'), text('report.author', 'op')),
];
const head = {
  resourceType: 'QuestionnaireResponse',
  questionnaire: 'https://casetally.example/fhir/Questionnaire/case-record|0.0.0-test',
  status: 'completed',
  authored: '2024-03-14T10:05:00+00:00',
  author: { display: 'Tomé Arcos' },
};

/** What comes of a response with more items, or with another head. */
function of(items: readonly Item[], other: object = {}) {
  const response = { ...head, ...other, item: [own, patient, ...rest, ...items] };
  return fromResponse(JSON.stringify(response, null, 2), options);
}
/** Codes about the response itself; a small record lacks much that the record's own checks ask for. */
const codes = ({ findings }: { findings: readonly { code: FindingCode }[] }) =>
  findings.map(({ code }) => code).filter(code => code.startsWith('form.'));
const recordOf = ({ record = '' }) => parse(record) as Record<string, unknown>;

describe('a response that is whole', () => {
  const answer = of([
    word('drugs.none', 'none'),
    group(
      'devices',
      text('devices.key', 'drain'),
      text('devices.kind', 'drainage catheter'),
      text('devices.diameter', '5.0 mm'),
    ),
  ]);

  it('becomes a record in the order of the form, digits as they were typed', () => {
    expect(codes(answer)).toEqual([]);
    expect(answer.findings.filter(stops)).toEqual([]);
    expect(answer.record).toMatch(/^casetally: 1\ncase:\n {2}id: T-1\n/);
    expect(recordOf(answer)).toMatchObject({
      ...{ drugs: 'none', team: [{ name: 'Dr Ilse Branquinho' }] },
      devices: { drain: { kind: 'drainage catheter', diameter: '5.0 mm' } },
    });
  });

  it('is a contribution as well, with when and by whom, value by value', () => {
    expect(answer.contribution).toMatchObject({
      ...{ from: 'form', at: '2024-03-14T10:05:00+00:00', by: 'Tomé Arcos' },
      about: { identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '1' }] },
    });
    expect(answer.contribution?.values).toContainEqual({ path: ['drugs'], value: 'none', as: 'set' });
    expect(answer.contribution?.values).toContainEqual({
      ...{ path: ['devices', 'drain', 'diameter'], value: '5.0 mm', as: 'set' },
    });
    expect(answer.contribution?.values).toContainEqual({
      ...{ path: ['team'], as: 'add' },
      value: { key: 'op', role: 'operator', name: 'Dr Ilse Branquinho' },
    });
  });

  it('tells faults of the record at the line of the response', () => {
    const { findings } = of([
      group(
        'devices',
        text('devices.key', 'drain'),
        text('devices.kind', 'x'),
        text('devices.length', 'long'),
      ),
    ]);
    const bad = findings.find(({ code }) => code === 'record.bad-quantity');
    expect(bad).toMatchObject({ path: 'devices.drain.length', line: expect.any(Number) as number });
    expect(bad?.line).toBeGreaterThan(100);
  });

  it('says nothing of groups that were shown and not filled in', () => {
    const empty = [
      group('devices'),
      group('devices', text('devices.lot')),
      group('before', group('before.checklist')),
    ];
    const answered = of([...empty, group('devices', { linkId: 'devices.carried', item: [] })]);
    expect(codes(answered)).toEqual([]);
    expect(Object.keys(recordOf(answered))).not.toContain('devices');
  });
});

describe('what cannot be placed is told and shown', () => {
  const drain = (...items: Item[]) =>
    group('devices', text('devices.key', 'drain'), text('devices.kind', 'drainage catheter'), ...items);
  const wrong: [string, Item[], FindingCode, string][] = [
    ['an unknown link id', [text('case.colour', 'teal-77')], 'form.unknown-item', 'teal-77'],
    ['__proto__ as link id', [text('__proto__', 'teal-77')], 'form.unknown-item', 'teal-77'],
    ['an item outside its group', [text('devices.lot', 'teal-77')], 'form.misplaced', 'teal-77'],
    [
      'items beneath an answer',
      [
        drain({
          linkId: 'devices.lot',
          answer: [{ valueString: '1', item: [text('devices.serial', 'teal-77')] }],
        }),
      ],
      'form.misplaced',
      'teal-77',
    ],
    [
      'the same item twice',
      [text('conclusion', 'first'), text('conclusion', 'teal-77')],
      'form.twice',
      'teal-77',
    ],
    ['two answers where one is asked for', [text('conclusion', 'first', 'teal-77')], 'form.twice', 'teal-77'],
    [
      'a number as answer to a text',
      [drain({ linkId: 'devices.size', answer: [{ valueDecimal: 8.5 }] })],
      'form.wrong-type',
      '8.5',
    ],
    [
      'an answer with two values',
      [{ linkId: 'conclusion', answer: [{ valueString: 'a', valueInteger: 77 }] }],
      'form.wrong-type',
      '77',
    ],
    [
      'an answer that is no object',
      [{ linkId: 'conclusion', answer: ['teal-77'] }],
      'form.wrong-type',
      'teal-77',
    ],
    [
      'an answer to a group',
      [{ linkId: 'devices', answer: [{ valueString: 'teal-77' }] }],
      'form.wrong-type',
      'teal-77',
    ],
    ['a word that is no choice', [drain(word('devices.use', 'teal-77'))], 'form.not-a-choice', 'teal-77'],
    [
      'a code of another system',
      [
        drain({
          linkId: 'devices.use',
          answer: [{ valueCoding: { system: 'http://teal-77', code: 'used' } }],
        }),
      ],
      'form.not-a-choice',
      'teal-77',
    ],
    ['a device without a key', [group('devices', text('devices.lot', 'teal-77'))], 'form.no-key', 'teal-77'],
    [
      'two devices of one key',
      [drain(), group('devices', text('devices.key', 'drain'), text('devices.lot', 'teal-77'))],
      'form.bad-key',
      'teal-77',
    ],
    [
      'a key that is of the language',
      [group('devices', text('devices.key', '__proto__'), text('devices.lot', 'teal-77'))],
      'form.bad-key',
      'teal-77',
    ],
    [
      'none beside a list',
      [word('drugs.none', 'none'), group('drugs', text('drugs.at', '09:00'))],
      'form.contradiction',
      'none',
    ],
    [
      'a name as text and in parts',
      [
        group(
          'team',
          ...[text('team.key', 'n'), word('team.role', 'nurse')],
          group('team.name', text('team.name.text', 'teal-77'), text('team.name.family', 'Arcos')),
        ),
      ],
      'form.contradiction',
      'teal-77',
    ],
    ['something that is no item', ['teal-77' as unknown as Item], 'form.unknown-item', 'teal-77'],
    [
      'an item with a modifier',
      [{ ...text('conclusion', 'teal-77'), modifierExtension: [{ url: 'https://a.example/not' }] }],
      'form.not-understood',
      'teal-77',
    ],
    [
      'a code that has more than the record',
      [
        drain({
          linkId: 'devices.codes',
          answer: [{ valueCoding: { system: 'https://a.example', code: 'x', version: 'teal-77' } }],
        }),
      ],
      'form.part-left-out',
      'teal-77',
    ],
  ];

  it.each(wrong)('%s', (_name, items, code, shown) => {
    const answer = of(items);
    expect(codes(answer)).toEqual([code]);
    const [found] = answer.findings;
    expect(found).toMatchObject({ code, line: expect.any(Number) as number });
    expect(found?.path).toMatch(/^item\[/);
    expect(messageOf(found as never)).toContain(shown);
    expect(answer.leftOut.map(({ content }) => content).join()).toContain(shown);
    // It stands in the record as a comment, and asserts nothing there.
    expect(answer.record).toMatch(new RegExp(`^# item.*${shown}`, 'm'));
    expect(JSON.stringify(recordOf(answer))).not.toContain('77');
  });

  it('keeps the digits of a number that it shows', () => {
    const json = JSON.stringify({
      ...head,
      item: [own, patient, ...rest, drain({ linkId: 'devices.size', answer: [{ valueDecimal: 0.5 }] })],
    });
    const answer = fromResponse(json.replace('"valueDecimal":0.5', '"valueDecimal":8.50'), options);
    expect(answer.leftOut[0]?.content).toBe('{"valueDecimal":8.50}');
  });

  it('of none and a list keeps the list: nothing is denied by mistake', () => {
    const answer = of([word('drugs.none', 'none'), group('drugs', text('drugs.at', '09:00'))]);
    expect(recordOf(answer)['drugs']).toEqual([{ at: '09:00' }]);
  });

  it('cannot be ended as a comment by what is in it', () => {
    const evil = of([text('x', 'a\nconclusion: evil\u2028conclusion: evil\u0085conclusion: evil')]);
    expect(recordOf(evil)).not.toHaveProperty('conclusion');
    expect(evil.record?.split('\n').filter(line => line.startsWith('# item'))).toHaveLength(1);
  });
});

describe('the head of a response', () => {
  it.each([
    [
      'of another form',
      { questionnaire: 'https://other.example/Questionnaire/x' },
      'form.other-questionnaire',
      false,
    ],
    ['entered in error', { status: 'entered-in-error' }, 'form.entered-in-error', false],
    [
      'with a modifier',
      { modifierExtension: [{ url: 'https://a.example/not' }] },
      'form.not-understood',
      false,
    ],
    ['with implicit rules', { implicitRules: 'https://a.example/rules' }, 'form.not-understood', false],
    ['of no form', { questionnaire: undefined }, 'form.no-questionnaire', true],
    ['of another version', { questionnaire: `${head.questionnaire}9` }, 'form.other-version', true],
    ['in progress', { status: 'in-progress' }, 'form.not-completed', true],
    ['without a status', { status: undefined }, 'form.not-completed', true],
    ['without a date', { authored: undefined }, 'form.no-date', true],
  ] as const)('%s', (_name, other, code, read) => {
    const answer = of([], other);
    expect(codes(answer)).toEqual([code]);
    expect(answer.record !== undefined).toBe(read);
  });

  it('only proposes what nobody stands for yet', () => {
    const { contribution, findings } = of([], { status: 'in-progress' });
    expect(findings.some(stops)).toBe(true);
    expect(new Set(contribution?.values.map(({ as }) => as))).toEqual(new Set(['propose', 'propose-entry']));
  });

  it('is held against what was answered', () => {
    const identifier = { system: 'urn:oid:2.16.840.1.113883.19.5', value: '2' };
    expect(codes(of([], { subject: { identifier } }))).toEqual(['form.other-subject']);
    expect(codes(of([], { subject: { identifier: { ...identifier, value: '1' } } }))).toEqual([]);
    // Another numbering system, or a resource of a server, says nothing that can be compared.
    expect(codes(of([], { subject: { identifier: { system: 'urn:oid:1.2.3', value: '2' } } }))).toEqual([]);
    expect(codes(of([], { subject: { reference: 'Patient/2' } }))).toEqual([]);
    const order = group(
      'case.order',
      text('case.order.system', 'urn:oid:1.2.3'),
      text('case.order.value', 'O-1'),
    );
    const withOrder = { ...own, item: [...(own.item as Item[]), order] };
    const basedOn = (value: string) => [{ identifier: { system: 'urn:oid:1.2.3', value } }];
    const ask = (value: string) =>
      fromResponse(
        JSON.stringify({ ...head, basedOn: basedOn(value), item: [withOrder, patient, ...rest] }),
        options,
      );
    expect(codes(ask('O-2'))).toEqual(['form.other-subject']);
    expect(codes(ask('O-1'))).toEqual([]);
  });
});

describe('a hostile response ends in findings', () => {
  it.each([
    ['nothing', '', 'form.not-json'],
    ['XML', '<QuestionnaireResponse xmlns="http://hl7.org/fhir"/>', 'form.not-json'],
    ['a list', '[]', 'form.not-a-response'],
    ['another resource', '{"resourceType":"Bundle"}', 'form.not-a-response'],
    ['half of one', '{"resourceType":"QuestionnaireResponse","item":[', 'form.not-json'],
    [
      'a member twice',
      '{"resourceType":"QuestionnaireResponse","status":"completed","status":"amended"}',
      'form.twice-in-json',
    ],
    [
      'deep nesting',
      `{"resourceType":"QuestionnaireResponse","item":${'[{"item":'.repeat(5_000)}`,
      'form.too-deep',
    ],
    ['more bytes than are read', ' '.repeat(17_000_000), 'form.too-big'],
  ])('%s', (_name, input, code) => {
    const answer = fromResponse(input, options);
    expect(codes(answer)).toEqual([code]);
    expect(answer.record).toBeUndefined();
  });

  it('bytes that are no text', () => {
    expect(fromResponse(Uint8Array.of(0x7b, 0xff), options).findings.map(({ code }) => code)).toEqual([
      'record.not-text',
    ]);
  });

  it('100,000 items', () => {
    const many = of(Array.from({ length: 100_000 }, (_, n) => text(`x${n}`, 'y')));
    expect(codes(many)).toEqual(['form.too-many']);
  });

  it('many unknown items: so many findings and no more, and all of them kept', () => {
    const many = of(Array.from({ length: 20_000 }, (_, n) => text(`x${n}`, 'y')));
    expect(codes(many)).toHaveLength(MAX_FINDINGS + 1);
    expect(many.findings.find(({ code }) => code === 'form.more')?.params).toEqual({
      count: `${20_000 - MAX_FINDINGS}`,
    });
    expect(many.leftOut).toHaveLength(20_000);
    expect(many.record?.length).toBeLessThan(200_000);
  });

  it('one answer of ten million characters', () => {
    const long = of([text('conclusion', 'x'.repeat(10_000_000))]);
    expect(long.findings.some(({ severity }) => severity === 'fatal')).toBe(true);
  });

  it('is told in every language', () => {
    const all = of([text('x', 'y'), text('devices.lot', 'z')], { status: 'stopped', authored: 'soon' });
    for (const language of languages)
      for (const found of all.findings)
        expect(`${messageOf(found, language)} ${remedyOf(found, language)}`).not.toMatch(
          /[{]\w+[}]|undefined/,
        );
  });
});
