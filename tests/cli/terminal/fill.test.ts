import { describe, expect, it } from 'vitest';
import { columnsOf, cut, filled, paragraph, table } from '../../../src/cli/terminal/fill.js';
import { width } from '../../../src/report/render/wrap.js';

const widest = (text: string) => Math.max(...text.split('\n').map(width));

describe('the width', () => {
  it.each([
    [undefined, undefined, 80],
    [undefined, 0, 80],
    [undefined, 100, 100],
    ['40', 100, 40],
    ['wide', 100, 100],
    ['0', undefined, 80],
    ['7', undefined, 20],
    [undefined, 300, 120],
  ])('COLUMNS %j and a terminal of %j give %i', (asked, terminal, columns) => {
    expect(columnsOf(asked, terminal)).toBe(columns);
  });
});

describe('a paragraph', () => {
  it('hangs, and keeps to the width', () => {
    expect(paragraph('one two three four', 12, 'x  ', '  ')).toEqual(['x  one two', '  three', '  four']);
  });

  it('keeps an address or a path whole, and cuts any other word', () => {
    const url = 'https://server.example/fhir/Procedure/123456789';
    expect(paragraph(`see ${url} there`, 30)).toEqual(['see', url, 'there']);
    expect(widest(filled('x'.repeat(200), 30))).toBe(30);
  });

  it('measures wide characters and marks by their columns', () => {
    expect(widest(filled('\u4e2d\u6587\u540d\u5b57'.repeat(20), 30))).toBe(30);
    expect(paragraph('e\u0301'.repeat(30), 30)).toHaveLength(1);
  });

  it('is cut with a mark', () => {
    expect(cut('one two three', 13)).toBe('one two three');
    expect(cut('one two three', 10)).toBe('one two …');
  });
});

describe('a table', () => {
  const rows = [
    ['device', 'state', 'why'],
    ['6 Fr introducer sheath, 20 cm', 'unaccounted', 'inserted at 09:25; no removal is recorded'],
    ['  its part', 'removed', 'removed at 10:00'],
  ];

  it('is as wide as it needs, in columns', () => {
    expect(table(rows, 120).split('\n')).toEqual([
      'device                         state        why',
      '6 Fr introducer sheath, 20 cm  unaccounted  inserted at 09:25; no removal is recorded',
      '  its part                     removed      removed at 10:00',
      '',
    ]);
  });

  it('wraps within its cells where it must', () => {
    expect(widest(table(rows, 60))).toBeLessThanOrEqual(60);
    expect(table(rows, 60)).toMatch(/^ {2}its part +removed +removed at 10:00$/m);
  });

  it('is a block a row where columns could not be read', () => {
    expect(table(rows, 30).split('\n')).toEqual([
      '6 Fr introducer sheath, 20 cm',
      '  state: unaccounted',
      '  why: inserted at 09:25; no',
      '    removal is recorded',
      'its part',
      '  state: removed',
      '  why: removed at 10:00',
      '',
    ]);
  });

  it('lines up what is wide', () => {
    const [, one, two] = table(
      [
        ['name', 'x'],
        ['\u4e2d\u6587', '1'],
        ['abcd', '2'],
      ],
      40,
    ).split('\n');
    expect([width(one?.split('1')[0] ?? ''), width(two?.split('2')[0] ?? '')]).toEqual([6, 6]);
  });
});
