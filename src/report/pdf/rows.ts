import type { Piece } from './flow.js';
import type { Line } from './lines.js';
import { type Hand, lineHeight, type Pen, type Tag } from './pen.js';

/** Where and how large a report is written. */
export interface Layout {
  readonly left: number;
  readonly width: number;
  /** Height of the body of a page. */
  readonly most: number;
  /** Size of plain text, in points. */
  readonly size: number;
  /** Factor on the space between parts. */
  readonly air: number;
}

/** Text with the hand it is written in. */
export interface Written {
  readonly text: string;
  readonly hand: Hand;
}

export interface Cell {
  readonly text: readonly Written[];
  readonly left: number;
  readonly width: number;
  /** Its element; without one it is an ornament that the structure does not tell of. */
  readonly tag?: { readonly element: Tag; readonly type: string };
}

/** How a row stands among others. */
export interface RowStyle {
  /** Space above it, in points. */
  readonly gap?: number;
  /** Space in it above and below its text. */
  readonly over?: number;
  readonly keep?: boolean;
  readonly again?: Piece['again'];
  /** Draws what says nothing: grounds, rules, frames. */
  ground?(top: number, bottom: number, last: boolean): void;
}

/** Lines of a parted row that stay together. */
const TOGETHER = 12;

type Laid = readonly { readonly line: Line; readonly hand: Hand }[];

/** Cells side by side: one piece, so that it is never parted; only what no page can hold goes on in several. */
export function row(pen: Pen, cells: readonly Cell[], most: number, style: RowStyle = {}): Piece[] {
  const { over = 0, gap = 0, keep = false, again, ground } = style;
  const laid = cells.map(({ text, width }) =>
    text.flatMap(({ text: words, hand }) => pen.lines(words, width, hand).map(line => ({ line, hand }))),
  );
  const whole = tallest(laid) + 2 * over <= most;
  const parts = whole ? [laid] : parted(laid);
  return parts.map((part, index): Piece => {
    const first = index === 0;
    const last = index === parts.length - 1;
    const height = tallest(part) + (first ? over : 0) + (last ? over : 0);
    return {
      height,
      gap: first ? gap : 0,
      keep: keep && last,
      ...(again && { again }),
      draw(y) {
        if (ground) pen.ornament(() => ground(y, y + height, last));
        part.forEach((lines, column) => {
          const cell = cells[column];
          if (!cell || lines.length === 0) return;
          const write = () => {
            let at = y + (first ? over : 0);
            for (const { line, hand } of lines) {
              pen.line(line, cell.left, at, hand);
              at += lineHeight(hand);
            }
          };
          if (cell.tag) pen.inside(cell.tag.element, cell.tag.type, write);
          else pen.ornament(write, 'Pagination');
        });
      },
    };
  });
}

const tallest = (cells: readonly Laid[]) =>
  Math.max(0, ...cells.map(laid => laid.reduce((sum, { hand }) => sum + lineHeight(hand), 0)));

/** A row that no page holds, in parts of a few lines. */
function parted(cells: readonly Laid[]): Laid[][] {
  const longest = Math.max(...cells.map(cell => cell.length));
  return Array.from({ length: Math.ceil(longest / TOGETHER) }, (_, part) =>
    cells.map(cell => cell.slice(part * TOGETHER, (part + 1) * TOGETHER)),
  );
}

/** One line of words over the whole width. */
export function text(
  pen: Pen,
  words: string,
  hand: Hand,
  { left, width, most }: Layout,
  parent: Tag,
  type: 'P' | 'H1' | 'Caption',
  style: { readonly keep?: boolean; readonly gap?: number },
): Piece[] {
  const tag = { element: pen.tag(parent, type), type };
  return row(pen, [{ text: [{ text: words, hand }], left, width, tag }], most, style);
}
