import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { applyEdits, type Edited, editsBetween } from '../../src/drafts/edit.js';
import { type Edit, MAX_EDITS, readEdits } from '../../src/drafts/edits.js';
import { pathText } from '../../src/record/path.js';
import { readText, type Tree } from '../../src/record/read.js';
import { treeIn, valueAt } from '../../src/record/tree.js';
import { act, editOf, meaning, placesIn, sent, texts } from './texts.js';

function edit(text: string, edits: readonly Edit[]): Edited {
  const made = applyEdits(text, edits);
  if ('findings' in made) throw new Error(JSON.stringify([edits, made.findings]));
  return made;
}
const refused = (text: string, edits: readonly Edit[]) => {
  const made = applyEdits(text, edits);
  return 'findings' in made ? made.findings.map(({ code, path }) => [code, path]) : 'was made';
};

const small = `# of the room
casetally: 1
case: { id: C-1, date: "2024-01-10" } # as ordered
devices:
  # on the table
  wire1: { is: guidewire, size: 0.035 in } # opened
  drain:
    is: drainage catheter
    label:
      di: '09506000117843'   # as scanned
events:
  - { at: "08:30", do: in, device: wire1 }
  # then
  - at: "08:45" # by the clock on the wall
    do: in
    device: drain
`;

describe('an edit', () => {
  it('changes its place and no other sign', () => {
    const { text } = edit(small, [
      { path: 'devices.drain.label.di', value: '09506000117850' },
      { path: 'events[1].at', value: '08:50' },
      { path: 'case.date', value: '2024-01-11' },
    ]);
    expect(text).toBe(
      small
        .replace("'09506000117843'", '"09506000117850"')
        .replace('"08:45"', '"08:50"')
        .replace('"2024-01-10"', '2024-01-11'),
    );
  });

  it('puts an entry in front of one that is replaced with it', () => {
    const { text } = edit('casetally: 1\nnotes: [drain]\n', [
      { path: 'notes', insert: 0, value: 'yes' },
      { path: 'notes[1]', value: [] },
    ]);
    expect(text).toBe('casetally: 1\nnotes: [yes, []]\n');
  });

  it('takes out a field, an entry, and the first of either', () => {
    const { text } = edit(small, [
      { path: 'devices.wire1', remove: true },
      { path: 'events[0]', remove: true },
      { path: 'events[0].at', remove: true },
      { path: 'case.id', remove: true },
    ]);
    expect(text).toBe(`# of the room
casetally: 1
case: { date: "2024-01-10" } # as ordered
devices:
  # on the table
  drain:
    is: drainage catheter
    label:
      di: '09506000117843'   # as scanned
events:
  # then
  - do: in
    device: drain
`);
  });

  it('puts entries in at every place, and makes what is missing on the way', () => {
    const at = (time: string) => ({ at: time, do: 'note' });
    const { text } = edit(small, [
      { path: 'events', insert: 0, value: at('08:00') },
      { path: 'events', insert: 2, value: at('08:40') },
      { path: 'events', insert: 'end', value: at('09:00') },
      { path: 'drugs', insert: 'end', value: { drug: 'lidocaine' } },
      { path: 'devices.sheath.label.lot', value: 'L 1' },
    ]);
    expect(parse(text)).toMatchObject({
      events: [{ at: '08:00' }, { at: '08:30' }, { at: '08:40' }, { at: '08:45' }, { at: '09:00' }],
      drugs: [{ drug: 'lidocaine' }],
      devices: { sheath: { label: { lot: 'L 1' } } },
    });
    for (const line of small.split('\n')) expect(text).toContain(line);
  });

  it('leaves a list and a group that are empty where their last one goes', () => {
    const { text } = edit(small, [
      { path: 'events[1]', remove: true },
      { path: 'events[0]', remove: true },
      { path: 'devices.drain.label.di', remove: true },
    ]);
    expect(parse(text)).toMatchObject({ events: [], devices: { drain: { label: {} } } });
    expect(parse(edit(text, [{ path: 'events', insert: 'end', value: { do: 'in' } }]).text)).toMatchObject({
      events: [{ do: 'in' }],
    });
  });

  it('fills what is empty with several at once', () => {
    const fields = [
      { path: 'a', value: '1' },
      { path: 'b', value: '2' },
    ];
    expect(JSON.parse(edit('{}', fields).text)).toEqual({ a: '1', b: '2' });
    expect(parse(edit('a: {}\n', [...fields.map(one => ({ ...one, path: `a.${one.path}` }))]).text)).toEqual({
      a: { a: 1, b: 2 },
    });
  });

  it('fills in a field that stands without a value', () => {
    expect(edit('casetally: 1\ncase:\n  id: # the number\n', [{ path: 'case.id', value: 'C-1' }]).text).toBe(
      'casetally: 1\ncase:\n  id: C-1 # the number\n',
    );
  });

  it('keeps ends of lines, the mark in front, and JSON', () => {
    const dos = `\uFEFF${small.replaceAll('\n', '\r\n')}`;
    const { text } = edit(dos, [{ path: 'events', insert: 1, value: { do: 'note' } }]);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(text.startsWith('\uFEFF#')).toBe(true);
    const json = '{\n  "casetally": 1,\n  "events": [ { "do": "in" } ]\n}\n';
    const made = edit(json, [
      { path: 'events', insert: 0, value: { do: 'out' } },
      { path: 'case.id', value: 'C "1"' },
    ]).text;
    expect(JSON.parse(made)).toEqual({
      casetally: 1,
      events: [{ do: 'out' }, { do: 'in' }],
      case: { id: 'C "1"' },
    });
  });
});

