import { numberOf, type PictureNode, refusePicture } from '../pictures/svg.js';
import type { Figure, Gallery } from '../view/nodes.js';
import type { Piece } from './flow.js';
import type { Line } from './lines.js';
import { colors, cut, type Doc, type Hand, lineHeight, type Pen, type Tag } from './pen.js';
import { type Layout, row } from './rows.js';

type Attributes = PictureNode['attributes'];

/** Space from the top of the caption to the top of the picture, in points. */
const CAPTION = 18;

/** A drawing as wide as the text; a broad one on a page of its own, as large as the page allows. */
export function figurePiece(
  pen: Pen,
  { caption, alt, picture, broad: alone }: Figure,
  layout: Layout,
  parent: Tag,
): Piece {
  const figure = pen.tag(parent, 'Figure', { alt });
  const title = pen.tag(figure, 'Caption');
  return {
    height: alone ? 0 : CAPTION + picture.height * (layout.width / picture.width),
    gap: alone ? 0 : 5 * layout.air,
    keep: false,
    ...(alone && { alone }),
    draw(y) {
      const { page } = pen.doc;
      const { left, right, bottom } = page.margins;
      const hand = alone ? { size: 10, bold: true, color: colors.lead } : { size: layout.size, bold: true };
      const width = page.width - left - right;
      const room = page.height - bottom - y - CAPTION;
      // One in the text was given its height; rounding must not make it smaller.
      const wide = width / picture.width;
      const scale = alone ? Math.min(wide, room / picture.height) : wide;
      if (alone) pen.entry(caption, y);
      pen.inside(title, 'Caption', () => pen.line(cut(pen, caption, width, hand), left, y, hand));
      pen.inside(figure, 'Figure', () => {
        pen.doc
          .save()
          .translate(left, y + CAPTION)
          .scale(scale);
        draw(pen, picture.root);
        pen.doc.restore();
      });
    },
  };
}

const GAP = 12;
/** Tallest stored picture, in points: two rows and their captions fit on a page. */
const TALLEST = 280;
/** Finest print: pixels of a picture to the point, 150 to the inch, so that a small one is not blown up. */
const PIXELS = 150 / 72;
/** Lines of a caption; the table above the pictures has all its words. */
const MOST_LINES = 6;

/** Stored pictures two by two, each with its caption under it and never parted from it; a note at the end. */
export function galleryPieces(pen: Pen, { pictures, note }: Gallery, layout: Layout, parent: Tag): Piece[] {
  const { left, width, size, air, most } = layout;
  const hand: Hand = { size };
  const room = (width - GAP) / 2;
  const placed = pictures.map(({ picture, caption, alt }, index) => {
    const scale = Math.min(room / picture.width, TALLEST / picture.height, 1 / PIXELS);
    const figure = pen.tag(parent, 'Figure', { alt });
    return {
      jpeg: Buffer.from(picture.jpeg),
      x: left + (index % 2) * (room + GAP),
      size: { width: picture.width * scale, height: picture.height * scale },
      caption: shortened(pen.lines(caption, room, hand)),
      figure,
      title: pen.tag(figure, 'Caption'),
    };
  });
  const rows = Array.from({ length: Math.ceil(placed.length / 2) }, (_, i) => placed.slice(2 * i, 2 * i + 2));
  const soft: Hand = { size: size * 0.9, color: colors.soft };
  const tag = { element: pen.tag(parent, 'P'), type: 'P' };
  return [
    ...rows.map((pair, index): Piece => {
      const tall = Math.max(...pair.map(one => one.size.height));
      const lines = Math.max(...pair.map(one => one.caption.length));
      return {
        height: tall + 2 + lines * lineHeight(hand),
        gap: 5 * air,
        keep: index === rows.length - 1,
        draw(y) {
          for (const { x, figure, title, jpeg, size: box, caption } of pair) {
            pen.inside(figure, 'Figure', () => pen.doc.image(jpeg, x, y, box));
            pen.ornament(() => pen.doc.rect(x, y, box.width, box.height).lineWidth(0.5).stroke(colors.line));
            pen.inside(title, 'Caption', () => {
              caption.forEach((line, i) => {
                pen.line(line, x, y + box.height + 2 + i * lineHeight(hand), hand);
              });
            });
          }
        },
      };
    }),
    ...row(pen, [{ text: [{ text: note, hand: soft }], left, width, tag }], most, { gap: 2 * air }),
  ];
}

function shortened(lines: readonly Line[]): readonly Line[] {
  if (lines.length <= MOST_LINES) return lines;
  return [...lines.slice(0, MOST_LINES - 1), { runs: [{ text: '…', x: 0 }], width: 0 }];
}

