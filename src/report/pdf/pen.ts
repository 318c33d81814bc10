import type PDFDocument from 'pdfkit';
import type { Faces } from './faces.js';
import { printable } from './glyphs.js';
import { type Line, layLines, type Measure, RIGHT_TO_LEFT } from './lines.js';

/** The document being drawn. */
export type Doc = InstanceType<typeof PDFDocument>;
/** An element of the structure tree: what a screen reader is told. */
export type Tag = ReturnType<Doc['struct']>;

export interface Hand {
  readonly size: number;
  readonly bold?: boolean;
  /** Slanted, for what nobody said: 'not recorded', 'none'. */
  readonly slanted?: boolean;
  readonly color?: string;
}

export const colors = {
  ink: '#16191c',
  soft: '#454d54',
  lead: '#14485a',
  line: '#aeb7bd',
  hair: '#d5dbdf',
  band: '#eef1f3',
} as const;

/** Height of a line as a multiple of the size of its letters. */
const LEADING = 1.26;

export const lineHeight = (hand: Hand): number => hand.size * LEADING;

/** Writes and measures in the two cuts of one typeface, and in others what that lacks; keeps the structure tree in step with what is drawn. */
export interface Pen {
  readonly doc: Doc;
  lines(text: string, width: number, hand: Hand): Line[];
  width(text: string, hand: Hand): number;
  /** Draws one line, its top at `y`. */
  line(line: Line, x: number, y: number, hand: Hand): void;
  /** A new element under `parent`. */
  tag(parent: Tag, type: string, options?: { scope?: 'Column' | 'Row'; alt?: string; bbox?: Box }): Tag;
  /** Draws what belongs to an element. */
  inside(tag: Tag, type: string, draw: () => void): void;
  /** An entry of the outline, which leads to `y` on this page. */
  entry(title: string, y: number): void;
  /** Draws what says nothing: rules, frames, heads and feet of pages. */
  ornament(draw: () => void, type?: 'Layout' | 'Pagination'): void;
}

export type Box = [left: number, top: number, right: number, bottom: number];

export function makePen(doc: Doc, faces: Faces): Pen {
  const { covers } = faces;
  const taken = new Set<string>();
  const take = ({ size, bold = false }: Hand, face = '') => {
    const name = `${bold ? 'bold' : 'regular'} ${face}`;
    // A typeface is in the file when it was taken, so that one that no sign needs is not.
    if (!taken.has(name)) doc.registerFont(name, faces.font(face, bold));
    taken.add(name);
    return doc.font(name, size);
  };
  const measure = ({ size, bold = false }: Hand): Measure => {
    return text =>
      faces.stretches(text).reduce((sum, part) => sum + faces.width(part.text, part.face, bold) * size, 0);
  };
  return {
    doc,
    lines: (text, width, hand) => layLines(printable(text, covers), width, measure(hand)),
    width: (text, hand) => measure(hand)(printable(text, covers)),
    line({ runs }, x, y, hand) {
      doc.fillColor(hand.color ?? colors.ink);
      const top = y + (lineHeight(hand) - hand.size * 1.16) / 2;
      for (const run of runs) {
        let at = x + run.x;
        const parts = faces.stretches(run.text);
        // A run is in one direction: its stretches are drawn from left to right.
        for (const { face, text } of RIGHT_TO_LEFT.test(run.text) ? parts.toReversed() : parts) {
          take(hand, face);
          doc.text(text, at, top - faces.rise(face) * hand.size, {
            lineBreak: false,
            ...(hand.slanted && { oblique: 10 }),
          });
          at += faces.width(text, face, hand.bold === true) * hand.size;
        }
      }
    },
    tag(parent, type, options = {}) {
      const tag = doc.struct(type as 'P', options);
      parent.add(tag);
      return tag;
    },
    inside(tag, type, draw) {
      const content = doc.markStructureContent(type as 'P');
      draw();
      doc.endMarkedContent();
      tag.add(content);
    },
    entry(title, y) {
      // `left` counts from the right edge. The library's types know of `expanded` alone.
      const place = { expanded: false, top: y, left: doc.page.width };
      doc.outline.addItem(printable(title, covers), place);
    },
    ornament(draw, type = 'Layout') {
      doc.markContent('Artifact', { type });
      draw();
      doc.endMarkedContent();
    },
  };
}

/** A line cut to a width, with a sign that it was. */
export function cut(pen: Pen, text: string, width: number, hand: Hand): Line {
  const [first = { runs: [], width: 0 }, ...more] = pen.lines(text, width, hand);
  if (more.length === 0) return first;
  const [short = first] = pen.lines(text, width - pen.width('…', hand), hand);
  const end = short.width;
  return { runs: [...short.runs, { text: '…', x: end }], width: end + pen.width('…', hand) };
}

/** A rule from one point to another. */
export function rule({ doc }: Pen, [x1, y1, x2, y2]: Box, thick: number, color: string): void {
  doc.moveTo(x1, y1).lineTo(x2, y2).lineWidth(thick).stroke(color);
}
