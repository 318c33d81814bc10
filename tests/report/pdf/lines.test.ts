import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Line, layLines } from '../../../src/report/pdf/lines.js';

/** A typeface in which every character is one point wide. */
const measure = (text: string) => Array.from(text).length;
const text = ({ runs }: Line) => runs.map(run => run.text).join('');
const lines = (words: string, width: number) => layLines(words, width, measure).map(text);

describe('lines', () => {
  it.each([
    ['one two three', 7, ['one two ', 'three ']],
    ['one', 10, ['one ']],
    ['', 10, []],
    ['abcdefghij', 4, ['abcd', 'efgh', 'ij ']],
    ['to abcdefghij on', 4, ['to ', 'abcd', 'efgh', 'ij ', 'on ']],
  ])('%j in %d', (words, width, expected) => {
    expect(lines(words, width)).toEqual(expected);
  });

  it('hold every letter in order and are no wider than they may be', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[a-zäß ]{0,120}$/), fc.integer({ min: 3, max: 40 }), (words, width) => {
        const plain = words.replace(/ +/g, ' ').trim();
        const made = layLines(plain, width, measure);
        expect(made.map(text).join('').trim()).toBe(plain);
        for (const line of made) expect(line.width).toBeLessThanOrEqual(width);
      }),
    );
  });
});

describe('right-to-left scripts', () => {
  // Unicode Standard Annex 9 (rules L2 and N0 to N2): within a left-to-right paragraph the words of a right-to-left
  // stretch run from right to left, digits keep their order. The letters of one word are turned by the font.
  const visual = (words: string) => layLines(words, 100, measure)[0]?.runs.map(run => run.text);

  it.each([
    ['דנה כהן', ['כהן', ' ', 'דנה', ' ']],
    ['Dr דנה כהן left', ['Dr ', 'כהן', ' ', 'דנה', ' left', ' ']],
    ['דנה 12 כהן', ['כהן', ' ', '12', ' ', 'דנה', ' ']],
  ])('%s', (words, expected) => {
    expect(visual(words)).toEqual(expected);
  });

  it('places each stretch where the one before it ends', () => {
    const [line] = layLines('Dr דנה כהן left', 100, measure);
    let at = 0;
    for (const run of line?.runs ?? []) {
      expect(run.x).toBe(at);
      at += measure(run.text);
    }
    expect(line?.width).toBe(at - 1);
  });
});
