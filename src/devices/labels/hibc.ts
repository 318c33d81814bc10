import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { elementNamed } from './element.js';
import { checkCharacter, valueOf43 } from './hibc-check.js';
import { readSegment } from './hibc-secondary.js';
import type { Source } from './source.js';
import { GS, shown, sliceSource } from './source.js';
import type { LabelDraft, LabelOptions } from './types.js';

/** Printed labels up to this length stand on one line, so that no line break can swallow a space. */
const oneLine = 48;

/** What may stand between two symbols that were scanned one after the other. */
const betweenSymbols = `\r\n\t${GS}`;
const oneSymbol = new RegExp(`[^${betweenSymbols}]+`, 'g');

/** Fills a draft from an HIBC label: one symbol, or a primary and a secondary symbol after each other. */
export function fillFromHibc(draft: LabelDraft, source: Source, options: LabelOptions): void {
  const path = options.path ?? 'label';
  draft.issuer = 'hibcc';
  const text = withoutAsterisks(draft, source, path);
  const spaced = underscoreAsSpace(text);
  const outside = spaced.text.split('').findIndex(c => valueOf43(c) < 0 && !betweenSymbols.includes(c));
  if (outside >= 0) {
    const params = {
      what: elementNamed('label'),
      at: `${spaced.at(outside)}`,
      found: shown(spaced.text[outside]),
      expected: message('char.hibc'),
    };
    draft.findings.push(finding('label.character', path, params));
    return;
  }
  if (/^\+\//.test(spaced.text)) {
    draft.findings.push(finding('label.provider-code', path, { at: `${spaced.at(1)}` }));
    return;
  }
  const symbols = splitSymbols(spaced);
  // The symbol with the device identifier is read first, in whichever order they were scanned.
  const ordered = [...symbols].sort((a, b) => Number(isSecondary(a.text)) - Number(isSecondary(b.text)));
  let link: string | undefined;
  for (const symbol of ordered) link = readSymbol(draft, symbol, link, options) ?? link;
  draft.carrierHRF = symbols
    .map(({ text }) => withoutStraySpace(text))
    .map(t => t.replace(/ $/, '_').replace(/ (?=.$)/, isSecondary(t) ? '_' : ' '))
    .join(' ');
}

/** A space after the check character is not of the label. */
const withoutStraySpace = (text: string) => {
  const trimmed = text.trimEnd();
  return !agrees(text) && agrees(trimmed) ? trimmed : text;
};

/** A secondary structure starts with a digit or $ where a primary has a letter. */
function isSecondary(text: string): boolean {
  return /^\+[$0-9]/.test(text);
}

function withoutAsterisks(draft: LabelDraft, source: Source, path: string): Source {
  const { text } = source;
  const end = text.trimEnd();
  const before = text.startsWith('*');
  const after = end.endsWith('*');
  if (before !== after) {
    const at = `${source.at(before ? 0 : end.length - 1)}`;
    draft.findings.push(finding('label.asterisk', path, { at }));
  }
  return sliceSource(source, before ? 1 : 0, after ? end.length - 1 : undefined);
}

/** Print shows a check or link character that is a space as an underscore. */
function underscoreAsSpace(source: Source): Source {
  return {
    text: source.text.replace(/_$/, ' ').replace(/_(?=.$)/, ' '),
    at: source.at,
  };
}

/** Symbols that came in one after the other: on lines of their own, or joined where both check characters agree. */
function splitSymbols(source: Source): Source[] {
  const { text } = source;
  const lines = [...text.matchAll(oneSymbol)];
  if (lines.length > 1)
    return lines.map(line => sliceSource(source, line.index, line.index + line[0].length));
  for (const { index } of text.matchAll(/\+[A-Z$0-9]/g)) {
    const right = sliceSource(source, index);
    for (const gap of [0, 1]) {
      const left = sliceSource(source, 0, index - gap);
      if (gap === 1 && text[index - 1] !== ' ') continue;
      if (agrees(left.text) && agrees(right.text)) return [left, right];
    }
  }
  return [source];
}

function agrees(text: string): boolean {
  return checkCharacter(text.slice(0, -1)) === text.at(-1);
}

