/** What a column asks for, in points. */
export interface Wish {
  /** Its longest word. */
  readonly least: number;
  /** Its longest line. */
  readonly most: number;
}

/** Widths of columns that fill `room`: what they need where that is enough, else more for those with more text. */
export function columnWidths(wishes: readonly Wish[], room: number): number[] {
  const cap = room * 0.3;
  const least = wishes.map(wish => Math.min(wish.least, cap));
  const needed = total(least);
  if (needed >= room) return least.map(width => (width / needed) * room);
  const wanted = wishes.map((wish, i) => Math.max(0, wish.most - (least[i] ?? 0)));
  const spare = room - needed;
  const share = total(wanted) <= spare ? wishes.map(wish => wish.most) : wanted.map(Math.sqrt);
  const shares = total(share);
  return least.map((width, i) => {
    const more = shares === 0 ? 1 / wishes.length : (share[i] ?? 0) / shares;
    return total(wanted) <= spare
      ? width + (wanted[i] ?? 0) + (spare - total(wanted)) * more
      : width + spare * more;
  });
}

/** Of two columns the first says what the second is about, and takes no more than it needs. */
export function widthsOf(wishes: readonly Wish[], width: number): number[] {
  const [first, second, ...more] = wishes;
  if (!first || !second || more.length > 0) return columnWidths(wishes, width);
  const left = Math.min(Math.max(first.most, 0.16 * width), 0.36 * width);
  return [left, width - left];
}

const total = (numbers: readonly number[]) => numbers.reduce((sum, n) => sum + n, 0);