describe('an edit that cannot be', () => {
  it.each([
    ['no path', { path: '', value: 'x' }],
    ['a path of another writing', { path: 'events.3.at', value: 'x' }],
    ['a path that breaks off', { path: 'case["a', value: 'x' }],
    ['a path with an escape that is none', { path: 'case["\\x"]', value: 'x' }],
    ['an entry that is not there', { path: 'events[7].at', value: 'x' }],
    ['a field of a text', { path: 'case.id.x', value: 'x' }],
    ['a field of a list', { path: 'events.at', value: 'x' }],
    ['an entry of a group', { path: 'case[0]', value: 'x' }],
    ['a list that is a group', { path: 'case', insert: 'end', value: 'x' }],
    ['a place behind the end', { path: 'events', insert: 3, value: 'x' }],
    ['nothing to take out', { path: 'case.room', remove: true }],
    ['what would reach into objects', { path: '__proto__.polluted', value: 'x' }],
    ['the same further in', { path: 'case.constructor.prototype', value: 'x' }],
    ['too deep', { path: Array.from({ length: 40 }, () => 'a').join('.'), value: 'x' }],
  ] as const)('%s', (_what, one) => {
    const good: Edit = { path: 'case.id', value: 'C-2' };
    expect(refused(small, [good, one as Edit, good])).toEqual([['drafts.impossible', one.path]]);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it('is one that would leave no record', () => {
    expect(refused('casetally: 1\n', [{ path: 'casetally', remove: true }])).toEqual([
      ['drafts.not-written', ''],
    ]);
  });

  it.each([
    ['no list', {}],
    ['no edit', ['x']],
    ['null', [null]],
    ['a field too many', [{ path: 'case.id', value: 'x', why: 'y' }]],
    ['no value', [{ path: 'case.id' }]],
    ['both', [{ path: 'case.id', value: 'x', remove: true }]],
    ['a place below zero', [{ path: 'events', insert: -1, value: 'x' }]],
    ['half a place', [{ path: 'events', insert: 0.5, value: 'x' }]],
    ['null as a value', [{ path: 'case.id', value: null }]],
    [
      'a forbidden name in a value',
      JSON.parse('[{ "path": "case", "value": { "__proto__": { "x": "1" } } }]'),
    ],
  ])('as it is sent: %s', (_what, data) => {
    expect(readEdits(data)).toHaveProperty('findings');
  });

  it('is one of more than there may be', () => {
    const many = Array.from({ length: MAX_EDITS + 1 }, (): Edit => ({ path: 'case.id', value: 'x' }));
    expect(refused(small, many)).toEqual([['drafts.too-many', '']]);
    expect(readEdits(many)).toHaveProperty('findings');
    expect(edit(small, many.slice(1)).text).toContain('id: x,');
  });

  it.each([
    ['no YAML', 'a: [1\n', 'record.'],
    ['no fields', 'just text\n', 'drafts.no-record'],
    ['a list', '- a\n', 'drafts.no-record'],
    ['nothing', '', 'record.empty-value'],
    ['more than a file may have', `a: ${'x'.repeat(1_100_000)}\n`, 'record.too-big'],
    ['a control character', 'a: \u0001\n', 'record.control-character'],
  ])('in a text that is %s', (_what, text, code) => {
    const [found] = refused(text, [{ path: 'case.id', value: 'x' }]);
    expect(found?.[0]).toContain(code);
  });
});

describe('a text with what records do not have', () => {
  it.each([
    ['an anchor', 'base: &b { size: 8 Fr }\n'],
    ['an alias', 'base: &b { size: 8 Fr }\ncopy: *b\n'],
    ['a merge', 'base: { <<: { size: 8 Fr } }\n'],
    ['a tag', 'base: !!binary aGk=\n'],
    ['a doubled key', 'case: { id: A }\ncase: { id: B }\n'],
  ])('is not edited with %s, which no record may have', (_what, more) => {
    const text = `casetally: 1\n${more}note: x\n`;
    for (const path of ['base.size', 'copy', 'note'])
      expect(refused(text, [{ path, value: 'y' }])).toContainEqual([
        expect.stringMatching(/^record\.(?:alias|duplicate-key)$/),
        expect.any(String),
      ]);
  });

  it('is not edited where an entry of a list cannot be read', () => {
    const gaps = 'casetally: 1\nnotes:\n  -\n  - b\n  - c\n';
    const made = applyEdits(gaps, [{ path: 'notes[0]', value: 'x' }]);
    if ('text' in made) expect(readText(made.text).tree).toEqual({ casetally: '1', notes: ['x', 'c'] });
    else expect(made.findings[0]?.code).toBe('drafts.not-written');
  });

  it('a tab between key and value is no hindrance', () => {
    expect(edit('casetally: 1\ncase:\n  id:\tA\n', [{ path: 'case.id', value: 'a\tb' }]).text).toBe(
      'casetally: 1\ncase:\n  id:\t"a\\tb"\n',
    );
  });
});

/* Whatever is done, the text reads as the edits say, for the reader of records and for the YAML library by itself. */
describe('any row of edits', () => {
  const bodies = texts.filter(([, text]) => text.length < 6_000 && 'edits' in editsBetween(text, text));

  it('gives a text that reads as it is meant, and its inverse the bytes of before', () => {
    let made = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...bodies),
        fc.array(act, { minLength: 1, maxLength: 8 }),
        ([, begun], acts) => {
          let text = begun;
          const undo: { text: string; inverse: Edited['inverse'] }[] = [];
          for (const one of acts) {
            const next = editOf(treeIn(text), one);
            if (!next) continue;
            const { text: after, inverse } = edit(text, sent([next]));
            expect(readText(after.replace(/^\uFEFF/, '')).findings.length).toBeLessThanOrEqual(
              readText(text.replace(/^\uFEFF/, '')).findings.length,
            );
            expect(() => parse(after)).not.toThrow();
            undo.push({ text, inverse });
            text = after;
            made += 1;
          }
          // Undone to the beginning, each by itself: the same bytes. By its edits alone: the same record.
          for (const step of undo.reverse()) {
            const back = applyEdits(text, step.inverse);
            expect(back).toHaveProperty('text', step.text);
            expect(meaning(edit(text, step.inverse.edits).text)).toBe(meaning(step.text));
            text = step.text;
          }
        },
      ),
      { numRuns: 40 },
    );
    expect(made).toBeGreaterThan(50);
  });

  it('is done and undone at one go as well, and redone', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...bodies),
        fc.array(act, { minLength: 2, maxLength: 12 }),
        ([, begun], acts) => {
          let text = begun;
          const edits: Edit[] = [];
          for (const one of acts) {
            const next = editOf(treeIn(text), one);
            if (!next) continue;
            edits.push(next);
            text = edit(text, [next]).text;
          }
          const all = edit(begun, edits);
          expect(meaning(all.text)).toBe(meaning(text));
          const back = applyEdits(all.text, all.inverse);
          if (!('inverse' in back)) throw new Error('not undone');
          expect(back.text).toBe(begun);
          expect(applyEdits(back.text, back.inverse)).toHaveProperty('text', all.text);
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe.each(texts)('%s', (_name, text) => {
  const tree = treeIn(text);
  const fields = 'edits' in editsBetween(text, text);
  const isRecord = fields && /^[{\s]*"?casetally"?:/m.test(text);

  it.runIf(fields)('has no edits to itself, and what is changed and changed back is as it was', () => {
    expect(editsBetween(text, text)).toEqual({ edits: [] });
    expect(edit(text, []).text).toBe(text);
    const leaves = placesIn(tree).filter(path => typeof valueAt(tree, path) === 'string');
    const marked = edit(
      text,
      leaves.map(path => ({ path: pathText(path), value: `${String(valueAt(tree, path))} x` })),
    );
    const after = treeIn(marked.text);
    expect(leaves.map(path => valueAt(after, path))).toEqual(
      leaves.map(path => `${String(valueAt(tree, path))} x`),
    );
    // Every comment is where it was.
    expect(commentsOf(marked.text)).toEqual(commentsOf(text));
    expect(applyEdits(marked.text, marked.inverse)).toHaveProperty('text', text);
    const back = edit(marked.text, marked.inverse.edits).text;
    expect(treeIn(back)).toEqual(tree);
    expect(commentsOf(back)).toEqual(commentsOf(text));
  });

  it.runIf(isRecord)('comes whole from an empty record by edits, in the same order', () => {
    const between = editsBetween('casetally: 1\n', text);
    if ('findings' in between) throw new Error('not compared');
    const made = edit('casetally: 1\n', sent(between.edits)).text;
    expect(JSON.stringify(inOrderOf(treeIn(made), tree))).toBe(JSON.stringify(inOrderOf(tree, tree)));
  });

  it.runIf(!fields)('is refused as a draft', () => {
    expect(applyEdits(text, [])).toHaveProperty('findings');
  });
});

/** Sections stand in the order of the format, which a file need not have; further in, order is kept. */
function inOrderOf(tree: Tree | undefined, like: Tree | undefined): unknown {
  return Object.keys(like ?? {}).map(name => [name, valueAt(tree, [name])]);
}

const commentsOf = (text: string) => text.split(/\r?\n/).filter(line => /^\s*#/.test(line));
