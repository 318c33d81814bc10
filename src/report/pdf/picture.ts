import { SaxesParser } from 'saxes';
import { CasetallyError } from '../../findings/errors.js';
import type { Piece } from './flow.js';
import type { Item } from './items.js';
import type { Layout } from './layout.js';
import { colors, cut, type Doc, type Pen, type Tag } from './pen.js';

type Attributes = Readonly<Record<string, string>>;

/** Space from the top of the caption to the top of the picture, in points. */
const CAPTION = 18;

/** A drawing: on a page of its own as large as the page allows, else as wide as the text. */
export function picturePiece(
  pen: Pen,
  { caption, svg, alone }: Extract<Item, { kind: 'picture' }>,
  layout: Pick<Layout, 'width' | 'size' | 'air'>,
  parent: Tag,
): Piece {
  const picture = readPicture(svg);
  const figure = pen.tag(parent, 'Figure', { alt: picture.words.join(' ') });
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

interface Node {
  readonly name: string;
  readonly attributes: Attributes;
  readonly children: Node[];
  text: string;
}

interface Picture {
  readonly root: Node;
  readonly width: number;
  readonly height: number;
  /** Its title and description: what stands for it where it cannot be seen. */
  readonly words: readonly string[];
}

/** Reads the SVG that Casetally draws; it uses a few elements, and any other is a fault of the program. */
function readPicture(svg: string): Picture {
  const top: Node = { name: '', attributes: {}, children: [], text: '' };
  const open: Node[] = [top];
  const parser = new SaxesParser();
  parser.on('error', error => refuse(error.message));
  parser.on('opentag', ({ name, attributes }) => {
    const node: Node = { name, attributes: attributes as Attributes, children: [], text: '' };
    open.at(-1)?.children.push(node);
    open.push(node);
  });
  parser.on('text', text => {
    const node = open.at(-1);
    if (node) node.text += text;
  });
  parser.on('closetag', () => open.pop());
  parser.write(svg).close();
  const root = top.children[0] ?? refuse('it is empty');
  const said = (name: string) => root.children.filter(child => child.name === name).map(child => child.text);
  return {
    root,
    width: number(root.attributes, 'width'),
    height: number(root.attributes, 'height'),
    words: [...said('title'), ...said('desc')],
  };
}

function refuse(why: string): never {
  throw new CasetallyError('usage', `A picture cannot be drawn: ${why}.`);
}

function number(attributes: Attributes, name: string): number {
  const value = Number(attributes[name] ?? 0);
  return Number.isFinite(value) ? value : refuse(`${name} is no number`);
}

function draw(pen: Pen, { name, attributes, children, text }: Node): void {
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
      const at = (key: string) => number(attributes, key);
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
      refuse(`it has a ${name} element`);
  }
}

function words(pen: Pen, attributes: Attributes, text: string): void {
  const size = number(attributes, 'font-size') || 11;
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
  pen.line(line, number(attributes, 'x') - shift, number(attributes, 'y') - hand.size * 1.02, hand);
}

/** Draws an outline as its attributes say; patterns of stripes are drawn line by line inside it. */
function shape({ doc }: Pen, attributes: Attributes, outline: () => Doc): void {
  const fill = attributes['fill'] ?? '#000000';
  const stroke = attributes['stroke'];
  doc.save();
  const pattern = /^url\(#.*-(inflated|retained)\)$/.exec(fill)?.[1];
  if (fill.startsWith('url') && pattern === undefined) refuse(`it has a ground of ${fill}`);
  if (pattern !== undefined) {
    doc.save();
    outline().clip();
    stripes(doc, attributes, pattern === 'retained');
    doc.restore();
  }
  doc.lineWidth(number(attributes, 'stroke-width') || 1);
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
  const at = (key: string) => number(attributes, key);
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
