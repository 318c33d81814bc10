import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findingRow, messageOf } from '../../src/findings/finding.js';
import { parseCase, parseCaseData } from '../../src/record/parse.js';
import { pathSegments, pathText } from '../../src/record/path.js';
import { MAX_BYTES, MAX_VALUES } from '../../src/record/read.js';
import { columnOf, lineOf, SMALL, small } from './small.js';

const gastrostomy = readFileSync(new URL('../../examples/gastrostomy.json', import.meta.url), 'utf8');
const codes = (text: string | Uint8Array) => parseCase(text).findings.map(f => f.code);
const bytes = (text: string, encoding: BufferEncoding) => new Uint8Array(Buffer.from(text, encoding));

describe('text that is read', () => {
  it.each([
    ['as it is', SMALL],
    ['with CRLF', SMALL.replaceAll('\n', '\r\n')],
    ['with a byte order mark', `\uFEFF${SMALL}`],
    ['with blank lines and comments', `# first\n\n${SMALL}\n\n# last\n`],
    ['with a document start', `---\n${SMALL}`],
  ])('%s', (_, text) => {
    expect(parseCase(text).findings).toEqual([]);
    expect(parseCase(bytes(text, 'utf8'))).toMatchObject({ record: parseCase(SMALL).record });
  });

  it.each([
    ['indented with tabs', JSON.stringify(JSON.parse(gastrostomy), null, '\t')],
    ['on one line', JSON.stringify(JSON.parse(gastrostomy))],
    [
      'with escapes for all but ASCII',
      gastrostomy.replace(/[\u0080-\uffff]/g, c => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`),
    ],
    ['with escaped slashes', gastrostomy.replaceAll('/', '\\/')],
    ['with CRLF', gastrostomy.replaceAll('\n', '\r\n')],
  ])('JSON %s', (_, text) => {
    expect(parseCase(text).record).toEqual(parseCase(gastrostomy).record);
    expect(parseCase(text).findings).toEqual([]);
  });

  it('keeps digits of bare numbers as written', () => {
    const { record } = parseCase(
      small(
        'outcome: { overall: successful }',
        'outcome: { overall: successful, measurements: [{ what: gap, value: 5.00 }, { what: n, value: 123456789012345678901 }, { what: small, value: 0.700 }] }',
      ),
    );
    expect(record?.outcome?.measurements?.map(m => m.value)).toEqual([
      '5.00',
      '123456789012345678901',
      '0.700',
    ]);
  });

  it('keeps the blank at the end of a scanned label, and its separators', () => {
    const { record } = parseCase(small('length: 80 cm', String.raw`length: 80 cm, label: "+A999X1\x1DA "`));
    expect(record?.devices?.['wire']?.label).toBe('+A999X1\x1DA ');
  });

  it('says where a value stands', () => {
    const { locate } = parseCase(SMALL);
    expect(locate('events[1].over')).toEqual({
      line: lineOf(SMALL, 'over: wire'),
      column: columnOf(SMALL, 'over: wire'),
    });
    expect(locate('events[1].nothing.there')?.line).toBe(lineOf(SMALL, 'over: wire'));
    expect(locate('nowhere')).toEqual({ line: 1, column: 1 });
  });
});

describe('text that cannot be read', () => {
  it.each([
    ['nothing', '', 'record.not-a-case', 1],
    ['only a comment', '# case\n', 'record.not-a-case', 1],
    ['a list', '- casetally: 1\n', 'record.not-a-case', 1],
    ['bare text', 'casetally', 'record.not-a-case', 1],
    ['a site configuration', 'casetallySite: 1\naftercare: {}\n', 'record.not-a-case', 1],
    ['a FHIR resource', '{"resourceType":"Patient","patient":1}', 'record.not-a-case', 1],
    ['another kind of file', 'services:\n  web: 1\n', 'record.not-a-case', 1],
    [
      'a quote that is not closed',
      small('kind: drain removal', 'kind: "drain removal'),
      'record.not-yaml',
      undefined,
    ],
    ['a brace that is not closed', small('weight: 68 kg', 'extra: { a: 1'), 'record.not-yaml', undefined],
    ['a tab', small('  status: completed', '\tstatus: completed'), 'record.not-yaml', 4],
    ['a colon in a text', small('id: T-1', 'id: T-1: first'), 'record.not-yaml', 3],
    ['two documents', `${SMALL}---\n${SMALL}`, 'record.not-yaml', SMALL.split('\n').length],
    ['a bad indent', small('  id: T-1', '   id: T-1'), 'record.not-yaml', 4],
    ['a doubled key', small('sex: female', 'sex: female\n  sex: male'), 'record.duplicate-key', 13],
    ['a doubled key in JSON', '{"casetally": 1,\n"case": {"id": 1,\n"id": 2}}', 'record.duplicate-key', 3],
    ['an anchor', small('text: Invented', 'text: &a Invented'), 'record.alias', 17],
    ['an alias', small('text: Invented', 'text: *a'), 'record.alias', 17],
    ['a merge', small('text: Invented', 'text: Invented\n  <<: { question: x }'), 'record.alias', 18],
    ['a tag', small('text: Invented', 'text: !!js/function "x"'), 'record.alias', 17],
    ['a private tag', small('text: Invented', 'text: !x Invented'), 'record.alias', 17],
    ['a key that is a list', small('text: Invented', '? [a, b]\n  : c\n  text: x'), 'record.alias', 17],
    ['__proto__ in YAML', small('sex: female', '__proto__: { admin: true }'), 'record.forbidden-key', 12],
    ['__proto__ in JSON', '{"casetally": 1,\n "__proto__": {"admin": true}}', 'record.forbidden-key', 2],
    ['constructor', small('sex: female', 'constructor: x'), 'record.forbidden-key', 12],
    ['a zero character', small('Invented Operator', 'Inv\u0000ented'), 'record.control-character', 15],
    [
      'an escape sequence for terminals',
      small('Invented Operator', 'Inv\u001b[31mented'),
      'record.control-character',
      15,
    ],
  ])('%s', (_, text, code, line) => {
    const parsed = parseCase(text);
    expect(parsed.unreadable).toBe(true);
    expect(parsed.record ?? parsed.partial).toBeUndefined();
    const [first, ...rest] = parsed.findings;
    expect(rest).toEqual([]);
    expect(first).toMatchObject({
      code,
      severity: 'fatal',
      line: line ?? expect.any(Number),
      column: expect.any(Number),
    });
  });

  it('leaves the prototype of every object alone', () => {
    parseCase(
      '{"casetally": 1, "__proto__": {"polluted": 1}, "case": {"constructor": {"prototype": {"polluted": 1}}}}',
    );
    expect({}).not.toHaveProperty('polluted');
  });

  it('names the byte and the line where the text stops being UTF-8', () => {
    const text = small('Invented Operator', 'Köln');
    const [found] = parseCase(bytes(text, 'latin1')).findings.map(findingRow);
    const byte = Buffer.byteLength(text.slice(0, text.indexOf('ö'))) + 1;
    expect(found).toMatchObject({
      code: 'record.not-text',
      line: 15,
      message: expect.stringContaining(`byte ${byte} `),
    });
  });

  it('names the last byte when a character is cut in two', () => {
    const cut = bytes('case: é', 'utf8').slice(0, -1);
    expect(parseCase(cut).findings.map(f => messageOf(f))[0]).toContain(`byte ${cut.length} `);
  });

  it.each([2, 3, 4, 5])('%i bytes that are half of something are no exception', length => {
    for (const start of [0xc3, 0xe2, 0xef, 0xf0, 0xff])
      expect(
        codes(new Uint8Array(Array.from({ length }, (_, i) => (i === 0 ? start : 0x82)))).length,
      ).toBeGreaterThan(0);
  });

  it('stops at a truncated file with line and column, wherever it is cut', () => {
    const text = readFileSync(
      new URL('../../examples/biliary-drainage-and-stent.yaml', import.meta.url),
      'utf8',
    );
    let cutInside = 0;
    for (let end = 100; end < text.length - 1; end += 97) {
      const { record, findings } = parseCase(text.slice(0, end));
      expect(record, `cut at ${end}`).toBeUndefined();
      expect(findings.length).toBeGreaterThan(0);
      for (const f of findings)
        expect([f.code, typeof f.line, typeof f.column]).toEqual([f.code, 'number', 'number']);
      if (findings.some(f => f.code === 'record.not-yaml')) cutInside++;
    }
    expect(cutInside).toBeGreaterThan(20);
  });
});

describe('bounds', () => {
  /** Refused with this finding alone; a reader whose work grew faster than the file would never end. */
  const refused = (text: string, code: string) => {
    const parsed = parseCase(text);
    expect(parsed.findings.map(f => f.code)).toEqual([code]);
    expect(parsed.unreadable).toBe(true);
  };

  it('takes as many values as there may be', () => {
    const { findings } = parseCase(
      `${SMALL}events:\n${'  - { at: "09:00", do: note }\n'.repeat(MAX_VALUES / 2 - 200)}`,
    );
    expect(findings.map(f => f.code)).not.toContain('record.too-many');
  });

  it('takes a file of the largest size and refuses one byte more', () => {
    const pad = MAX_BYTES - Buffer.byteLength(SMALL) - 2;
    expect(parseCase(`${SMALL}# ${'x'.repeat(pad)}`).record).toBeDefined();
    refused(`${SMALL}# ${'x'.repeat(pad + 1)}`, 'record.too-big');
  });

  it('refuses 5 MB at once', () => refused(`${SMALL}# ${'x'.repeat(5_000_000)}`, 'record.too-big'));

  it.each([
    ['brackets', '['.repeat(100_000)],
    ['braces', '{a: '.repeat(50_000)],
    ['indents', Array.from({ length: 350 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
    ['deeper indents', Array.from({ length: 1200 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
    ['dashes', '- '.repeat(60_000)],
    ['question marks', '? '.repeat(60_000)],
    ['colons', ': '.repeat(60_000)],
    ['closed JSON', `{"casetally": ${'['.repeat(60)}1${']'.repeat(60)}}`],
  ])('refuses deep nesting by %s', (_, text) => refused(text, 'record.too-deep'));

  it('takes nesting down to the limit', () => {
    const nested = `${'['.repeat(25)}1${']'.repeat(25)}`;
    expect(codes(small('text: Invented', `text: ${nested}`))).toContain('record.wrong-type');
  });

  it('does not blow up on an alias bomb', () => {
    const bomb = [
      'a0: &a0 [x, x]',
      ...Array.from({ length: 30 }, (_, i) => `a${i + 1}: &a${i + 1} [*a${i}, *a${i}]`),
    ];
    const parsed = parseCase(`casetally: 1\n${bomb.join('\n')}`);
    expect(parsed.unreadable).toBe(true);
    expect(new Set(parsed.findings.map(f => f.code))).toEqual(new Set(['record.alias']));
  });

  it('refuses more values than any case has', () => {
    refused(Array.from({ length: 80_000 }, (_, i) => `k${i}: 1`).join('\n'), 'record.too-many');
    refused(`casetally: 1\nevents:\n${'  - { at: 1 }\n'.repeat(MAX_VALUES / 2)}`, 'record.too-many');
  });

  it.each([
    ['one name again and again', 'a:\n'.repeat(340_000)],
    ['a list in brackets', `x: [${'a,'.repeat(500_000)}a]`],
    ['a group in braces', `x: {${'a: 1,'.repeat(200_000)}}`],
    ['a list of lines', `x:\n${' - a\n'.repeat(200_000)}`],
    ['quotes', `x: [${'"'.repeat(900_000)}]`],
    ['anchors', `x: ${'&a '.repeat(300_000)}b`],
    ['tags', `x: ${'!a '.repeat(300_000)}b`],
  ])('refuses a megabyte of %s before all of it is held', (_, text) =>
    refused(`casetally: 1\n${text}\n`, 'record.too-many'),
  );

  /** 20 values less than the most, however they are written. */
  const entries = Array.from({ length: MAX_VALUES - 20 }, (_, i) => `k${i}`);
  it.each([
    ['lines', entries.map(key => `  ${key}: 1`).join('\n')],
    ['quoted lines', entries.map(key => `  "${key}": '1'`).join('\n')],
    ['braces', `  { ${entries.map(key => `"${key}": "1"`).join(', ')} }`],
    ['JSON in lines', `  {\n${entries.map(key => `    "${key}": "a, b: c - d"`).join(',\n')}\n  }`],
    ['a list', entries.map(key => `  - "${key}"`).join('\n')],
  ])('takes as many as there may be, written as %s', (_, text) => {
    const { findings } = parseCase(`casetally: 1\nx:\n${text}\n`);
    expect(findings.map(f => f.code)).toContain('record.unknown-key');
    expect(findings.map(f => f.code)).not.toContain('record.too-many');
  });

  it('tells of each of many unknown fields', () => {
    const lines = Array.from({ length: 18_000 }, (_, i) => `x${i}: 1\n`).join('');
    const { findings } = parseCase(`casetally: 1\n${lines}`);
    expect(findings.filter(f => f.code === 'record.unknown-key')).toHaveLength(18_000);
    const events = Array.from({ length: 4_900 }, (_, i) => `  - { x${i}: 1 }\n`).join('');
    const missing = parseCase(`casetally: 1\nevents:\n${events}`).findings;
    expect(missing.filter(f => f.code === 'record.unknown-key')).toHaveLength(4_900);
  });

  it('answers a file of wrong fields with bounded messages', () => {
    const parsed = parseCase(
      small('sex: female', `${'x'.repeat(1_000)}: 1\n  sex: ${'yes '.repeat(10_000)}`),
    );
    expect(parsed.findings.length).toBe(2);
    for (const f of parsed.findings) expect(messageOf(f).length).toBeLessThan(1_000);
  });
});

describe('data in memory', () => {
  const data = () => JSON.parse(gastrostomy) as Record<string, unknown>;

  it('reads what the JSON file reads', () => {
    expect(parseCaseData(data())).toMatchObject({ record: parseCase(gastrostomy).record, findings: [] });
    expect(parseCaseData({ ...data(), conclusion: undefined }).findings).toEqual([]);
  });

  it.each<[string, unknown, string, string]>([
    ['null', null, 'record.empty-value', 'conclusion'],
    ['a function', () => 1, 'record.wrong-type', 'conclusion'],
    ['a symbol', Symbol('x'), 'record.wrong-type', 'conclusion'],
    ['a date object', new Date(0), 'record.wrong-type', 'conclusion'],
    ['a map', new Map([['a', 1]]), 'record.wrong-type', 'conclusion'],
    ['not a number', Number.NaN, 'record.wrong-type', 'conclusion'],
    ['infinity', Number.POSITIVE_INFINITY, 'record.wrong-type', 'conclusion'],
    ['half a surrogate pair', 'x\ud800', 'record.control-character', 'conclusion'],
  ])('%s is a finding', (_, value, code, path) => {
    const parsed = parseCaseData({ ...data(), conclusion: value });
    expect(parsed.record).toBeUndefined();
    expect(parsed.findings).toEqual([expect.objectContaining({ code, path, severity: 'error' })]);
  });

  it('refuses circles and depth without falling over', () => {
    const circle = data();
    circle['case'] = { again: circle };
    expect(parseCaseData(circle)).toMatchObject({
      unreadable: true,
      findings: [{ code: 'record.too-deep' }],
    });
    let deep: unknown = 1;
    for (let i = 0; i < 100_000; i++) deep = { deep };
    expect(parseCaseData({ ...data(), deep })).toMatchObject({
      unreadable: true,
      findings: [{ code: 'record.too-deep' }],
    });
  });

  it('refuses keys of the language itself', () => {
    const parsed = parseCaseData({ ...data(), case: JSON.parse('{"__proto__": {"id": "x"}}') });
    expect(parsed.findings).toEqual([
      expect.objectContaining({ code: 'record.forbidden-key', path: 'case' }),
    ]);
    expect(parsed.unreadable).toBe(true);
  });

  it.each([[null], [undefined], [1], ['casetally: 1'], [[]], [{}]])('%j is no case', value => {
    expect(parseCaseData(value)).toMatchObject({ unreadable: true, findings: [{ severity: 'fatal' }] });
  });
});

describe('paths', () => {
  it.each([
    [['events', 3, 'over'], 'events[3].over'],
    [['case', 'a.b'], 'case["a.b"]'],
    [['devices', '3'], 'devices["3"]'],
    [['', 'x'], '[""].x'],
    [['a"]b', 0, 'c[0]'], '["a\\"]b"][0]["c[0]"]'],
    [['biliary drainage', 0], 'biliary drainage[0]'],
  ] as const)('%j is %s', (segments, text) => {
    expect(pathText(segments)).toBe(text);
    expect(pathSegments(text)).toEqual(segments);
  });
});
