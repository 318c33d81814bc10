import type { TableBlock } from '../view/model.js';
import type { Piece } from './flow.js';
import { type GridRow, gridPieces, type Written } from './grid.js';
import type { Item, ListEntry } from './items.js';
import type { Line } from './lines.js';
import { colors, type Hand, lineHeight, type Pen, type Tag } from './pen.js';
import { picturePiece } from './picture.js';
import { storedPieces } from './stored.js';
import { type Wish, widthsOf } from './widths.js';

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

/** Items as pieces, each with its place in the structure tree under `parent`. */
export function piecesOf(pen: Pen, items: readonly Item[], layout: Layout, parent: Tag): Piece[] {
  let part = parent;
  return items.flatMap(item => {
    if (item.kind === 'heading') part = pen.tag(parent, 'Sect');
    return pieces(pen, item, layout, part);
  });
}

function pieces(pen: Pen, item: Item, layout: Layout, parent: Tag): Piece[] {
  const { size, air } = layout;
  switch (item.kind) {
    case 'title': {
      const above: Hand = { size: size * 0.94, color: colors.soft };
      const title: Hand = { size: size * 1.62, bold: true };
      return [
        ...(item.above === ''
          ? []
          : text(pen, [item.above], above, layout, pen.tag(parent, 'P'), 'P', { keep: true })),
        ...text(pen, [item.text], title, layout, pen.tag(parent, 'H1'), 'H1', { keep: true, gap: 1 }),
      ];
    }
    case 'heading':
      return headingPieces(pen, item.text, layout, parent);
    case 'text': {
      const hand: Hand = {
        size: item.look === 'soft' ? size * 0.9 : item.look === 'strong' ? size * 1.06 : size,
        bold: item.look === 'strong',
        ...(item.look === 'soft' && { color: colors.soft }),
      };
      return item.lines.flatMap((line, i) =>
        text(pen, [line], hand, layout, pen.tag(parent, 'P'), 'P', {
          gap: i > 0 ? 1 : item.look === 'soft' ? 8 * air : 3 * air,
        }),
      );
    }
    case 'facts':
      return factsPieces(pen, item, layout, parent);
    case 'table':
      return tablePieces(pen, item.table, layout, parent);
    case 'list':
      return listPieces(pen, item.entries, layout, parent);
    case 'box':
      return boxPieces(pen, item, layout, parent);
    case 'picture':
      return [picturePiece(pen, item, layout, parent)];
    case 'stored':
      return storedPieces(pen, item, layout, parent);
  }
}

/** Lines of a paragraph that stay together. */
const TOGETHER = 8;

function text(
  pen: Pen,
  words: readonly string[],
  hand: Hand,
  { left, width }: Layout,
  tag: Tag,
  type: string,
  { keep = false, gap = 0 }: { keep?: boolean; gap?: number },
): Piece[] {
  const lines = words.flatMap(line => pen.lines(line, width, hand));
  return chunks(lines, TOGETHER).map((chunk, i) => ({
    height: chunk.length * lineHeight(hand),
    gap: i === 0 ? gap : 0,
    keep,
    draw: y => pen.inside(tag, type, () => write(pen, chunk, left, y, hand)),
  }));
}

function write(pen: Pen, lines: readonly Line[], x: number, y: number, hand: Hand): void {
  lines.forEach((line, i) => {
    pen.line(line, x, y + i * lineHeight(hand), hand);
  });
}

function chunks<T>(list: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(list.length / size) }, (_, i) =>
    list.slice(i * size, (i + 1) * size),
  );
}

function headingPieces(pen: Pen, words: string, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, air } = layout;
  const hand: Hand = { size: size * 1.16, bold: true, color: colors.lead };
  const lines = pen.lines(words, width, hand);
  const height = lines.length * lineHeight(hand) + 3 + 1.5 * air;
  const tag = pen.tag(parent, 'H2');
  return [
    {
      height,
      gap: 7.5 * air,
      keep: true,
      draw(y) {
        const base = y + lines.length * lineHeight(hand) + 1.6;
        pen.ornament(() =>
          pen.doc
            .moveTo(left, base)
            .lineTo(left + width, base)
            .lineWidth(1.3)
            .stroke(colors.lead),
        );
        pen.inside(tag, 'H2', () => write(pen, lines, left, y, hand));
      },
    },
  ];
}

function captionPieces(pen: Pen, caption: string, layout: Layout, table: Tag): Piece[] {
  if (caption === '') return [];
  const hand: Hand = { size: layout.size, bold: true };
  return text(pen, [caption], hand, layout, pen.tag(table, 'Caption'), 'Caption', {
    keep: true,
    gap: 4.5 * layout.air,
  });
}

