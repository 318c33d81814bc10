import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { type Calculation, calculationKinds } from '../../src/clinical/calculation.js';
import { type Language, languages, textsOf } from '../../src/findings/languages.js';
import type { Param } from '../../src/findings/message.js';
import { isWordKey, lexicon } from '../../src/findings/say.js';
import { calculations as phrases } from '../../src/findings/words/en/calculations.js';
import type { CaseRecord } from '../../src/record/schema/record.js';
import { caseOffset } from '../../src/report/print/times.js';
import type { Section } from '../../src/report/view/model.js';
import { buildView } from '../../src/report/view/view.js';
import { exampleFiles, exampleText } from '../support/examples.js';
import { read } from '../support/report/assess.js';

type PhraseKey = keyof typeof phrases;

const keys = Object.keys(phrases) as PhraseKey[];
const workedWordsOf = (language: Language) => {
  const texts = textsOf(language);
  return Object.fromEntries(keys.map(key => [key, texts[key] ?? ''])) as Record<PhraseKey, string>;
};
const places = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map(match => match[1] ?? '').sort();

describe.each(languages)('phrases of calculations in %s', language => {
  const words = workedWordsOf(language);
  it('has every key, and no key more', () => {
    expect(Object.keys(words).sort()).toEqual([...keys].sort());
  });
  it('has words for every key, with the same places to fill', () => {
    for (const key of keys) {
      expect(words[key].trim(), key).not.toBe('');
      expect(places(words[key]), key).toEqual(places(phrases[key]));
    }
  });
  it('names every kind of calculation', () => {
    const named = (kind: string) =>
      Object.keys(textsOf(language)).some(
        key => key === `calculation.${kind}` || key.startsWith(`calculation.${kind}.`),
      );
    expect(calculationKinds.filter(kind => !named(kind))).toEqual([]);
  });
});

/** Words between the places of a phrase, where they are words at all. */
const pieces = (phrase: string) =>
  phrase
    .split(/\{\w+\}/)
    .map(piece => piece.replace(/^[^\p{L}\d]+|[^\p{L}\d]+$/gu, ''))
    .filter(piece => /\p{L}{3,}/u.test(piece));

const within = (text: string, piece: string) =>
  new RegExp(`(?<![\\p{L}\\d])${piece.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\p{L}\\d])`, 'u').test(
    text,
  );

/** Words that are the same in both languages. */
const shared: Readonly<Record<'de' | 'es', readonly PhraseKey[]>> = {
  de: ['calculation.gadolinium-mass', 'input.lumen', 'input.sign-in', 'input.sign-out', 'basis.minutes'],
  es: ['basis.minutes', 'row.paracentesis'],
};

describe.each(['de', 'es'] as const)('phrases of calculations in %s', language => {
  it('are not those of English', () => {
    const words = workedWordsOf(language);
    const said = (key: PhraseKey) => words[key].replace(/\{\w+\}/g, '…');
    const english = keys.filter(key => pieces(phrases[key]).some(piece => within(said(key), piece)));
    expect(english.sort()).toEqual([...shared[language]].sort());
  });
});

