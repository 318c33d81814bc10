import type { ShownPicture } from '../pictures/stored.js';
import type { Piece } from './flow.js';
import type { Item } from './items.js';
import type { Layout } from './layout.js';
import type { Line } from './lines.js';
import { colors, type Hand, lineHeight, type Pen, type Tag } from './pen.js';

const GAP = 12;
/** Tallest picture, in points: two rows and their captions fit on a page. */
const TALLEST = 280;
/** Finest print: pixels of a picture to the point, 150 to the inch, so that a small one is not blown up. */
const PIXELS = 150 / 72;
/** Lines of a caption; the table above the pictures has all its words. */
const MOST_LINES = 6;

interface Placed {
  readonly shown: ShownPicture;
  readonly width: number;
  readonly height: number;
  readonly caption: readonly Line[];
  readonly figure: Tag;
  readonly title: Tag;
}

/** Stored pictures two by two, each with its caption under it and never parted from it; a note at the end. */
export function storedPieces(
  pen: Pen,
  { pictures, note }: Extract<Item, { kind: 'stored' }>,
  { left, width, size, air }: Layout,
  parent: Tag,
): Piece[] {
  const hand: Hand = { size };
  const room = (width - GAP) / 2;
  const placed = pictures.map((shown): Placed => {
    const { picture } = shown;
    const scale = Math.min(room / picture.width, TALLEST / picture.height, 1 / PIXELS);
    const figure = pen.tag(parent, 'Figure', { alt: shown.alt });
    return {
      shown,
      width: picture.width * scale,
      height: picture.height * scale,
      caption: shortened(pen.lines(shown.caption, room, hand)),
      figure,
      title: pen.tag(figure, 'Caption'),
    };
  });
  const rows = Array.from({ length: Math.ceil(placed.length / 2) }, (_, i) => placed.slice(2 * i, 2 * i + 2));
  const soft: Hand = { size: size * 0.9, color: colors.soft };
  const last = pen.tag(parent, 'P');
  const words = pen.lines(note, width, soft);
  return [
    ...rows.map((row, index): Piece => {
      const tall = Math.max(...row.map(one => one.height));
      const lines = Math.max(...row.map(one => one.caption.length));
      return {
        height: tall + 2 + lines * lineHeight(hand),
        gap: 5 * air,
        keep: index === rows.length - 1,
        draw(y) {
          row.forEach((one, column) => {
            const x = left + column * (room + GAP);
            pen.inside(one.figure, 'Figure', () => {
              const { jpeg } = one.shown.picture;
              pen.doc.image(Buffer.from(jpeg), x, y, { width: one.width, height: one.height });
            });
            pen.ornament(() => pen.doc.rect(x, y, one.width, one.height).lineWidth(0.5).stroke(colors.line));
            pen.inside(one.title, 'Caption', () => {
              one.caption.forEach((line, i) => {
                pen.line(line, x, y + one.height + 2 + i * lineHeight(hand), hand);
              });
            });
          });
        },
      };
    }),
    {
      height: words.length * lineHeight(soft),
      gap: 2 * air,
      keep: false,
      draw(y) {
        pen.inside(last, 'P', () => {
          words.forEach((line, i) => {
            pen.line(line, left, y + i * lineHeight(soft), soft);
          });
        });
      },
    },
  ];
}

function shortened(lines: readonly Line[]): readonly Line[] {
  if (lines.length <= MOST_LINES) return lines;
  return [...lines.slice(0, MOST_LINES - 1), { runs: [{ text: '…', x: 0 }], width: 0 }];
}
