import { describe, expect, it } from 'vitest';
import {
  type ChangedFact,
  changeRow,
  compareRecords,
  isAboutVersion,
} from '../../../src/record/changes/compare.js';
import { wordChanges } from '../../../src/record/changes/words.js';
import { recordDigest } from '../../../src/record/digest.js';
import { caseText, recordOf } from '../../support/case-text.js';

const more = `
targets: { duct: { what: common bile duct, lesion: stricture, length: 22 mm } }
devices:
  wire: { kind: guidewire, diameter: 0.035 in, length: 80 cm }
  drain: { kind: drainage catheter, size: 8 Fr x 25 cm, parts: { lock: { kind: retention thread } } }
events:
  - { at: "09:04", do: insert, device: wire }
  - { at: "09:06", do: insert, device: drain, over: wire }
  - { at: "09:07", do: remove, device: wire }
  - { at: "09:09", do: flush, device: drain, volume: 10 mL }
drugs:
  - { drug: Fentanyl, dose: 50 µg, route: intravenous, at: "09:01" }
  - { drug: Midazolam, dose: 1 mg, route: intravenous, at: "09:01" }
findings: [{ text: Long stricture of the common bile duct with stones above it, about: duct }]
complications: none
left: [{ device: drain, purpose: temporary, latest: 2 weeks }]
advice: { ward: [Flush twice a day, Keep the bag low] }
`;
const text = caseText({ more });

/** Facts that differ after an edit of the text; the edit must hit. */
function edited(...edits: readonly (readonly [string, string])[]): ChangedFact[] {
  let after = text;
  for (const [from, to] of edits) {
    expect(after).toContain(from);
    after = after.replace(from, to);
  }
  return compareRecords(recordOf(text), recordOf(after));
}

