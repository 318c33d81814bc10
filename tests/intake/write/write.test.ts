import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, parseDocument } from 'yaml';
import type { Contribution, GivenValue } from '../../../src/intake/contribution.js';
import { mergeSources } from '../../../src/intake/merge.js';
import { isJson } from '../../../src/intake/write/splice.js';
import { writeRecord } from '../../../src/intake/write/write.js';
import { parseCase } from '../../../src/record/parse.js';
import { runs } from '../../support/sampled.js';

const root = join(import.meta.dirname, '..', '..', '..');

function filesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap(entry =>
    entry.isDirectory() ? filesIn(join(folder, entry.name)) : [join(folder, entry.name)],
  );
}

/** Every record of the examples and of the cases with their findings. */
const records = ['examples', 'tests/cases']
  .flatMap(folder => filesIn(join(root, folder)))
  .filter(file => /\.(?:ya?ml|json)$/.test(file))
  .map(file => [file.slice(root.length + 1), readFileSync(file, 'utf8')] as const)
  .filter(([, text]) => !parseCase(text).unreadable);

const from = (...values: readonly GivenValue[]): Contribution => ({
  from: 'kit',
  at: '2024-03-14T08:12:00Z',
  by: 'Drainage',
  values,
  findings: [],
});
const spare: GivenValue = {
  path: ['devices', 'broughtAlong'],
  value: { kind: 'guidewire', maker: 'Fable Guidewires', diameter: '0.035 in' },
  as: 'set',
};

const put = (text: string, ...contributions: readonly Contribution[]) =>
  writeRecord(text, mergeSources(text, contributions));

