import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { languageData, languages, textsOf } from '../../src/findings/languages.js';
import { isWordKey, lexicon } from '../../src/findings/say.js';

/**
 * Terms of the trade in one language (`tests/support/languages/terms/`): the English word, how it may begin in the other
 * one, where it is looked for (`text`: every text that has the English word; `name`: the trade tables; `unit`), and what
 * it was taken from.
 */
const termsOf = (language: string) =>
  readFileSync(join(import.meta.dirname, '..', 'support', 'languages', 'terms', `${language}.csv`), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map(line => {
      const [english = '', terms = '', where = '', source = ''] =
        line.match(/"[^"]*"|[^,]+/g)?.map(cell => cell.replaceAll('"', '')) ?? [];
      return { english, terms: terms.split('/'), where, source };
    });

const english = textsOf('en-GB');
const foreign = languages.filter(language => !language.startsWith('en'));
/** Texts in which an English word of the table means something else, or is a name. */
const otherwise = new Set([
  'basis.kap',
  'section.signature',
  'draft.notice.one',
  'draft.notice.other',
  'finding.clinical.success-differs',
  'answer.removal',
  'answer.partsOut',
]);
const CLDR: Readonly<Record<string, Intl.NumberFormatOptions['unit']>> = {
  second: 's',
  minute: 'min',
  hour: 'h',
  day: 'd',
  week: 'wk',
  month: 'mo',
  year: 'a',
};

describe.each(foreign)('terms of the trade in %s', language => {
  const rows = termsOf(language);
  const own = textsOf(language);
  const said = Object.keys(own).filter(
    key => (isWordKey(key) || own[key] !== english[key]) && !/^(?:field|patient|remedy)/.test(key),
  );

  it('are three hundred, each once and with its source', () => {
    expect(rows.length).toBeGreaterThanOrEqual(300);
    expect(new Set(rows.map(row => row.english)).size).toBe(rows.length);
    for (const { english: term, source } of rows)
      expect(source, term).toMatch(
        /^(?:from memory|CLDR via Intl\.NumberFormat|hl7\.[\w.]+\/CodeSystem-[\w-]+)$/,
      );
  });

  it.each(rows.filter(row => row.where === 'text'))(
    '$english is said alike in every text',
    ({ english: word, terms }) => {
      const here = new RegExp(`\\b${word}s?\\b`, 'i');
      const keys = said.filter(
        key => !otherwise.has(key) && here.test((english[key] ?? '').replace(/\{\w+\}/g, ' ')),
      );
      expect(keys.length).toBeGreaterThan(0);
      const others = keys.filter(key => !terms.some(term => own[key]?.toLowerCase().includes(term)));
      expect(others.map(key => [key, own[key]])).toEqual([]);
    },
  );

  it('names are those of the trade tables', () => {
    const { devices, values } = languageData(language).names;
    for (const { english: row, terms } of rows.filter(({ where }) => where === 'name')) {
      const name = devices?.[row] ?? values?.[row] ?? '';
      expect(name.replace(/^[mfnp] /, ''), row).toBe(terms.join('/'));
    }
  });

  it('units of time are those of CLDR', () => {
    for (const { english: unit } of rows.filter(({ where }) => where === 'unit')) {
      const written = new Intl.NumberFormat(language, { style: 'unit', unit, unitDisplay: 'long' });
      for (const n of [1, 21])
        expect(lexicon(language).plural(`unit.${CLDR[unit]}` as 'unit.s', `${n}`), unit).toBe(
          written.format(n).replaceAll('\u00a0', ' '),
        );
    }
  });

  it('a source in a package has the term', () => {
    for (const { english: word, terms, source } of rows.filter(row => row.source.startsWith('hl7.'))) {
      const file = join(import.meta.dirname, '..', '..', 'node_modules', `${source}.json`);
      const text = readFileSync(file, 'utf8').toLowerCase();
      expect(text, word).toContain(`"${word.toLowerCase()}"`);
      expect(
        terms.some(term => text.includes(term.toLowerCase())),
        word,
      ).toBe(true);
    }
  });
});

// Terms that were wrong once. Common practice, no source.
it.each([
  ['de', /Abfluss|Ablaufschlauch|Krücke|Gehhilfe|\bNenndruck/],
  ['es', /desprend|presión nominal\b/i],
  ['fr', /béquille|pression nominale/i],
] as const)('%s has none of the words that laymen take for terms', (language, wrong) => {
  // What breaks off does come off.
  const texts = Object.entries(textsOf(language)).filter(([key]) => key !== 'end.apart.fracture');
  expect(texts.filter(([, text]) => wrong.test(text))).toEqual([]);
});
