import { lexicon } from '../../findings/say.js';
import type { ReportDocument } from '../view/nodes.js';
import { colors, cut, type Hand, lineHeight, type Pen } from './pen.js';

/** Space that heads and feet take from the edge of the paper, in points. */
export const margins = { top: 62, bottom: 46, left: 44, right: 44 } as const;

/** Writes on every page who it is about, how far it can be relied on, and which page it is. */
export function framePages(pen: Pen, document: ReportDocument): void {
  const { say } = lexicon(document.language);
  const { start, count } = pen.doc.bufferedPageRange();
  for (let index = start; index < start + count; index += 1) {
    pen.doc.switchToPage(index);
    pen.ornament(() => {
      head(pen, document);
      foot(pen, document, say('page.number', { n: `${index + 1}`, m: `${count}` }));
    }, 'Pagination');
  }
}

function head(pen: Pen, { running, status }: ReportDocument): void {
  const { doc } = pen;
  const { left } = margins;
  const right = doc.page.width - margins.right;
  const width = right - left;
  const name: Hand = { size: 8.6, bold: true };
  const small: Hand = { size: 7.6, color: colors.soft };
  // A report that nobody may rely on says so in white on black: that outlives a copier.
  const state: Hand = { size: 8.6, bold: true, color: status.caution ? '#ffffff' : colors.ink };
  const line = cut(pen, status.line, width * 0.42, state);
  const top = 24;
  if (status.caution) doc.rect(right - line.width - 12, top - 2.5, line.width + 12, 16).fill(colors.ink);
  pen.line(line, right - line.width - (status.caution ? 6 : 0), top, state);
  pen.line(cut(pen, running.person, width - line.width - 26, name), left, top, name);
  pen.line(cut(pen, running.identifiers, width, small), left, top + lineHeight(name) + 0.5, small);
  const base = top + lineHeight(name) + lineHeight(small) + 3.5;
  doc.moveTo(left, base).lineTo(right, base).lineWidth(0.7).stroke(colors.line);
}

function foot(pen: Pen, { running }: ReportDocument, page: string): void {
  const { doc } = pen;
  const { left } = margins;
  const right = doc.page.width - margins.right;
  const hand: Hand = { size: 7.6, color: colors.soft };
  const number: Hand = { ...hand, bold: true, color: colors.ink };
  const y = doc.page.height - 33;
  doc
    .moveTo(left, y - 4)
    .lineTo(right, y - 4)
    .lineWidth(0.7)
    .stroke(colors.line);
  const line = cut(pen, page, 200, number);
  pen.line(line, right - line.width, y, number);
  pen.line(cut(pen, running.report, right - left - line.width - 20, hand), left, y, hand);
}
