import { type Finding, finding } from '../../findings/finding.js';
import { codePoint } from '../../record/code-point.js';
import { fontsFor } from './script-fonts.js';

/** Says whether a code point can be printed. */
export type Covers = (codePoint: number) => boolean;

/** What is not a sign of its own: marks of order, joiners, choices between shapes, tags. */
export const UNSEEN = /\p{Default_Ignorable_Code_Point}/u;
const JOINERS = /[\u200c\u200d]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: controls are what it looks for
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\ud800-\udfff\ufffe\uffff]/u;

/** Text as it can be printed: white space as single spaces, what the fonts lack as U+FFFD, unseen marks left out. */
export function printable(text: string, covers: Covers): string {
  const plain = text.replace(/[ \t\r\n\v\f\u0085\u2028\u2029]+/g, ' ').trim();
  if (/^[ -~]*$/.test(plain)) return plain;
  return Array.from(plain.normalize('NFC'), sign => {
    if (UNSEEN.test(sign) && !(JOINERS.test(sign) && covers(sign.codePointAt(0) ?? 0))) return '';
    return covers(sign.codePointAt(0) ?? 0) ? sign : '\ufffd';
  }).join('');
}

/**
 * Findings for characters that the fonts lack: for each place of the record one on those that a package has, one on those
 * that none has. What a report has from elsewhere (names and texts of the site) is told without a place.
 */
export function glyphFindings(record: unknown, covers: Covers, document?: unknown): Finding[] {
  const findings: Finding[] = [];
  const told = new Set<string>();
  const tell = (text: string, path: string) => {
    const signs = missing(text, covers);
    for (const sign of signs) told.add(sign);
    findings.push(...findingsOf(signs, text, path));
  };
  visit(record, '', tell);
  if (document === undefined) return findings;
  const texts: string[] = [];
  visit(document, '', text => {
    if (missing(text, covers).some(sign => !told.has(sign))) texts.push(text);
  });
  const rest = texts.join(' ');
  const signs = missing(rest, covers).filter(sign => !told.has(sign));
  return [...findings, ...findingsOf(signs, rest, '')];
}

function visit(value: unknown, path: string, tell: (text: string, path: string) => void): void {
  if (typeof value === 'string') tell(value, path);
  else if (Array.isArray(value))
    for (const [index, child] of value.entries()) visit(child, `${path}[${index}]`, tell);
  else if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value))
    for (const [key, child] of Object.entries(value))
      visit(child, path === '' ? key : `${path}.${key}`, tell);
}

function findingsOf(signs: readonly string[], text: string, path: string): Finding[] {
  const found = signs.map(sign => ({ sign, fonts: fontsFor(sign, text) }));
  const helped = found.filter(({ fonts }) => fonts.length > 0);
  const packages = [...new Set(helped.flatMap(({ fonts }) => fonts.map(({ name }) => name)))];
  const without = found.filter(({ fonts }) => fonts.length === 0);
  const written = (some: typeof found) => some.map(({ sign }) => codePoint(sign)).join(', ');
  return [
    ...(helped.length === 0
      ? []
      : [
          finding('report.font-not-installed', path, {
            characters: written(helped),
            packages: packages.join(', '),
          }),
        ]),
    ...(without.length === 0
      ? []
      : [finding('report.character-not-in-font', path, { characters: written(without) })]),
  ];
}

function missing(text: string, covers: Covers): string[] {
  if (/^[ -~]*$/.test(text)) return [];
  const signs = new Set(Array.from(text.normalize('NFC')));
  return [...signs].filter(
    sign =>
      !UNSEEN.test(sign) && !CONTROL.test(sign) && sign !== '\ufffd' && !covers(sign.codePointAt(0) ?? 0),
  );
}