describe('use', () => {
  const folder = fileURLToPath(new URL('../../src/clinical/', import.meta.url));
  const code = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter(name => name.endsWith('.ts'))
    .map(name => readFileSync(join(folder, name), 'utf8'))
    .join('\n');
  /** Heads of keys that are put together: `input.${name}`. */
  const heads = [...code.matchAll(/message\(`([\w.-]+)\$\{/g)].map(match => match[1] ?? '');
  it('has no phrase that no calculation says', () => {
    const said = (key: string) => code.includes(`'${key}'`) || heads.some(head => key.startsWith(head));
    expect(keys.filter(key => !said(key))).toEqual([]);
  });
});

interface Worked {
  readonly record: CaseRecord;
  readonly text: string;
  readonly calculations: readonly Calculation[];
  section(language: Language): Section;
}

const cases = exampleFiles.map((file): readonly [string, Worked] => {
  const text = exampleText(file);
  const record = read(text);
  const assessment = assess(record);
  const section = (language: Language) => buildView(record, assessment, { language }).section.worked;
  return [file, { record, text, calculations: assessment.calculations, section }];
});

/** Name, result, inputs and rule of each row. */
const rowsOf = (section: Section) =>
  section.blocks.flatMap(block =>
    block.kind === 'table' ? block.rows.map(row => [row.head, ...row.cells].map(cell => cell.lines)) : [],
  );

function keysOf(part: Param): PhraseKey[] {
  if (typeof part === 'string') return [];
  if ('key' in part)
    return [...keys.filter(key => key === part.key), ...Object.values(part.params).flatMap(keysOf)];
  return 'list' in part ? part.list.flatMap(keysOf) : [];
}

function termsOf(part: Param): string[] {
  if (typeof part === 'string') return [];
  if ('term' in part) return [`${part.term}.${part.value}`];
  if ('key' in part) return Object.values(part.params).flatMap(termsOf);
  return 'list' in part ? part.list.flatMap(termsOf) : [];
}

const partsOf = ({ what, rule, basis, result, notAssessed, inputs }: Calculation): Param[] =>
  [
    what,
    rule,
    basis,
    result?.text,
    notAssessed,
    ...inputs.flatMap(({ name, value }) => [name, value]),
  ].filter(part => part !== undefined);

describe.each(cases)('%s', (_, { record, text, calculations, section }) => {
  it.each(['en-GB', 'en-US'] as const)('says in %s what the calculations say', language => {
    // In a report dates are as people read them, and moments under another offset have theirs.
    const { text: say } = lexicon(language, caseOffset(record) ?? '');
    expect(rowsOf(section(language))).toEqual(
      calculations.map(({ what, result, notAssessed, inputs, rule, basis }) => [
        [say(what)],
        [result ? say(result.text) : `Not worked out: ${say(notAssessed ?? '')}`],
        inputs.map(({ name, value }) => `${say(name)}: ${say(value)}`),
        [say(rule), say(basis)],
      ]),
    );
  });

  it.each(['de', 'es'] as const)('says nothing of its own in English in %s', language => {
    const rows = rowsOf(section(language));
    const here = rows.flat(2).join('\n');
    const own = Object.values(workedWordsOf(language)).join('\n');
    const looked = [...new Set(calculations.flatMap(partsOf).flatMap(keysOf))].flatMap(key =>
      pieces(phrases[key]).filter(piece => !within(own, piece) && !within(text, piece)),
    );
    expect(looked.length).toBeGreaterThan(15);
    expect(looked.filter(piece => within(here, piece))).toEqual([]);
    expect(rows.length).toBe(calculations.length);
    expect(here).not.toMatch(/\{\w+\}/);
  });

  it.each(['de', 'es'] as const)('prints numbers in the form of %s', language => {
    const numbers = rowsOf(section(language)).flatMap(([, result = [], inputs = []]) => [
      ...result,
      ...inputs,
    ]);
    // What a person wrote keeps its point.
    const foreign = numbers
      .flatMap(line => line.match(/\d+\.\d+/g) ?? [])
      .filter(found => !text.includes(found));
    expect(foreign).toEqual([]);
    const english = rowsOf(section('en-GB')).flatMap(([, result = []]) => result);
    const pointed = english.filter(line => /^\d+\.\d+ /.test(line));
    for (const line of pointed) {
      const value = line.split(' ')[0]?.replace('.', ',') ?? '';
      expect(
        numbers.some(here => here.startsWith(value)),
        line,
      ).toBe(true);
    }
  });

  it('chooses only from lists that every language has words for', () => {
    expect(
      calculations
        .flatMap(partsOf)
        .flatMap(termsOf)
        .filter(key => !isWordKey(key)),
    ).toEqual([]);
  });
});
