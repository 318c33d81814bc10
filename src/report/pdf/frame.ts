import type { Lexicon } from '../../findings/say.js';
import type { Audience } from '../options.js';
import type { ReportView } from '../view/model.js';
import { colors, cut, type Hand, lineHeight, type Pen } from './pen.js';
import { pageNumber } from './words.js';

/** Space that heads and feet take from the edge of the paper, in points. */
export const margins = { top: 62, bottom: 46, left: 44, right: 44 } as const;

/** Writes on every page who it is about, how far it can be relied on, and which page it is. */
export function framePages(pen: Pen, view: ReportView, say: Lexicon['say'], audience: Audience): void {
  const { start, count } = pen.doc.bufferedPageRange();
  for (let index = start; index < start + count; index += 1) {
    pen.doc.switchToPage(index);
    pen.ornament(() => {
      head(pen, view);
      foot(pen, view, say, audience, pageNumber(view.language, index + 1, count));
    }, 'Pagination');
  }
}

function head(pen: Pen, { identity, status }: ReportView): void {
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
  pen.line(cut(pen, identity.line, width - line.width - 26, name), left, top, name);
  pen.line(cut(pen, identity.identifiers, width, small), left, top + lineHeight(name) + 0.5, small);
  const base = top + lineHeight(name) + lineHeight(small) + 3.5;
  doc.moveTo(left, base).lineTo(right, base).lineWidth(0.7).stroke(colors.line);
}

function foot(pen: Pen, view: ReportView, say: Lexicon['say'], audience: Audience, page: string): void {
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
  const about = `${say(`page.audience.${audience}`)} · ${say('label.caseId')} ${view.caseId} · ${view.date}`;
  pen.line(cut(pen, about, right - left - line.width - 20, hand), left, y, hand);
}
