import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flow, type Piece } from '../../../src/report/pdf/flow.js';
import { columnWidths } from '../../../src/report/pdf/widths.js';

const TOP = 10;
const BOTTOM = 110;

interface Put {
  readonly what: number | 'again';
  readonly page: number;
  readonly y: number;
}

function put(made: readonly { height: number; gap: number; keep: boolean; again: boolean }[]): Put[] {
  const placed: Put[] = [];
  let page = 0;
  const pieces = made.map(
    ({ height, gap, keep, again }, what): Piece => ({
      height,
      gap,
      keep,
      draw: y => placed.push({ what, page, y }),
      ...(again && { again: { height: 8, draw: (y: number) => placed.push({ what: 'again', page, y }) } }),
    }),
  );
  flow(pieces, {
    top: TOP,
    bottom: BOTTOM,
    turn() {
      page += 1;
    },
  });
  return placed;
}

const piece = fc.record({
  height: fc.integer({ min: 1, max: 40 }),
  gap: fc.integer({ min: 0, max: 9 }),
  keep: fc.boolean(),
  again: fc.boolean(),
});

describe('pages', () => {
  it('hold every piece once, in order, whole, and none over another', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 60 }), made => {
        const placed = put(made);
        expect(placed.flatMap(({ what }) => (what === 'again' ? [] : [what]))).toEqual(made.map((_, i) => i));
        let last = { page: 0, bottom: TOP };
        for (const { what, page, y } of placed) {
          const height = what === 'again' ? 8 : (made[what]?.height ?? 0);
          expect(y).toBeGreaterThanOrEqual(page === last.page ? last.bottom : TOP);
          expect(y + height).toBeLessThanOrEqual(BOTTOM);
          last = { page, bottom: y + height };
        }
      }),
    );
  });

  it('keep a heading with what it heads', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 40 }), heights => {
        const made = heights.flatMap(height => [
          { height: 10, gap: 5, keep: true, again: false },
          { height, gap: 0, keep: false, again: false },
        ]);
        const placed = put(made);
        for (let i = 0; i < placed.length; i += 2) expect(placed[i]?.page).toBe(placed[i + 1]?.page);
      }),
    );
  });

  it('begin with the head of the table that runs on', () => {
    const rows = Array.from({ length: 12 }, () => ({ height: 20, gap: 0, keep: false, again: true }));
    const placed = put([{ height: 8, gap: 0, keep: true, again: false }, ...rows]);
    const firsts = placed.filter((one, i) => i > 0 && one.page !== placed[i - 1]?.page);
    expect(firsts.length).toBeGreaterThan(1);
    expect(firsts.map(one => one.what)).toEqual(firsts.map(() => 'again'));
  });
});

describe('columns', () => {
  const wish = fc.record({
    least: fc.integer({ min: 5, max: 300 }),
    more: fc.integer({ min: 0, max: 2_000 }),
  });

  it('fill the width, and none is narrower than its longest word where all words fit', () => {
    fc.assert(
      fc.property(fc.array(wish, { minLength: 1, maxLength: 8 }), made => {
        const wishes = made.map(({ least, more }) => ({ least, most: least + more }));
        const widths = columnWidths(wishes, 500);
        expect(widths.reduce((sum, width) => sum + width, 0)).toBeCloseTo(500, 6);
        const fits = wishes.every(({ least }) => least <= 150);
        if (fits && wishes.reduce((sum, { least }) => sum + least, 0) <= 500)
          for (const [i, width] of widths.entries())
            expect(width).toBeGreaterThanOrEqual((wishes[i]?.least ?? 0) - 1e-9);
      }),
    );
  });
});
