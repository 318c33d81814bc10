import { describe, expect, it } from 'vitest';
import { excerpt } from '../../../src/cli/terminal/excerpt.js';
import { width } from '../../../src/report/render/wrap.js';

/** What stands above the caret, one column of it. */
const above = ({ line, before }: { line: string; before: number }) => {
  let used = 0;
  for (const c of line) {
    if (used === before) return c;
    used += width(c);
  }
  return undefined;
};

describe('a line of the source', () => {
  it.each([
    ['  - { at: "09:18" }', 5, '{'],
    ['case: { id: X }', 1, 'c'],
    ['name: \u4e2d\u6587\u540d, age: 5', 12, 'a'],
    ['name: e\u0301e\u0301, x: 5', 13, 'x'],
    ['note: \u001b[2J, x: 5', 13, 'x'],
  ])('%j at %i has %j over the caret', (line, column, over) => {
    expect(above(excerpt(line, column, 70))).toBe(over);
  });

  it('is cut on either side of a place far inside it', () => {
    const line = `${'a'.repeat(300)}HERE${'b'.repeat(300)}`;
    const cutOut = excerpt(line, 301, 60);
    expect(width(cutOut.line)).toBeLessThanOrEqual(60);
    expect(cutOut.line).toMatch(/^…a+HEREb+…$/);
    expect(above(cutOut)).toBe('H');
  });

  it('is cut out of a line of a megabyte, at either end and in its middle', () => {
    const line = `${'a'.repeat(500_000)}HERE${'b'.repeat(500_000)}`;
    expect(excerpt(line, 500_001, 60).line).toMatch(/^…a{18,20}HEREb+…$/);
    expect(excerpt(line, 1, 60).line).toBe(`${'a'.repeat(59)}…`);
    expect(excerpt(line, line.length, 60).line).toMatch(/^…b+$/);
    // Signs of no width, so many that what is near enough would fit whole.
    const marks = `a${'\u0301'.repeat(3_000)}`;
    expect(excerpt(`${marks}x: 5${marks}`, 3_002, 60).line).toMatch(/^….*x: 5.*…$/u);
  });

  it('holds nothing that a terminal acts on, and a place beyond it is its end', () => {
    expect(excerpt('x: \u001b]0;t\u0007\u202e', 1, 70).line).toBe('x: <U+001B>]0;t<U+0007><U+202E>');
    expect(excerpt('abc', 99, 70)).toEqual({ line: 'abc', before: 3 });
  });
});
