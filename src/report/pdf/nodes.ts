import type { DocumentSection, List, Node, Paragraph, ReportDocument } from '../view/nodes.js';
import type { Piece } from './flow.js';
import { colors, type Hand, type Pen, rule, type Tag } from './pen.js';
import { figurePiece, galleryPieces } from './picture.js';
import { type Layout, row, text } from './rows.js';
import { factsPieces, stripPieces, tablePieces } from './tables.js';

/** A document as pieces of pages, each with its place in the structure tree under `root`. */
export function piecesOf(pen: Pen, document: ReportDocument, layout: Layout, root: Tag): Piece[] {
  const { sections, callout, caution } = document;
  const { size, air } = layout;
  const soft: Hand = { size: size * 0.9, color: colors.soft };
  // A broad figure takes a page of its own, so it stands after all that is read in one go.
  const isBroad = (node: Node) => node.kind === 'figure' && node.broad;
  const broad = sections.flatMap(section => section.nodes.filter(isBroad));
  const inText = sections.map(section => ({
    ...section,
    nodes: section.nodes.filter(node => !isBroad(node)),
  }));
  return [
    ...titlePieces(pen, document, layout, root),
    ...stripPieces(pen, document.strip, layout, root),
    ...(callout.length === 0 ? [] : boxed(pen, layout, true, inner => strong(pen, callout, inner, root))),
    ...inText.flatMap(section => sectionPieces(pen, section, layout, root)),
    ...caution.flatMap((line, i) => text(pen, line, soft, layout, root, 'P', { gap: i > 0 ? 1 : 8 * air })),
    ...broad.flatMap(node => nodePieces(pen, node, layout, pen.tag(root, 'Sect'))),
  ];
}

function titlePieces(pen: Pen, { above, title }: ReportDocument, layout: Layout, root: Tag): Piece[] {
  const { size } = layout;
  const small: Hand = { size: size * 0.94, color: colors.soft };
  return [
    ...(above === '' ? [] : text(pen, above, small, layout, root, 'P', { keep: true })),
    ...text(pen, title, { size: size * 1.62, bold: true }, layout, root, 'H1', { keep: true, gap: 1 }),
  ];
}

function sectionPieces(pen: Pen, section: DocumentSection, layout: Layout, root: Tag): Piece[] {
  const part = pen.tag(root, 'Sect');
  const all = (inner: Layout) => [
    ...headingPieces(pen, section.title, inner, part),
    ...section.nodes.flatMap(node => nodePieces(pen, node, inner, part)),
  ];
  const pieces = section.framed ? boxed(pen, layout, false, all) : all(layout);
  return section.page ? pieces.map((piece, i) => (i === 0 ? { ...piece, turns: true } : piece)) : pieces;
}

function nodePieces(pen: Pen, node: Node, layout: Layout, parent: Tag): Piece[] {
  switch (node.kind) {
    case 'paragraph':
      return paragraphPieces(pen, node, layout, parent);
    case 'list':
      return listPieces(pen, node, layout, parent);
    case 'facts':
      return factsPieces(pen, node, layout, parent);
    case 'table':
      return tablePieces(pen, node, layout, parent);
    case 'figure':
      return [figurePiece(pen, node, layout, parent)];
    case 'gallery':
      return galleryPieces(pen, node, layout, parent);
  }
}

function paragraphPieces(pen: Pen, node: Paragraph, layout: Layout, parent: Tag): Piece[] {
  if (node.strong) return strong(pen, node.lines, layout, parent);
  const { size, air } = layout;
  return node.lines.flatMap((line, i) =>
    text(pen, line, { size }, layout, parent, 'P', { gap: i > 0 ? 1 : 3 * air }),
  );
}

function strong(pen: Pen, lines: readonly string[], layout: Layout, parent: Tag): Piece[] {
  const hand: Hand = { size: layout.size * 1.06, bold: true };
  return lines.flatMap((line, i) =>
    text(pen, line, hand, layout, parent, 'P', { gap: i > 0 ? 1 : 3 * layout.air }),
  );
}

/** A title with a rule under it, which is an entry of the outline too. */
function headingPieces(pen: Pen, title: string, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, air, most } = layout;
  const hand: Hand = { size: size * 1.16, bold: true, color: colors.lead };
  const tag = { element: pen.tag(parent, 'H2'), type: 'H2' };
  const [piece, ...more] = row(pen, [{ text: [{ text: title, hand }], left, width, tag }], most, {
    gap: 7.5 * air,
    keep: true,
  });
  if (!piece) return [];
  const lower = 3 + 1.5 * air;
  const ruled = (one: Piece): Piece => ({
    ...one,
    height: one.height + lower,
    draw(y) {
      const base = y + one.height + 1.6;
      pen.ornament(() => rule(pen, [left, base, left + width, base], 1.3, colors.lead));
      pen.entry(title, y);
      one.draw(y);
    },
  });
  return more.length === 0 ? [ruled(piece)] : [piece, ...more];
}

function listPieces(pen: Pen, { items }: List, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, air, most } = layout;
  const indent = size * 1.5;
  const list = pen.tag(parent, 'L');
  return items.flatMap(({ lines, strong: named, alert }, index) => {
    const item = pen.tag(list, 'LI');
    const mark = { text: alert ? '!' : '•', hand: { size, bold: alert } };
    const label = { element: pen.tag(item, 'Lbl'), type: 'Lbl' };
    const body = { element: pen.tag(item, 'LBody'), type: 'LBody' };
    const words = lines.map((line, i) => ({ text: line, hand: { size, bold: named && i === 0 } }));
    return row(
      pen,
      [
        { text: [mark], left: left + size * 0.4, width: indent, tag: label },
        { text: words, left: left + indent, width: width - indent, tag: body },
      ],
      most,
      { gap: index === 0 ? 2.5 * air : 1.6 * air },
    );
  });
}

/** What stays together in a frame; where no page holds it, it runs on without one. */
function boxed(pen: Pen, layout: Layout, heavy: boolean, make: (inner: Layout) => Piece[]): Piece[] {
  const { left, width, air, most } = layout;
  const [over, side] = heavy ? [5, 13] : [4, 9];
  const parts = make({ ...layout, left: left + side, width: width - 2 * side });
  const tops = parts.map((_, i) =>
    parts
      .slice(0, i + 1)
      .reduce((sum, piece, n) => sum + (n === 0 ? 0 : piece.gap) + (n === i ? 0 : piece.height), over),
  );
  const height = (tops.at(-1) ?? over) + (parts.at(-1)?.height ?? 0) + over;
  if (height > most) return parts;
  const draw = (y: number) => {
    pen.ornament(() => {
      pen.doc
        .rect(left, y, width, height)
        .lineWidth(heavy ? 2 : 1.2)
        .stroke(colors.ink);
      if (heavy) pen.doc.rect(left, y, 7, height).fill(colors.ink);
    });
    parts.forEach((piece, i) => {
      piece.draw(y + (tops[i] ?? 0));
    });
  };
  return [{ height, gap: 6 * air, keep: false, draw }];
}
