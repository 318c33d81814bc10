import { describe, expect, it } from 'vitest';
import { Ids, isSame, nodeOf } from '../../src/drafts/node.js';
import { readLately } from '../../src/drafts/read-lately.js';
import { readText } from '../../src/record/read.js';
import { exampleFiles, exampleText } from '../support/examples.js';

describe('a text that was read lately', () => {
  it('gives what reading it gives, the same again, faults with it', () => {
    for (const text of [...exampleFiles.map(exampleText), '', 'a: [', 'a: 1\na: 2\n']) {
      const { tree, findings } = readText(text);
      expect(readLately(text)).toEqual({ ...(tree !== undefined && { tree }), findings });
      expect(readLately(text)).toBe(readLately(text));
    }
  });

  it('is forgotten after some million signs of others, the one that was asked for longest ago first', () => {
    const long = (n: number) => `note: ${n}${'x'.repeat(900_000)}\n`;
    const [first, second] = [readLately(long(1)), readLately(long(2))];
    readLately(long(3));
    expect(readLately(long(1))).toBe(first);
    readLately(long(4));
    readLately(long(5));
    expect(readLately(long(1))).toBe(first);
    expect(readLately(long(2))).not.toBe(second);
  });
});

describe('what two drafts say', () => {
  const same = (a: Parameters<typeof nodeOf>[0], b: Parameters<typeof nodeOf>[0]) =>
    isSame(nodeOf(a, new Ids()), nodeOf(b, new Ids()));

  it('is the same whatever the order of fields, and whether yes is written as text', () => {
    expect(same({ a: '1', b: ['x', { c: true }] }, { b: ['x', { c: 'true' }], a: '1' })).toBe(true);
  });

  it.each([
    ['another value', { a: '1' }, { a: '2' }],
    ['a field more', { a: '1' }, { a: '1', b: '2' }],
    ['another field', { a: '1' }, { b: '1' }],
    ['an entry more', ['x'], ['x', 'y']],
    ['another order of entries', ['x', 'y'], ['y', 'x']],
    ['a list in place of a group', { a: [] }, { a: {} }],
    ['a text in place of a list', { a: 'x' }, { a: ['x'] }],
    ['a list in place of a text', { a: ['x'] }, { a: 'x' }],
  ])('differs by %s', (_what, a, b) => {
    expect(same(a, b)).toBe(false);
  });
});