function factsPieces(pen: Pen, item: Extract<Item, { kind: 'facts' }>, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, most } = layout;
  const { across, facts, framed } = item;
  const table = pen.tag(parent, 'Table', framed ? { alt: item.caption } : {});
  const label: Hand = { size: size * 0.97, color: colors.soft };
  const cells = facts.map(fact => [
    { head: true, text: [{ text: fact.label, hand: label }] },
    {
      head: false,
      text: fact.lines.map(line => ({
        text: line,
        hand: fact.said ? { size, bold: fact.strong === true } : { size, slanted: true, color: colors.soft },
      })),
    },
  ]);
  const empty = { head: false, text: [] };
  const rows = chunks(cells, across).map((row): GridRow => {
    const missing = Array.from({ length: 2 * (across - row.length) }, () => empty);
    return { cells: [...row.flat(), ...missing], alert: false };
  });
  const widest = Math.max(...facts.map(fact => pen.width(fact.label, label))) + 9;
  const named = Math.min(widest, (across === 1 ? 0.3 : 0.2) * width);
  // Labels of one column stand under each other from block to block.
  const first = across === 1 ? Math.max(named, 0.235 * width) : named;
  const columns = Array.from({ length: across }, () => [first, width / across - first]).flat();
  return [
    ...(framed ? [] : captionPieces(pen, item.caption, layout, table)),
    ...gridPieces(
      pen,
      { rows, widths: columns, left, framed, most, gap: framed ? 3 * layout.air : 0 },
      table,
    ),
  ];
}

function tablePieces(pen: Pen, block: TableBlock, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, most } = layout;
  const table = pen.tag(parent, 'Table', block.quiet ? { alt: block.caption } : {});
  const titles = block.columns.map(
    (title): Written => ({ text: title, hand: { size: size * 0.94, bold: true } }),
  );
  const rows = block.rows.map(
    ({ head, cells, alert }): GridRow => ({
      alert,
      cells: [
        {
          head: true,
          text: head.lines.map((line, i) => ({
            text: alert && i === 0 ? `! ${line}` : line,
            hand: { size, bold: i === 0 },
          })),
        },
        ...cells.map(cell => ({
          head: false,
          text: cell.lines.map(line => ({ text: line, hand: { size } })),
        })),
      ],
    }),
  );
  const wishes = titles.map((title, column): Wish => {
    const all = [title, ...rows.flatMap(row => row.cells[column]?.text ?? [])];
    const lines = all.map(({ text: words, hand }) => pen.width(words, hand) + 9);
    const words = all.flatMap(({ text: line, hand }) =>
      line.split(/\s+/).map(word => pen.width(word, hand) + 9),
    );
    return { least: Math.max(...words), most: Math.max(...lines) };
  });
  const grid = {
    columns: titles,
    rows,
    widths: widthsOf(wishes, width),
    left,
    framed: false,
    most,
    gap: block.quiet ? 1 : 0,
  };
  return [
    ...(block.quiet ? [] : captionPieces(pen, block.caption, layout, table)),
    ...gridPieces(pen, grid, table),
  ];
}

function listPieces(pen: Pen, entries: readonly ListEntry[], layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, air } = layout;
  const indent = size * 1.5;
  const list = pen.tag(parent, 'L');
  return entries.flatMap((entry, index) => {
    const item = pen.tag(list, 'LI');
    const label = pen.tag(item, 'Lbl');
    const body = pen.tag(item, 'LBody');
    const mark: Hand = { size, bold: entry.alert };
    const laid = entry.lines.flatMap((words, i) => {
      const hand: Hand = { size, bold: entry.strong && i === 0 };
      return pen.lines(words, width - indent, hand).map(line => ({ line, hand }));
    });
    return chunks(laid, TOGETHER).map(
      (chunk, part): Piece => ({
        height: chunk.length * lineHeight(mark),
        gap: part > 0 ? 0 : index === 0 ? 2.5 * air : 1.6 * air,
        keep: false,
        draw(y) {
          if (part === 0)
            pen.inside(label, 'Lbl', () => {
              write(pen, pen.lines(entry.alert ? '!' : '•', indent, mark), left + size * 0.4, y, mark);
            });
          pen.inside(body, 'LBody', () => {
            chunk.forEach(({ line, hand }, i) => {
              pen.line(line, left + indent, y + i * lineHeight(hand), hand);
            });
          });
        },
      }),
    );
  });
}

/** What stays together in a frame; where no page holds it, it runs on without one. */
function boxPieces(
  pen: Pen,
  { heavy, items }: Extract<Item, { kind: 'box' }>,
  layout: Layout,
  parent: Tag,
): Piece[] {
  const { left, width, air } = layout;
  const [over, side] = heavy ? [5, 13] : [4, 9];
  const inner: Layout = { ...layout, left: left + side, width: width - 2 * side };
  const parts = piecesOf(pen, items, inner, pen.tag(parent, 'Sect'));
  const heights = parts.map((piece, i) => (i === 0 ? 0 : piece.gap) + piece.height);
  const height = heights.reduce((sum, h) => sum + h, 0) + 2 * over;
  if (height > layout.most) return parts;
  return [
    {
      height,
      gap: 6 * air,
      keep: false,
      draw(y) {
        pen.ornament(() => {
          pen.doc
            .rect(left, y, width, height)
            .lineWidth(heavy ? 2 : 1.2)
            .stroke(colors.ink);
          if (heavy) pen.doc.rect(left, y, 7, height).fill(colors.ink);
        });
        let at = y + over;
        parts.forEach((piece, i) => {
          piece.draw(at + (i === 0 ? 0 : piece.gap));
          at += heights[i] ?? 0;
        });
      },
    },
  ];
}
