import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { applyEdits } from '../../src/drafts/edit.js';
import type { Edit } from '../../src/drafts/edits.js';
import { mergeEdits, mergeText } from '../../src/drafts/merge.js';
import { pathSegments } from '../../src/record/path.js';
import { treeIn } from '../../src/record/tree.js';
import { act, editOf, meaning, texts } from './texts.js';

const base = `# base
casetally: 1
case: { id: C-1, date: 2024-01-10 }
events:
  - { at: "08:30", do: in, device: wire1 } # one
  - { at: "08:30", do: in, device: wire1 } # two
  - { at: "08:45", do: out, device: wire1 }
`;
const made = (text: string, edits: readonly Edit[]) => {
  const done = applyEdits(text, edits);
  if ('findings' in done) throw new Error(JSON.stringify(done.findings));
  return done.text;
};
/** What others did, then what was made for the same base. */
const merge = (theirs: readonly Edit[], mine: readonly Edit[], known = true) =>
  mergeEdits({ base, theirs: made(base, theirs), ...(known && { theirEdits: theirs }) }, mine);
const textIn = (done: ReturnType<typeof mergeEdits>) => {
  if ('findings' in done) throw new Error(JSON.stringify(done.findings));
  return done.text;
};
const eventsIn = (text: string) => (parse(text) as { events: Record<string, string>[] }).events;

