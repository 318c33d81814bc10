import { describe, expect, it } from 'vitest';
import { partAt, partOf, turnOf } from './sampled.js';

const list = Array.from({ length: 50 }, (_, i) => i);

describe('a part of the cases', () => {
  it.each([1, 3, 7, 50, 80])('of stride %i: each case has its turn, and only one', stride => {
    const turns = Array.from({ length: Math.min(stride, list.length) }, (_, turn) =>
      partAt(list, stride, turn),
    );
    expect(turns.flat().sort((a, b) => a - b)).toEqual(list);
    expect(turns.every(part => part.length >= Math.floor(list.length / stride))).toBe(true);
  });

  it('of a list that is shorter than the stride is one case at least, of an empty one none', () => {
    for (let turn = 0; turn < 9; turn += 1) expect(partAt(['a', 'b'], 9, turn)).toHaveLength(1);
    expect(partAt([], 9, 4)).toEqual([]);
  });

  it('holds what is wanted always, once, in the order of the list', () => {
    expect(partAt(list, 25, 3, one => one === 3 || one === 10)).toEqual([3, 10, 28]);
  });

  it('goes round: commits and names have other turns, the same ones the same', () => {
    const turns = (of: (i: number) => number) => new Set(list.map(of)).size;
    expect(turns(i => turnOf('a', 4, `commit ${i}`))).toBe(4);
    expect(turns(i => turnOf(`name ${i}`, 4, 'a'))).toBe(4);
    expect(turnOf('a', 1_000_000, 'b')).toBe(turnOf('a', 1_000_000, 'b'));
  });

  it('is counted by the closing lines', () => {
    expect(partOf('wrong times in a.yaml: 5 of 26 cases, by the commit')).toEqual({
      ...{ name: 'wrong times in a.yaml', run: 5, all: 26 },
    });
    expect(partOf('5 of 26')).toBeUndefined();
  });
});
