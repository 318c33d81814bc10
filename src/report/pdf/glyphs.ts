import { create, type Font } from 'fontkit';
import { type Finding, finding } from '../../findings/finding.js';
import type { PdfFonts } from './options.js';

/** Says whether a code point can be printed. */
export type Covers = (codePoint: number) => boolean;

/** What is not a sign of its own: marks of order, joiners, choices between shapes, tags. */
const UNSEEN = /\p{Default_Ignorable_Code_Point}/u;
const JOINERS = /[\u200c\u200d]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: controls are what it looks for
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\ud800-\udfff\ufffe\uffff]/;

/** Code points that both cuts of the typeface hold, so that bold and plain text show the same. */
export function coverage(fonts: PdfFonts): Covers {
  const both = [fonts.regular, fonts.bold].map(bytes => create(Buffer.from(bytes)) as Font);
  const known = new Map<number, boolean>();
  return codePoint => {
    const before = known.get(codePoint);
    if (before !== undefined) return before;
    const covered = both.every(font => font.hasGlyphForCodePoint(codePoint));
    known.set(codePoint, covered);
    return covered;
  };
}

/** Text as it can be printed: white space as single spaces, what the fonts lack as U+FFFD, unseen marks left out. */
export function printable(text: string, covers: Covers): string {
  const plain = text.replace(/[ \t\r\n\v\f\u0085\u2028\u2029]+/g, ' ').trim();
  if (/^[ -~]*$/.test(plain)) return plain;
  return Array.from(plain.normalize('NFC'), sign => {
    if (UNSEEN.test(sign) && !(JOINERS.test(sign) && covers(sign.codePointAt(0) ?? 0))) return '';
    return covers(sign.codePointAt(0) ?? 0) ? sign : '\ufffd';
  }).join('');
}

/** One finding a place: the characters of a record that the fonts lack. */
export function glyphFindings(record: unknown, covers: Covers): Finding[] {
  const findings: Finding[] = [];
  const visit = (value: unknown, path: string): void => {
    if (typeof value === 'string') {
      const lacking = missing(value, covers);
      if (lacking.length > 0)
        findings.push(finding('report.character-not-in-font', path, { characters: lacking.join(', ') }));
    } else if (Array.isArray(value)) {
      for (const [index, child] of value.entries()) visit(child, `${path}[${index}]`);
    } else if (typeof value === 'object' && value !== null) {
      for (const [key, child] of Object.entries(value)) visit(child, path === '' ? key : `${path}.${key}`);
    }
  };
  visit(record, '');
  return findings;
}

function missing(text: string, covers: Covers): string[] {
  if (/^[ -~]*$/.test(text)) return [];
  const signs = new Set(Array.from(text.normalize('NFC')));
  return [...signs]
    .filter(sign => !UNSEEN.test(sign) && !CONTROL.test(sign) && !covers(sign.codePointAt(0) ?? 0))
    .map(sign => `U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`);
}
