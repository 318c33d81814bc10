/** Part of a page that is never parted. */
export interface Piece {
  readonly height: number;
  /** Space before it; none at the top of a page. */
  readonly gap: number;
  /** Draws it, its top at `y`. */
  draw(y: number): void;
  /** True when it must stand on the page of the piece that follows. */
  readonly keep: boolean;
  /** Drawn above it where it begins a page: the head of its table. */
  readonly again?: { readonly height: number; draw(y: number): void };
  /** True for a picture that takes a page of its own. */
  readonly alone?: boolean;
  /** True when it begins a page. */
  readonly turns?: boolean;
}

/** Where pieces go. */
export interface Pages {
  readonly top: number;
  readonly bottom: number;
  /** `opens`: it is a piece that begins a page wherever it stands; `filled`: how much of the page before is, 0 to 1. */
  turn(alone: boolean, opens: boolean, filled: number): void;
}

/**
 * Puts pieces on pages one under the other. Pieces that must stay together go to the next page together, as long as
 * they fit there.
 * @returns how much of the last page is filled, 0 to 1
 */
export function flow(pieces: readonly Piece[], pages: Pages): number {
  let y = pages.top;
  let started = false;
  const filled = () => Math.min(1, (y - pages.top) / (pages.bottom - pages.top));
  const turn = (alone: boolean, opens = false) => {
    pages.turn(alone, opens, filled());
    y = pages.top;
    started = false;
  };
  let after = false;
  let index = 0;
  while (index < pieces.length) {
    const group = groupAt(pieces, index);
    const alone = group.some(piece => piece.alone === true);
    const height = group.reduce(
      (sum, piece, i) => sum + (i === 0 && !started ? 0 : piece.gap) + piece.height,
      0,
    );
    const opens = started && group[0]?.turns === true;
    if (alone || after || opens || (started && y + height > pages.bottom)) turn(alone, opens);
    for (const piece of group) {
      const gap = started ? piece.gap : 0;
      if (started && y + gap + piece.height > pages.bottom) turn(false);
      if (!started && piece.again) {
        piece.again.draw(y);
        y += piece.again.height;
      } else if (started) y += piece.gap;
      piece.draw(y);
      y += piece.height;
      started = true;
    }
    after = alone;
    index += group.length;
  }
  return filled();
}

/** The piece at `index` with those that it must stand with. */
function groupAt(pieces: readonly Piece[], index: number): Piece[] {
  const group: Piece[] = [];
  for (let at = index; at < pieces.length; at += 1) {
    const piece = pieces[at] as Piece;
    group.push(piece);
    if (!piece.keep) break;
  }
  return group;
}
