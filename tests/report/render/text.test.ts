import { describe, expect, it } from 'vitest';
import { audiences } from '../../../src/report/options.js';
import { width, wrap } from '../../../src/report/render/wrap.js';
import { allViews, render } from '../../support/report/reports.js';

describe.each(allViews().flatMap(([name, view]) => audiences.map(a => [name, a, view] as const)))(
  'text of %s for %s',
  (_, audience, view) => {
    const text = render(view, audience, 'text');
    it('is wrapped at 80 columns, has no space at a line end and no two empty lines', () => {
      const lines = text.split('\n');
      expect(lines.filter(line => width(line) > 80)).toEqual([]);
      expect(lines.filter(line => /\s$/.test(line))).toEqual([]);
      expect(text).not.toMatch(/\n\n\n/);
      expect(text).toMatch(/[^\n]\n$/);
    });
    it('lets nothing of the templates through', () => {
      expect(text).not.toMatch(/\{\{|\}\}|\[object|undefined|null/);
    });
  },
);

describe('wrap', () => {
  it.each([
    ['one two three', 7, ['one two', 'three']],
    ['abcdefgh', 3, ['abc', 'def', 'gh']],
    ['', 5, ['']],
    ['a abcdef', 4, ['a', 'abcd', 'ef']],
    // Two columns a character.
    ['\u4e2d\u6587\u540d', 4, ['\u4e2d\u6587', '\u540d']],
    // A letter and its mark are never parted.
    ['e\u0301e\u0301e\u0301', 2, ['e\u0301e\u0301', 'e\u0301']],
  ])('%j in %i columns', (text, columns, lines) => {
    expect(wrap(text, columns)).toEqual(lines);
  });
});
