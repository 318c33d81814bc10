import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Language, languageData, languages, textsOf } from '../../src/findings/languages.js';
import { exampleFiles, examplesFolder } from '../support/examples.js';
import { englishLeft, tokens } from '../support/languages/english-left.js';
import { sampled } from '../support/sampled.js';

const plants = join(import.meta.dirname, '..', 'plants', 'cases');
/** Every third of the bank, so that vessels, ducts, stones, lines, biopsies and a death are among them. */
const chosen = readdirSync(plants)
  .sort()
  .filter((_, index) => index % 3 === 0);
const cases = [
  ...exampleFiles.map(file => [file, join(examplesFolder, file)] as const),
  ...chosen.map(file => [file, join(plants, file)] as const),
];

/** Words that are the same in both languages, read one by one: `alike/de.txt`. */
const alikeOf = (language: Language): ReadonlySet<string> =>
  new Set(
    readFileSync(join(import.meta.dirname, '..', 'support', 'languages', 'alike', `${language}.txt`), 'utf8')
      .replace(/^#.*$/gm, '')
      .split(/\s+/)
      .filter(word => word !== ''),
  );

const foreign = languages.filter(language => !language.startsWith('en'));

describe.each(foreign)('reports in %s', language => {
  const alike = alikeOf(language);
  it.each(sampled(`cases in ${language}`, cases, 6))(
    '%s: no English word outside what people typed',
    (_, file) => {
      const left = [...englishLeft(readFileSync(file, 'utf8'), language)].filter(
        ([word]) => !alike.has(word),
      );
      expect(Object.fromEntries(left)).toEqual({});
    },
  );
  it('a word alike in both is one that the language says itself', () => {
    const { texts, names } = languageData(language);
    const own = new Set(
      [...Object.values(texts), ...Object.values(names).flatMap(list => Object.values(list ?? {}))].flatMap(
        text => tokens(text ?? ''),
      ),
    );
    // Signs of units are nobody's.
    expect([...alike].filter(word => !own.has(word) && word !== 'mgy')).toEqual([]);
  });
});

it('finds a text that was forgotten', () => {
  const [, file = ''] = cases[0] ?? [];
  const left = englishLeft(readFileSync(file, 'utf8'), 'en-US');
  expect(left.has('drainage')).toBe(true);
  expect([...left.keys()].length).toBeGreaterThan(100);
  expect(textsOf('de')['section.devices']).not.toBe(textsOf('en-GB')['section.devices']);
});
