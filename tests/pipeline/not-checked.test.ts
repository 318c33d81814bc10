import { describe, expect, it } from 'vitest';
import { checkCase, checkedRows, type NotCheckedRow } from '../../src/pipeline/check.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { exampleFiles, exampleText } from '../support/examples.js';

const rowsIn = (language?: 'de' | 'es' | 'fr'): NotCheckedRow[] =>
  exampleFiles.flatMap(file => {
    const made = checkedRows(checkCase(exampleText(file), unconfiguredSite), language);
    return (made as { notChecked: NotCheckedRow[] }).notChecked;
  });

describe.each(['de', 'es', 'fr'] as const)('size checks that could not be made, in %s', language => {
  it('say what and why without a word of English', () => {
    const [english, own] = [rowsIn(), rowsIn(language)];
    expect(english.length).toBeGreaterThan(2);
    expect(own.map(({ path }) => path)).toEqual(english.map(({ path }) => path));
    for (const [n, { what, because }] of own.entries()) {
      expect(because).not.toBe(english[n]?.because);
      expect(`${what} ${because}`).not.toMatch(
        /(?<!\p{L})(?:the|is|not|over|through|against|recorded|of)(?!\p{L})/u,
      );
    }
  });
});
