import type { FactsBlock, TableBlock } from '../view/model.js';
import type { Strip } from '../view/nodes.js';
import type { Piece } from './flow.js';
import { type Box, colors, type Hand, type Pen, rule, type Tag } from './pen.js';
import { type Cell, type Layout, row, text, type Written } from './rows.js';
import { type Wish, widthsOf } from './widths.js';

/** Space beside and above the text of a cell. */
const PAD = 4;
const OVER = 1.7;

function captionPieces(pen: Pen, caption: string, layout: Layout, table: Tag): Piece[] {
  const hand: Hand = { size: layout.size, bold: true };
  if (caption === '') return [];
  return text(pen, caption, hand, layout, table, 'Caption', { keep: true, gap: 4.5 * layout.air });
}

/** Cells side by side, each as wide as its column. */
function across(
  pen: Pen,
  cells: readonly { readonly text: readonly Written[]; readonly head: boolean }[],
  widths: readonly number[],
  left: number,
  parent: Tag,
  scope: 'Row' | 'Column' = 'Row',
): Cell[] {
  const tr = pen.tag(parent, 'TR');
  return cells.map(({ text: words, head }, column) => ({
    text: words,
    left: left + PAD + widths.slice(0, column).reduce((sum, width) => sum + width, 0),
    width: (widths[column] ?? 0) - 2 * PAD,
    tag: head
      ? { element: pen.tag(tr, 'TH', { scope }), type: 'TH' }
      : { element: pen.tag(tr, 'TD'), type: 'TD' },
  }));
}

interface Labelled {
  readonly label: string;
  readonly value: readonly Written[];
}

/** Labels with their values, one or two a row. */
function labelled(
  pen: Pen,
  rows: readonly (readonly Labelled[])[],
  beside: 1 | 2,
  layout: Layout,
  table: Tag,
  style: (index: number) => Parameters<typeof row>[3],
): Piece[] {
  const { left, width, size, most } = layout;
  const hand: Hand = { size: size * 0.97, color: colors.soft };
  const widest = Math.max(...rows.flat().map(({ label }) => pen.width(label, hand))) + 9;
  const named = Math.min(widest, (beside === 1 ? 0.3 : 0.2) * width);
  // Labels of one column stand under each other from block to block.
  const first = beside === 1 ? Math.max(named, 0.235 * width) : named;
  const widths = Array.from({ length: beside }, () => [first, width / beside - first]).flat();
  return rows.flatMap((list, index) => {
    const cells = list.flatMap(({ label, value }) => [
      { text: [{ text: label, hand }], head: true },
      { text: value, head: false },
    ]);
    const missing = Array.from({ length: 2 * (beside - list.length) }, () => ({ text: [], head: false }));
    const all = across(pen, [...cells, ...missing], widths, left, table);
    return row(pen, all, most, { over: OVER, ...style(index) });
  });
}

/** Who and what it is about, in a frame. */
export function stripPieces(pen: Pen, { caption, rows }: Strip, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, air } = layout;
  const table = pen.tag(parent, 'Table', { alt: caption });
  const list = rows.map(facts =>
    facts.map(({ label, value, strong: bold }) => ({
      label,
      value: [{ text: value, hand: { size, bold } }],
    })),
  );
  return labelled(pen, list, 2, layout, table, index => ({
    gap: index === 0 ? 3 * air : 0,
    ground(top, bottom) {
      const [right, last] = [left + width, index === rows.length - 1];
      pen.doc.rect(left, top, width, bottom - top).fill(colors.band);
      for (const x of [left, right]) rule(pen, [x, top, x, bottom], 0.8, colors.ink);
      if (index === 0) rule(pen, [left, top, right, top], 0.8, colors.ink);
      if (last) rule(pen, [left, bottom, right, bottom], 0.8, colors.ink);
    },
  }));
}