/** Reads one symbol; gives the check character of a primary one, to which the next must link. */
function readSymbol(
  draft: LabelDraft,
  symbol: Source,
  link: string | undefined,
  options: LabelOptions,
): string | undefined {
  const path = options.path ?? 'label';
  const { body, findings, check } = checked(symbol, path, options);
  draft.findings.push(...findings);
  draft.check = draft.check === undefined || draft.check === 'right' ? check : draft.check;
  if (isSecondary(body.text)) {
    const found = body.text.slice(-1);
    const data = sliceSource(body, 1, body.text.length - 1);
    draft.elements.push({
      id: 'link',
      name: 'link character',
      raw: found,
      at: body.at(body.text.length - 1),
    });
    if (link !== undefined && link !== found) {
      const params = { at: `${body.at(body.text.length - 1)}`, found: shown(found), expected: shown(link) };
      draft.findings.push(finding('label.link-character', path, params));
      return undefined;
    }
    readSegment(draft, data, options);
    return undefined;
  }
  let start = 0;
  for (const [index, segment] of body.text.split('/').entries()) {
    const part = sliceSource(body, start, start + segment.length);
    if (index === 0) readPrimary(draft, part, path);
    else readSegment(draft, part, options);
    start += segment.length + 1;
  }
  return symbol.text.at(-1);
}

interface Checked {
  readonly body: Source;
  readonly findings: Finding[];
  readonly check: 'right' | 'wrong' | 'missing';
}

/** The symbol without its check character, and what that character says of the rest. */
function checked(symbol: Source, path: string, options: LabelOptions): Checked {
  const { text } = symbol;
  const cut = (length: number) => sliceSource(symbol, 0, length);
  const last = text.length - 1;
  if (agrees(text)) return { body: cut(last), findings: [], check: 'right' };
  const trimmed = text.trimEnd();
  if (agrees(trimmed)) {
    const note = finding('label.trailing-space', path, { at: `${symbol.at(trimmed.length)}` });
    return { body: cut(trimmed.length - 1), findings: [note], check: 'right' };
  }
  if (/\/1[46]D\d{8}$/.test(text)) {
    // The last field has a fixed length and is full, so no character is left that could be the check.
    const params = { at: `${symbol.at(last)}`, expected: shown(checkCharacter(text)) };
    return {
      body: symbol,
      findings: [finding('label.check-character-missing', path, params)],
      check: 'missing',
    };
  }
  const body = cut(last);
  const found = text.charAt(last);
  const params = {
    at: `${symbol.at(last)}`,
    found: shown(found),
    expected: shown(checkCharacter(body.text)),
  };
  const spaceLost = text.length > oneLine && checkCharacter(`${body.text} `) === found;
  const note = spaceLost
    ? finding('label.check-character-space', path, params)
    : finding('label.check-character', path, params, { severity: options.wrongCheck ?? 'error' });
  return { body, findings: [note], check: 'wrong' };
}

/** LIC (a letter and three letters or digits), product code (1 to 18 letters or digits), unit of measure (a digit). */
function readPrimary(draft: LabelDraft, source: Source, path: string): void {
  const { text } = source;
  const rules: { test: RegExp; words: Param }[] = [
    { test: /\+/, words: '+' },
    { test: /[A-Z]/, words: message('char.labeler') },
  ];
  for (let i = 0; i < text.length; i += 1) {
    const last = i === text.length - 1;
    const rule =
      rules[i] ??
      (last
        ? { test: /\d/, words: message('char.unit') }
        : { test: /[A-Z0-9]/, words: message('char.capital') });
    if (rule.test.test(text.charAt(i))) continue;
    const params = { at: `${source.at(i)}`, found: shown(text[i]), expected: rule.words };
    draft.findings.push(finding('label.structure', path, params));
    return;
  }
  if (text.length < 7 || text.length > 24) {
    const params = {
      what: elementNamed('device identifier'),
      at: `${source.at(1)}`,
      found: `${Math.max(0, text.length - 1)}`,
      expected: message('range', { from: '6', to: '23' }),
    };
    draft.findings.push(finding('label.length', path, params));
    return;
  }
  draft.di = text.slice(1);
  draft.elements.push(
    { id: '+', name: 'labeler code', raw: text.slice(1, 5), at: source.at(1) },
    { id: 'product', name: 'product code', raw: text.slice(5, -1), at: source.at(5) },
    { id: 'unit', name: 'unit of measure', raw: text.slice(-1), at: source.at(text.length - 1) },
  );
}
