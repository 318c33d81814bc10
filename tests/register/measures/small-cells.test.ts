import { describe, expect, it } from 'vitest';
import { withoutSmallCells } from '../../../src/register/measures/small-cells.js';

/** Every row of some columns whose total is at most `most`. */
function* rows(columns: number, most: number): Generator<number[]> {
  if (columns === 0) return yield [];
  for (let first = 0; first <= most; first += 1)
    for (const rest of rows(columns - 1, most - first)) yield [first, ...rest];
}

/** What a reader who knows the rule can tell of hidden cells: by what is shown, the values that each may have. */
function tellable(columns: number, k: number, most: number): string[] {
  const may = new Map<string, Set<number>[]>();
  for (const row of rows(columns, most)) {
    const key = JSON.stringify(withoutSmallCells(row, k), (_key, value) => value ?? null);
    const values = may.get(key) ?? row.map(() => new Set<number>());
    for (const [at, count] of row.entries()) values[at]?.add(count);
    may.set(key, values);
  }
  return [...may].flatMap(([key, values]) => {
    const { cells } = JSON.parse(key) as { cells: (number | null)[] };
    return cells.some((cell, at) => cell === null && values[at]?.size === 1) ? [key] : [];
  });
}

describe('small cells', () => {
  it('shows none from 1 to below k, and zeros and large ones where it can', () => {
    expect(withoutSmallCells([0, 12, 30], 5)).toEqual({ cells: [0, 12, 30], total: 42 });
    expect(withoutSmallCells([4, 12, 30], 5)).toEqual({ cells: [undefined, undefined, 30], total: 46 });
    expect(withoutSmallCells([4, 0, 30], 5)).toEqual({ cells: [undefined, undefined, undefined], total: 34 });
    expect(withoutSmallCells([1, 2, 0], 5)).toEqual({
      cells: [undefined, undefined, undefined],
      total: undefined,
    });
    expect(withoutSmallCells([0, 0], 5)).toEqual({ cells: [0, 0], total: 0 });
    expect(withoutSmallCells([1, 2, 0], 1)).toEqual({ cells: [1, 2, 0], total: 3 });
  });

  it.each([
    [2, 3, 16],
    [3, 3, 14],
    [3, 5, 18],
    [4, 4, 14],
    [5, 3, 11],
    [6, 3, 10],
    [4, 5, 18],
  ])('lets nobody who knows the rule work out a hidden one of %i columns, k = %i', (columns, k, most) => {
    // Rows whose total is larger behave as those of the largest here.
    expect(tellable(columns, k, most)).toEqual([]);
  });

  it('would notice a rule that hides the small one alone', () => {
    const may = new Map<string, Set<number>>();
    for (const [a, b] of rows(2, 12) as Generator<[number, number]>) {
      const key = `${a > 0 && a < 5 ? '?' : a}/${b}/${a + b}`;
      may.set(key, (may.get(key) ?? new Set()).add(a));
    }
    expect([...may].some(([key, values]) => key.startsWith('?') && values.size === 1)).toBe(true);
  });
});
