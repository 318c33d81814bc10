import { width } from '../../report/render/wrap.js';
import { shown } from './shown.js';

/** A line of a source text, and a caret under the place meant. */
export interface Excerpt {
  readonly line: string;
  /** Columns before the caret. */
  readonly before: number;
}

/** Characters to either side of a place that are looked at; no terminal shows as many in a line. */
const FAR = 2_000;

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

interface Piece {
  readonly text: string;
  readonly columns: number;
}

/**
 * As much of a line as fits, with the place at `column` (UTF-16 units, from 1) in it: without its indentation, cut at either
 * end where it must, measured by width, and harmless to a terminal.
 */
export function excerpt(line: string, column: number, room: number): Excerpt {
  const indent = /^\s*/.exec(line)?.[0].length ?? 0;
  const at = Math.min(Math.max(column - 1, indent), line.length);
  // What is further off is cut in any case: a line may be a megabyte.
  const [from, to] = [Math.max(indent, at - FAR), at + FAR];
  let before = pieces(line.slice(from, at));
  let after = pieces(line.slice(at, to).trimEnd());
  // The place is read with what follows it: a third of the line at the least.
  const cutBefore = from > indent || total(before) > Math.floor((room * 2) / 3);
  if (cutBefore) before = ['…', ...lastOf(before, Math.floor(room / 3))].map(asPiece);
  const left = room - total(before);
  if (to < line.length || total(after) > left) after = [...firstOf(after, left - 1), '…'].map(asPiece);
  return { line: textOf([...before, ...after]), before: total(before) };
}

function pieces(text: string): Piece[] {
  return Array.from(graphemes.segment(text), ({ segment }) => asPiece(shown(segment)));
}

const asPiece = (piece: string | Piece): Piece =>
  typeof piece === 'string' ? { text: piece, columns: width(piece) } : piece;
const total = (of: readonly Piece[]) => of.reduce((sum, { columns }) => sum + columns, 0);
const textOf = (of: readonly Piece[]) => of.map(({ text }) => text).join('');

function firstOf(of: readonly Piece[], room: number): Piece[] {
  let used = 0;
  const end = of.findIndex(({ columns }) => {
    used += columns;
    return used > room;
  });
  return end < 0 ? [...of] : of.slice(0, end);
}

const lastOf = (of: readonly Piece[], room: number): Piece[] => firstOf([...of].reverse(), room).reverse();