export function factsPieces(pen: Pen, block: FactsBlock, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size } = layout;
  const { facts, across: beside, caption } = block;
  const table = pen.tag(parent, 'Table');
  const list = facts.map(({ label, lines, said }) => {
    const hand: Hand = said ? { size } : { size, slanted: true, color: colors.soft };
    return { label, value: lines.map(words => ({ text: words, hand })) };
  });
  const rows = Array.from({ length: Math.ceil(list.length / beside) }, (_, i) =>
    list.slice(beside * i, beside * (i + 1)),
  );
  return [
    ...captionPieces(pen, caption, layout, table),
    ...labelled(pen, rows, beside, layout, table, () => ({
      ground(_, bottom, last) {
        if (last) rule(pen, [left, bottom, left + width, bottom], 0.5, colors.hair);
      },
    })),
  ];
}

export function tablePieces(pen: Pen, block: TableBlock, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, most } = layout;
  const { caption, quiet, columns, rows } = block;
  const right = left + width;
  const table = pen.tag(parent, 'Table', quiet ? { alt: caption } : {});
  const titles = columns.map((title): Written => ({ text: title, hand: { size: size * 0.94, bold: true } }));
  const body = rows.map(({ head, cells, alert }) => ({
    alert,
    cells: [
      head.lines.map((words, i) => ({
        text: alert && i === 0 ? `! ${words}` : words,
        hand: { size, bold: i === 0 },
      })),
      ...cells.map(cell => cell.lines.map(words => ({ text: words, hand: { size } }))),
    ],
  }));
  const widths = widthsOf(
    titles.map((title, column) => wish(pen, [title, ...body.flatMap(one => one.cells[column] ?? [])])),
    width,
  );
  const titleCells = across(
    pen,
    titles.map(title => ({ text: [title], head: true })),
    widths,
    left,
    pen.tag(table, 'THead'),
    'Column',
  );
  const titleStyle = {
    over: OVER + 0.75,
    gap: quiet ? 1 : 0,
    keep: true,
    ground(top: number, bottom: number) {
      pen.doc.rect(left, top, width, bottom - top).fill(colors.band);
      rule(pen, [left, bottom, right, bottom], 0.7, colors.line);
    },
  };
  // Drawn anew on every page that the table runs on to, where it tells a screen reader nothing new.
  const [again] = row(
    pen,
    titleCells.map(({ tag: _, ...cell }) => cell),
    most,
    titleStyle,
  );
  const tbody = pen.tag(table, 'TBody');
  return [
    ...(quiet ? [] : captionPieces(pen, caption, layout, table)),
    ...row(pen, titleCells, most, titleStyle),
    ...body.flatMap(({ alert, cells }) => {
      const all = across(
        pen,
        cells.map((words, column) => ({ text: words, head: column === 0 })),
        widths,
        left,
        tbody,
      );
      return row(pen, all, most - (again?.height ?? 0), {
        over: OVER,
        ...(again && { again }),
        ground(top, bottom, last) {
          if (alert) alarm(pen, [left, top, right, bottom]);
          else if (last) rule(pen, [left, bottom, right, bottom], 0.5, colors.hair);
        },
      });
    }),
  ];
}

/** What a column asks for. */
function wish(pen: Pen, all: readonly Written[]): Wish {
  const widest = (list: readonly Written[]) =>
    Math.max(...list.map(({ text: words, hand }) => pen.width(words, hand))) + 2 * PAD + 1;
  const words = all.flatMap(({ text: line, hand }) => line.split(/\s+/).map(word => ({ text: word, hand })));
  return { least: widest(words), most: widest(all) };
}

/** What must not be missed: a dark frame, and a bar at the left that shows in grey too. */
function alarm({ doc }: Pen, [left, top, right, bottom]: Box): void {
  doc
    .rect(left, top + 0.6, right - left, bottom - top - 1.2)
    .lineWidth(1.2)
    .fillAndStroke('#f5f5f5', colors.ink);
  doc.rect(left, top + 0.6, 2.6, bottom - top - 1.2).fill(colors.ink);
}