describe('compareRecords', () => {
  it('says nothing of equal records', () => {
    expect(compareRecords(recordOf(text), recordOf(text))).toEqual([]);
  });

  it.each<[string, readonly (readonly [string, string])[], Partial<ChangedFact>[]]>([
    [
      'a changed size',
      [['8 Fr x 25 cm', '10.2 Fr x 25 cm']],
      [
        {
          kind: 'changed',
          path: 'devices.drain.size',
          what: 'Device drain: size',
          before: '8 Fr x 25 cm',
          after: '10.2 Fr x 25 cm',
        },
      ],
    ],
    [
      'digits that were added: 5 is not 5.0',
      [['dose: 1 mg', 'dose: 1.0 mg']],
      [{ path: 'drugs[1].dose', before: '1 mg', after: '1.0 mg' }],
    ],
    [
      'an event put in between: nothing else moves',
      [['  - { at: "09:07"', '  - { at: "09:06", do: lock, device: drain }\n  - { at: "09:07"']],
      [{ kind: 'added', path: 'events[2]' }],
    ],
    [
      'an event taken out',
      [['  - { at: "09:07", do: remove, device: wire }\n', '']],
      [{ kind: 'removed', path: 'events[2]', before: expect.stringContaining('09:07 +01:00 remove wire') }],
    ],
    [
      'another time of an event',
      [['"09:09"', '"09:12"']],
      [{ kind: 'changed', path: 'events[3].at', after: '2024-05-14 09:12 +01:00' }],
    ],
    [
      'a drug before another: matched by name and time',
      [
        [
          '  - { drug: Fentanyl',
          '  - { drug: Lidocaine, dose: 5 mL, route: local infiltration, at: "09:00" }\n  - { drug: Fentanyl',
        ],
      ],
      [{ kind: 'added', path: 'drugs[0]', what: expect.stringContaining('Lidocaine') }],
    ],
    [
      "'none' that became a list",
      [['complications: none', 'complications: [{ what: haematoma }]']],
      [{ kind: 'changed', path: 'complications', before: 'none', after: 'haematoma' }],
    ],
    [
      'something recorded that was not',
      [['complications: none\n', 'complications: none\ncontrast: none\n']],
      [{ kind: 'added', path: 'contrast', after: 'none' }],
    ],
    [
      'a list whose lines changed places: no fact',
      [['[Flush twice a day, Keep the bag low]', '[Keep the bag low, Flush twice a day]']],
      [],
    ],
    [
      'a part of a device',
      [['kind: retention thread', 'kind: retention suture']],
      [{ path: 'devices.drain.parts.lock.kind', what: 'Device drain: part lock, kind' }],
    ],
    [
      'another patient number',
      [['value: P1', 'value: P2']],
      [{ kind: 'changed', path: 'patient.identifiers[0].value', before: 'P1', after: 'P2' }],
    ],
  ])('%s', (_, edits, expected) => {
    expect(edited(...edits).map(changeRow)).toEqual(expected.map(fact => expect.objectContaining(fact)));
  });

  it('tells the order of events of the same minute, and no other order', () => {
    const lines = [
      '  - { at: "09:06", do: insert, device: drain, over: wire }\n',
      '  - { at: "09:06", do: remove, device: wire }\n',
    ];
    const both = (order: readonly string[]) =>
      recordOf(text.replace(/ {2}- \{ at: "09:06".*\n {2}- \{ at: "09:07".*\n/, order.join('')));
    const facts = compareRecords(both(lines), both(lines.toReversed()));
    expect(facts).toHaveLength(1);
    expect(facts.map(changeRow)[0]?.what).toMatch(/order$/);
  });

  it('shows words struck and added of a text', () => {
    const [fact] = edited([
      'Long stricture of the common bile duct with stones above it',
      'Short stricture of the common bile duct without stones above it',
    ]);
    expect(fact?.words).toEqual([
      { kind: 'struck', text: 'Long' },
      { kind: 'added', text: 'Short' },
      { kind: 'same', text: 'stricture of the common bile duct' },
      { kind: 'struck', text: 'with' },
      { kind: 'added', text: 'without' },
      { kind: 'same', text: 'stones above it' },
    ]);
  });

  it('knows what is about the version alone', () => {
    const facts = edited(['status: preliminary', 'status: final, signedAt: "10:00"'], ['8 Fr', '9 Fr']);
    expect(facts.filter(isAboutVersion).map(f => f.path)).toEqual(['report.status', 'report.signedAt']);
    expect(facts.filter(f => !isAboutVersion(f)).map(f => f.path)).toEqual(['devices.drain.size']);
  });
});

describe('wordChanges', () => {
  it.each([
    ['', ''],
    ['a b c', 'a b c'],
    ['a b c', ''],
    ['', 'a b c'],
    ['the left duct is dilated', 'the right duct is not dilated'],
    ['one two three four', 'four three two one'],
  ])('gives both texts back: %j and %j', (before, after) => {
    const parts = wordChanges(before, after);
    const side = (gone: string) =>
      parts
        .filter(({ kind }) => kind !== gone)
        .map(part => part.text)
        .join(' ');
    expect(side('added')).toBe(before);
    expect(side('struck')).toBe(after);
  });

  it('shows very long texts one after the other', () => {
    const long = (word: string) => Array.from({ length: 2500 }, (_, i) => `${word}${i}`).join(' ');
    expect(wordChanges(long('a'), long('b')).map(part => part.kind)).toEqual(['struck', 'added']);
  });
});

describe('recordDigest', () => {
  const digest = (input: string) => recordDigest(recordOf(input));

  it('does not depend on how the record is written', () => {
    const other = text
      .replace('8 Fr x 25 cm', '8F x 25cm')
      .replace('{ drug: Fentanyl, dose: 50 µg,', '{ dose: 50 mcg, drug: Fentanyl,')
      .replace('at: "09:04"', 'at: 2024-05-14T09:04+01:00');
    expect(other).not.toBe(text);
    expect(digest(other)).toBe(digest(text));
    expect(digest(`$schema: x\n${text}`)).toBe(digest(text));
  });

  it.each([
    ['dose: 1 mg', 'dose: 1.0 mg'],
    ['complications: none\n', ''],
    ['"09:09"', '"09:10"'],
    ['Dr Test', 'Dr Tess'],
  ])('changes with %j', (from, to) => {
    expect(text).toContain(from);
    expect(digest(text.replace(from, to))).not.toBe(digest(text));
  });
});
