import { describe, expect, it } from 'vitest';
import { catalogue } from '../../src/findings/catalogue.js';
import { finding, remedyOf } from '../../src/findings/finding.js';
import { textsOf } from '../../src/findings/languages.js';

const rows = Object.entries(catalogue).flatMap(([code, { message, remedy }]) => [
  { key: `finding.${code}`, english: message },
  { key: `remedy.${code}`, english: remedy },
]);
const places = (text: string) =>
  [...new Set([...text.matchAll(/\{(\w+)(?::\w+)?\}/g)].map(match => match[1] ?? ''))].sort();
const withoutPlaces = (text: string) => text.replace(/\{\w+(?::\w+)?\}/g, ' ');
/** What is typed as it stands: backticks, commands, options, dotted paths, names in camel case. */
const typed = (text: string) => [
  ...new Set(
    withoutPlaces(text).match(
      /`[^`]+`|casetally(?: [a-z]+){1,2}|--[a-z]+|\b[a-zA-Z]\w*(?:\.[a-zA-Z]\w*)+|\b[a-z]+[A-Z]\w*/g,
    ) ?? [],
  ),
];

describe.each(['de', 'es', 'fr'] as const)('findings in %s', language => {
  const own = textsOf(language);

  it('give a remedy in the language that is asked for', () => {
    const found = finding('record.not-text', '', { byte: '4' });
    expect(remedyOf(found, language)).toBe(own['remedy.record.not-text']);
    expect(remedyOf(found)).toBe(catalogue['record.not-text'].remedy);
  });

  it('are said, message and remedy, for every code', () => {
    // A text of places alone has no words to put into another language.
    const worded = rows.filter(({ english }) => /\p{L}/u.test(withoutPlaces(english)));
    expect(worded.length).toBeGreaterThan(0);
    expect(worded.filter(({ key, english }) => own[key] === english).map(({ key }) => key)).toEqual([]);
    expect(rows.filter(({ key }) => !own[key]?.trim()).map(({ key }) => key)).toEqual([]);
  });

  it('have the places of the English', () => {
    const differ = rows.filter(({ key, english }) => `${places(own[key] ?? '')}` !== `${places(english)}`);
    expect(differ.map(({ key }) => [key, own[key]])).toEqual([]);
  });

  it('keep what is typed as it stands', () => {
    const lost = rows
      .map(({ key, english }) => ({
        key,
        tokens: typed(english).filter(token => !withoutPlaces(own[key] ?? '').includes(token)),
      }))
      .filter(({ tokens }) => tokens.length > 0);
    expect(lost).toEqual([]);
  });

  it('hold no English', () => {
    const stray = rows.filter(({ key }) =>
      / (?:the|and|is|of|with|or|which) /i.test((own[key] ?? '').replace(/`[^`]*`/g, '')),
    );
    expect(stray.map(({ key }) => [key, own[key]])).toEqual([]);
  });
});