function draw(pen: Pen, { name, attributes, children, text }: PictureNode): void {
  const { doc } = pen;
  switch (name) {
    case 'svg':
      for (const child of children) draw(pen, child);
      return;
    case 'g': {
      const [x = 0, y = 0] = (
        /^translate\(([-\d.]+)[ ,]+([-\d.]+)\)$/.exec(attributes['transform'] ?? '') ?? []
      )
        .slice(1)
        .map(Number);
      doc.save().translate(x, y);
      for (const child of children) draw(pen, child);
      doc.restore();
      return;
    }
    case 'rect': {
      const at = (key: string) => numberOf(attributes, key);
      shape(pen, attributes, () => doc.rect(at('x'), at('y'), at('width'), at('height')));
      return;
    }
    case 'path':
      shape(pen, attributes, () => doc.path(attributes['d'] ?? ''));
      return;
    case 'text':
      words(pen, attributes, text);
      return;
    case 'title':
    case 'desc':
    case 'defs':
      return;
    default:
      refusePicture(`it has a ${name} element`);
  }
}

function words(pen: Pen, attributes: Attributes, text: string): void {
  const size = numberOf(attributes, 'font-size') || 11;
  const hand = {
    // The letters of this typeface are wider than those of most pages that the picture is drawn for.
    size: size * 0.92,
    bold: attributes['font-weight'] === 'bold',
    color: attributes['fill'] ?? colors.ink,
  };
  const [line] = pen.lines(text, 10_000, hand);
  if (!line) return;
  const anchor = attributes['text-anchor'];
  const shift = anchor === 'middle' ? line.width / 2 : anchor === 'end' ? line.width : 0;
  pen.line(line, numberOf(attributes, 'x') - shift, numberOf(attributes, 'y') - hand.size * 1.02, hand);
}

/** Draws an outline as its attributes say; patterns of stripes are drawn line by line inside it. */
function shape({ doc }: Pen, attributes: Attributes, outline: () => Doc): void {
  const fill = attributes['fill'] ?? '#000000';
  const stroke = attributes['stroke'];
  doc.save();
  const pattern = /^url\(#.*-(inflated|retained)\)$/.exec(fill)?.[1];
  if (fill.startsWith('url') && pattern === undefined) refusePicture(`it has a ground of ${fill}`);
  if (pattern !== undefined) {
    doc.save();
    outline().clip();
    stripes(doc, attributes, pattern === 'retained');
    doc.restore();
  }
  doc.lineWidth(numberOf(attributes, 'stroke-width') || 1);
  const dashes = (attributes['stroke-dasharray'] ?? '')
    .split(/[ ,]+/)
    .map(Number)
    .filter(n => n > 0);
  if (dashes[0] !== undefined) doc.dash(dashes[0], { space: dashes[1] ?? dashes[0] });
  const filled = fill !== 'none' && pattern === undefined;
  if (filled && stroke !== undefined) outline().fillAndStroke(fill, stroke);
  else if (filled) outline().fill(fill);
  else if (stroke !== undefined) outline().stroke(stroke);
  doc.restore();
}

/** Slanted lines over the outline that is cut out: one way for an inflation, both ways for what stays against intention. */
function stripes(doc: Doc, attributes: Attributes, crossed: boolean): void {
  const { left, top, right, bottom } = boundsOf(attributes);
  doc.rect(left, top, right - left, bottom - top).fill('#ffffff');
  doc.lineWidth(1.4).strokeColor('#1a1a1a');
  const tall = bottom - top;
  for (let at = left - tall; at < right + tall; at += 6) {
    doc.moveTo(at, bottom).lineTo(at + tall, top);
    if (crossed) doc.moveTo(at, top).lineTo(at + tall, bottom);
  }
  doc.stroke();
}

/** What a rectangle, or a path of absolute straight lines, takes up. */
function boundsOf(attributes: Attributes): { left: number; top: number; right: number; bottom: number } {
  const at = (key: string) => numberOf(attributes, key);
  const path = attributes['d'];
  if (path === undefined)
    return { left: at('x'), top: at('y'), right: at('x') + at('width'), bottom: at('y') + at('height') };
  const xs: number[] = [];
  const ys: number[] = [];
  for (const [, command, rest = ''] of path.matchAll(/([MLHV])([^A-Za-z]*)/g)) {
    const numbers = rest.match(/-?\d+(?:\.\d+)?/g)?.map(Number) ?? [];
    numbers.forEach((n, i) => {
      const across = command === 'H' || (command !== 'V' && i % 2 === 0);
      (across ? xs : ys).push(n);
    });
  }
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}
