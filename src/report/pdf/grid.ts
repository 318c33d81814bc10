import type { Piece } from './flow.js';
import type { Line } from './lines.js';
import { type Box, colors, type Hand, lineHeight, type Pen, type Tag } from './pen.js';

/** Text with the hand it is written in. */
export interface Written {
  readonly text: string;
  readonly hand: Hand;
}

export interface GridCell {
  readonly text: readonly Written[];
  /** True for a cell that says what its row is about. */
  readonly head: boolean;
}

export interface GridRow {
  readonly cells: readonly GridCell[];
  readonly alert: boolean;
}

export interface Grid {
  /** Column titles; none for facts. */
  readonly columns?: readonly Written[];
  readonly rows: readonly GridRow[];
  readonly widths: readonly number[];
  readonly left: number;
  /** Frame and ground of a patient's identity. */
  readonly framed: boolean;
  /** Most that a page holds; a row above it is parted between lines. */
  readonly most: number;
  readonly gap: number;
}

const PAD = 4;
const OVER = 1.7;
/** Lines of a parted row that stay together. */
const TOGETHER = 12;

type Laid = readonly { readonly line: Line; readonly hand: Hand }[];

/** The rows of a table as pieces: one a row, so that no row is ever parted that fits on a page. */
export function gridPieces(pen: Pen, grid: Grid, table: Tag): Piece[] {
  const { widths, left, columns } = grid;
  const edges = widths.map((_, i) => widths.slice(0, i).reduce((at, width) => at + width, left));
  const right = widths.reduce((at, width) => at + width, left);
  const lay = (text: readonly Written[], column: number): Laid =>
    text.flatMap(({ text: words, hand }) =>
      pen.lines(words, (widths[column] ?? 0) - 2 * PAD, hand).map(line => ({ line, hand })),
    );
  const write = (laid: Laid, column: number, y: number) => {
    let at = y + OVER;
    for (const { line, hand } of laid) {
      pen.line(line, (edges[column] ?? left) + PAD, at, hand);
      at += lineHeight(hand);
    }
  };
  const titles = columns?.map((title, column) => lay([title], column));
  const headHeight = titles ? heightOf(titles) + 1.5 : 0;
  const drawTitles = (y: number, each: (column: number, draw: () => void) => void) => {
    pen.ornament(() => ground(pen, [left, y, right, y + headHeight]));
    titles?.forEach((laid, column) => {
      each(column, () => write(laid, column, y + 0.75));
    });
  };
  const again = titles && {
    height: headHeight,
    draw: (y: number) => {
      drawTitles(y, (_, draw) => {
        pen.ornament(draw, 'Pagination');
      });
    },
  };
  const pieces: Piece[] = [];
  if (titles) {
    const row = pen.tag(pen.tag(table, 'THead'), 'TR');
    const cells = titles.map(() => pen.tag(row, 'TH', { scope: 'Column' }));
    const draw = (y: number) => {
      drawTitles(y, (column, write) => {
        const cell = cells[column];
        if (cell) pen.inside(cell, 'TH', write);
      });
    };
    pieces.push({ height: headHeight, gap: grid.gap, draw, keep: grid.rows.length > 0 });
  }
  const body = titles ? pen.tag(table, 'TBody') : table;
  grid.rows.forEach((row, index) => {
    const tr = pen.tag(body, 'TR');
    const tags = row.cells.map(cell => (cell.head ? pen.tag(tr, 'TH', { scope: 'Row' }) : pen.tag(tr, 'TD')));
    const laid = row.cells.map((cell, column) => lay(cell.text, column));
    const parts = heightOf(laid) + headHeight <= grid.most ? [laid] : parted(laid);
    parts.forEach((part, number) => {
      const whole = number === parts.length - 1;
      const first = index === 0 && number === 0;
      const last = index === grid.rows.length - 1 && whole;
      const height = sumOf(part) + (number === 0 ? OVER : 0) + (whole ? OVER : 0);
      pieces.push({
        height,
        gap: first && !titles ? grid.gap : 0,
        keep: false,
        ...(again && { again }),
        draw(y) {
          pen.ornament(() => {
            if (grid.framed) frame(pen, [left, y, right, y + height], first, last);
            else if (row.alert) alarm(pen, [left, y, right, y + height]);
            else if (whole) rule(pen, left, right, y + height);
          });
          part.forEach((cell, column) => {
            const tag = tags[column];
            const name = row.cells[column]?.head ? 'TH' : 'TD';
            if (tag && cell.length > 0)
              pen.inside(tag, name, () => write(cell, column, number === 0 ? y : y - OVER));
          });
        },
      });
    });
  });
  return pieces;
}

const sum = (laid: Laid) => laid.reduce((all, { hand }) => all + lineHeight(hand), 0);
const sumOf = (cells: readonly Laid[]) => Math.max(0, ...cells.map(sum));
const heightOf = (cells: readonly Laid[]) => sumOf(cells) + 2 * OVER;

/** A row that no page holds, in parts of a few lines. */
function parted(cells: readonly Laid[]): Laid[][] {
  const longest = Math.max(...cells.map(cell => cell.length));
  return Array.from({ length: Math.ceil(longest / TOGETHER) }, (_, part) =>
    cells.map(cell => cell.slice(part * TOGETHER, (part + 1) * TOGETHER)),
  );
}

function ground({ doc }: Pen, [left, top, right, bottom]: Box): void {
  doc.rect(left, top, right - left, bottom - top).fill(colors.band);
  doc.moveTo(left, bottom).lineTo(right, bottom).lineWidth(0.7).stroke(colors.line);
}

function rule({ doc }: Pen, left: number, right: number, y: number): void {
  doc.moveTo(left, y).lineTo(right, y).lineWidth(0.5).stroke(colors.hair);
}

/** What must not be missed: a dark frame, and a bar at the left that shows in grey too. */
function alarm({ doc }: Pen, [left, top, right, bottom]: Box): void {
  doc
    .rect(left, top + 0.6, right - left, bottom - top - 1.2)
    .lineWidth(1.2)
    .fillAndStroke('#f5f5f5', colors.ink);
  doc.rect(left, top + 0.6, 2.6, bottom - top - 1.2).fill(colors.ink);
}

/** Rows of one frame: sides on each, top and bottom where they are. */
function frame({ doc }: Pen, [left, top, right, bottom]: Box, first: boolean, last: boolean): void {
  doc.rect(left, top, right - left, bottom - top).fill(colors.band);
  doc.lineWidth(0.8).strokeColor(colors.ink);
  doc.moveTo(left, top).lineTo(left, bottom).moveTo(right, top).lineTo(right, bottom).stroke();
  if (first) doc.moveTo(left, top).lineTo(right, top).stroke();
  if (last) doc.moveTo(left, bottom).lineTo(right, bottom).stroke();
}