describe.each(records)('%s', (_, text) => {
  it('stays byte for byte where nothing is brought in', () => {
    expect(put(text).text).toBe(text);
    expect(put(text, from()).text).toBe(text);
  });

  it('keeps every other line where a device is brought in, and reads back', () => {
    const written = put(text, from(spare)).text;
    if (written === undefined) throw new Error('not written');
    const [before, after] = [text.split('\n'), written.split('\n')];
    // What was there is still there, in its order; a list on one line grows within it.
    let next = 0;
    for (const line of after)
      if (line === before[next]) next += 1;
      else if (isJson(text) && line.replace(/,$/, '') === before[next]) next += 1;
    if (!/^devices: *\{/m.test(text) && !isJson(text)) expect(before.slice(next)).toEqual([]);
    // An outside reader finds the same as well: JSON.parse, and the YAML library by itself.
    const data: unknown = isJson(text) ? JSON.parse(written) : parse(written);
    expect(data).toMatchObject({ devices: { broughtAlong: { kind: 'guidewire' } } });
    expect(isJson(written)).toBe(isJson(text));
    const rest = (of: string) => {
      const { devices, sources: _sources, ...others } = parse(of) as Record<string, unknown>;
      const { broughtAlong: _, ...kept } = (devices ?? {}) as Record<string, unknown>;
      return { ...others, kept };
    };
    expect(rest(written)).toEqual(rest(text));
    expect(put(written, from(spare)).text).toBe(written);
  });
});

const head = 'casetally: 1\ncase: { id: X, status: completed, date: 2024-05-02, kind: nephrostomy }\n';

describe('forms of a file', () => {
  it.each([
    ['no devices', head],
    ['no line end at the end', `${head}conclusion: done`],
    ['an empty section', `${head}devices:\nconclusion: done\n`],
    ['an empty section with a remark', `${head}devices: # none yet\nconclusion: done\n`],
    ['empty braces', `${head}devices: {}\n`],
    ['braces', `${head}devices: { a: { kind: needle } } # one\n`],
    ['braces over lines', `${head}devices: {\n    a: { kind: needle }, # one\n  }\n`],
    ['braces with a comma at the end', `${head}devices: { a: { kind: needle }, }\n`],
    [
      'a block with a block text',
      `${head}devices:\n  a:\n    kind: needle\n    note: |\n      two\n      lines\n\n# end\n`,
    ],
    ['a folded text at the end', `${head}devices:\n  a: { kind: needle }\nconclusion: >-\n  folded\n\n\n`],
    ['deeper steps', `${head}devices:\n      a:\n            kind: needle\n`],
    [
      'remarks between',
      `# first\n${head}# second\ndevices:\n  # third\n  a: { kind: needle } # fourth\n  # fifth\n# sixth\nteam: []\n`,
    ],
    ['CRLF', `${head}devices:\n  a: { kind: needle }\n`.replaceAll('\n', '\r\n')],
    ['a byte order mark', `\uFEFF${head}devices:\n  a: { kind: needle }\n`],
    ['a start and an end of a document', `---\n${head}devices:\n  a: { kind: needle }\n...\n`],
    ['quoted keys', `${head}"devices":\n  "a": { "kind": needle }\n`],
    ['JSON on one line', '{"casetally":1,"case":{"id":"X"},"devices":{}}'],
    ['JSON over lines', '{\n  "casetally": 1,\n  "devices": {\n    "a": { "kind": "needle" }\n  }\n}\n'],
    ['JSON without devices', '{\n  "casetally": 1\n}\n'],
  ])('%s', (_, text) => {
    const written = put(text, from(spare)).text ?? '';
    expect(isJson(written.replace('\uFEFF', ''))).toBe(isJson(text));
    const before = parse(text.replace('\uFEFF', '')) as { devices?: object };
    const after = parse(written.replace('\uFEFF', '')) as { devices: object; sources: unknown };
    expect(after.devices).toEqual({
      ...before.devices,
      broughtAlong: { kind: 'guidewire', maker: 'Fable Guidewires', diameter: '0.035 in' },
    });
    expect(after.sources).toEqual([
      { path: 'devices.broughtAlong', from: 'kit', at: '2024-03-14T08:12:00Z', by: 'Drainage' },
    ]);
    for (const remark of text.match(/#.*/g) ?? []) expect(written).toContain(remark);
    expect(written.startsWith('\uFEFF')).toBe(text.startsWith('\uFEFF'));
    expect(/[^\r]\n/.test(written)).toBe(/[^\r]\n/.test(text));
    expect(put(written, from(spare)).text).toBe(written);
  });

  it('leaves a file alone that it cannot add to, and says so', () => {
    for (const text of [
      `${head}devices: &a { b: { kind: needle } }\nx: *a\n`,
      `${head}devices:\n  a: { kind: needle }\n  a: { kind: drain }\n`,
    ]) {
      const { text: written, findings } = put(text, from(spare));
      if (written === undefined) expect(findings.map(f => f.code)).toEqual(['intake.not-written']);
      else
        expect(parseCase(written).findings.length).toBeLessThanOrEqual(parseCase(text).findings.length + 1);
    }
  });

  it('renews a value where it stands', () => {
    const text = `${head}radiation: { frames: "46", fluoroscopyTime: '5:30' } # console\nsources:\n  - { path: radiation.fluoroscopyTime, from: dose report, at: 2024-05-02T10:00:00Z, by: a.dcm }\n`;
    const later: Contribution = {
      from: 'dose report',
      at: '2024-05-02T11:00:00Z',
      by: 'a.dcm',
      values: [{ path: ['radiation', 'fluoroscopyTime'], value: '6:10', as: 'set' }],
      findings: [],
    };
    expect(put(text, later).text).toBe(
      text
        .replace("'5:30'", '"6:10"')
        .replace('2024-05-02T10:00:00Z', '"2024-05-02T11:00:00Z"')
        .replace('"2024-05-02T11:00:00Z"', '2024-05-02T11:00:00Z'),
    );
  });
});

describe('whatever a text holds', () => {
  const texts = fc.oneof(
    fc.string({ minLength: 1, maxLength: 60 }),
    fc.string({ unit: 'binary', minLength: 1, maxLength: 30 }),
    fc.constantFrom(
      'yes',
      'null',
      '~',
      '1.30',
      '007',
      '0x1f',
      '1e3',
      '09:04',
      '- x',
      'a: b',
      '# no',
      "it's",
      '"',
      '{a}',
      '<<',
      '&a',
      '*a',
      '!!x',
      '%YAML',
      '|',
      '>',
      ' lead',
      'two  blanks',
      'a\nb',
      '2024-03-14',
      '\u001d',
      'a\u2028b',
      '\u0085',
      '...',
      '---',
    ),
  );
  it('it is written so that it reads back, in YAML and JSON', () => {
    fc.assert(
      fc.property(
        texts,
        fc.constantFrom(head, `${head}before: { imaging: x }\n`, '{"casetally":1}'),
        (value, text) => {
          const given: GivenValue = { path: ['indication', 'text'], value, as: 'set' };
          const entry: GivenValue = { path: ['advice', 'ward'], value: [value], as: 'propose' };
          const merged = mergeSources(text, [from(given, entry)]);
          const { text: written } = writeRecord(text, merged);
          expect(written).toBeDefined();
          const found = parseDocument(written ?? '').toJS() as { indication?: { text: unknown } };
          if (merged.set.length === 0) expect(found.indication).toBeUndefined();
          else expect(String(found.indication?.text)).toBe(value);
        },
      ),
      { numRuns: runs(400) },
    );
  });

  it('a proposal stays a remark, and does not come twice', () => {
    fc.assert(
      fc.property(texts, texts, (value, by) => {
        const given: GivenValue = { path: ['drugs'], value: { drug: value }, as: 'propose-entry', said: by };
        const kit: Contribution = { ...from(given), by };
        const text = `${head}devices:\n  a: { kind: needle }\n`;
        const written = put(text, kit).text ?? '';
        expect(parse(written)).toEqual(parse(text));
        expect(put(written, kit).text).toBe(written);
      }),
      { numRuns: runs(300) },
    );
  });
});