describe('edits of two people', () => {
  it('in other places are both made, and comments stay', () => {
    const done = merge([{ path: 'case.kind', value: 'biopsy' }], [{ path: 'case.id', value: 'C-2' }]);
    expect(textIn(done)).toBe(base.replace('C-1, date: 2024-01-10', 'C-2, date: 2024-01-10, kind: biopsy'));
  });

  it.each([true, false])(
    'find the entry that was meant, though others stand before it now (known: %s)',
    known => {
      const theirs: Edit[] = [
        { path: 'events', insert: 0, value: { at: '08:00', do: 'note' } },
        { path: 'events[3]', remove: true },
      ];
      const done = merge(theirs, [{ path: 'events[1].at', value: '08:33' }], known);
      expect(eventsIn(textIn(done)).map(({ at }) => at)).toEqual(['08:00', '08:30', '08:33']);
      expect(textIn(done)).toMatch(/08:33.*# two/);
    },
  );

  it('that take out one of two that are alike take out the one that was meant', () => {
    const done = merge([{ path: 'events[0]', remove: true }], [{ path: 'events[1].at', value: '08:33' }]);
    expect(eventsIn(textIn(done)).map(({ at }) => at)).toEqual(['08:33', '08:45']);
  });

  it('that add an event each are both kept, in the order of time, whoever was first', () => {
    const [a, b]: Edit[][] = [
      [{ path: 'events', insert: 'end', value: { at: '09:10', do: 'note' } }],
      [{ path: 'events', insert: 'end', value: { at: '09:05', do: 'note' } }],
    ];
    const [one, other] = [textIn(merge(a ?? [], b ?? [])), textIn(merge(b ?? [], a ?? []))];
    expect(eventsIn(one).map(({ at }) => at)).toEqual(['08:30', '08:30', '08:45', '09:05', '09:10']);
    expect(meaning(one)).toBe(meaning(other));
    // Also where the list is new, and where both are the same: twice is what two people said.
    const fresh: Edit[] = [{ path: 'drugs', insert: 'end', value: { drug: 'lidocaine' } }];
    expect(
      (
        parse(
          textIn(
            merge(
              fresh,
              fresh.map(e => ({ ...e, value: { drug: 'heparin' } })),
            ),
          ),
        ) as { drugs: object[] }
      ).drugs,
    ).toHaveLength(2);
  });

  it('to the same value are no conflict; to different ones nothing is changed and all three are told', () => {
    const set = (value: string): Edit[] => [{ path: 'case.id', value }];
    expect(textIn(merge(set('C-2'), set('C-2')))).toBe(made(base, set('C-2')));
    const done = merge(set('C-2'), [...set('C-3'), { path: 'case.kind', value: 'biopsy' }]);
    expect(done).toMatchObject({
      conflicts: [{ path: 'case.id', base: 'C-1', theirs: 'C-2', mine: 'C-3' }],
      findings: [{ code: 'drafts.conflict', path: 'case.id' }],
      theirs: set('C-2'),
    });
    expect(done).not.toHaveProperty('text');
  });

  it.each([
    [
      'one took out what the other changed',
      [{ path: 'events[2]', remove: true }],
      [{ path: 'events[2].at', value: '08:50' }],
    ],
    [
      'the other way round',
      [{ path: 'events[2].at', value: '08:50' }],
      [{ path: 'events[2]', remove: true }],
    ],
    [
      'one made text of what the other added to',
      [{ path: 'case', value: 'x' }],
      [{ path: 'case.kind', value: 'biopsy' }],
    ],
    ['both added the same field', [{ path: 'note', value: 'x' }], [{ path: 'note', value: 'y' }]],
  ] as [string, Edit[], Edit[]][])('contend where %s', (_what, theirs, mine) => {
    expect(merge(theirs, mine)).toHaveProperty('conflicts.length', 1);
  });

  it('that both take out the same are one', () => {
    const edits: Edit[] = [{ path: 'events[1]', remove: true }];
    expect(textIn(merge(edits, edits))).toBe(made(base, edits));
  });

  it('that cannot be made for the base are refused', () => {
    expect(merge([], [{ path: 'events[9]', remove: true }])).toMatchObject({
      findings: [{ code: 'drafts.impossible' }],
    });
    expect(mergeEdits({ base: 'a: [', theirs: base }, [])).toHaveProperty('findings');
    expect(mergeEdits({ base, theirs: 'a: [' }, [])).toHaveProperty('findings');
  });
});

describe('a whole text', () => {
  it('keeps its own bytes, and what others changed is made in it', () => {
    const theirs = made(base, [{ path: 'events', insert: 'end', value: { at: '09:00', do: 'note' } }]);
    const pasted = base
      .replace('# base', '# pasted')
      .replace('C-1', "'C-1' # typed\n  ")
      .replace("C-1'", "C-4'");
    const done = mergeText({ base, theirs }, pasted);
    expect(textIn(done)).toBe(`${pasted}  - { at: "09:00", do: note }\n`);
    // What takes it out again leaves what the others did.
    if ('findings' in done) throw new Error('not merged');
    expect(applyEdits(done.text, done.inverse)).toHaveProperty('text', theirs);
    expect(meaning(made(done.text, done.inverse.edits))).toBe(meaning(theirs));
  });
});

/** Places of the base that an edit touches; whole lists for entries, since one that goes moves the others. */
const touches = ({ path }: Edit) =>
  pathSegments(path).filter(
    (step, i, all) => typeof step === 'string' && !all.slice(0, i).some(one => typeof one === 'number'),
  );
const apart = (a: readonly Edit[], b: readonly Edit[]) =>
  a.every(one =>
    b.every(other => {
      const [p, q] = [touches(one).join('/'), touches(other).join('/')];
      return !`${p}/`.startsWith(`${q}/`) && !`${q}/`.startsWith(`${p}/`);
    }),
  );

describe('edits in places apart', () => {
  const bodies = texts.filter(
    ([name, text]) => text.length < 6_000 && /^examples\/[^/]*yaml$/.test(name) && treeIn(text),
  );

  it('give the same record in either order, and lose nothing', () => {
    let merged = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...bodies),
        fc.array(act, { minLength: 2, maxLength: 6 }),
        ([, text], acts) => {
          const edits = acts.flatMap(one => editOf(treeIn(text), one) ?? []);
          const [a, b]: [Edit[], Edit[]] = [[], []];
          for (const one of edits) {
            if (apart([one], [...a, ...b])) (a.length > b.length ? b : a).push(one);
          }
          if (b.length === 0) return;
          const one = textIn(mergeEdits({ base: text, theirs: made(text, a), theirEdits: a }, b));
          const other = textIn(mergeEdits({ base: text, theirs: made(text, b) }, a));
          expect(meaning(one)).toBe(meaning(other));
          expect(meaning(one)).toBe(meaning(made(made(text, a), b)));
          merged += 1;
        },
      ),
      { numRuns: 60 },
    );
    expect(merged).toBeGreaterThan(10);
  });
});

describe('the signs of a batch', () => {
  const before = 'case: { id: A }\n';
  const made = 'case: { id: A }\ndrugs:\n  - { drug: lidocaine }\n';
  const batch = {
    edits: [{ path: 'drugs', insert: 'end', value: { drug: 'lidocaine' } }] as const,
    exact: { at: before.length, was: '', is: 'drugs:\n  - { drug: lidocaine }\n' },
  };

  it('bring comments back in the text that they are of', () => {
    const commented = `${before}# as said\n`;
    const exact = { at: before.length, was: '', is: '# as said\n' };
    expect(mergeEdits({ base: before, theirs: before }, { edits: [], exact })).toMatchObject({
      text: commented,
    });
  });

  it('are never put into another text, where a key would stand twice', () => {
    const merged = mergeEdits({ base: before, theirs: made }, batch);
    expect('text' in merged && merged.text.match(/drugs:/g)).toHaveLength(1);
  });
});
