import colors from 'picocolors';
import type { Severity } from '../../findings/define.js';
import { type Finding, messageOf, remedyOf } from '../../findings/finding.js';
import { type Lexicon, lexicon } from '../../findings/say.js';
import { width } from '../../report/render/wrap.js';
import type { Output } from '../output.js';
import { excerpt } from './excerpt.js';
import { cut, paragraph, USUAL_COLUMNS } from './fill.js';
import type { Entry } from './fold.js';
import { shown } from './shown.js';

/** brief: what and where, and the beginning of the remedy. full: with the other places and the remedy. verbose: with everything. */
export type Form = 'brief' | 'full' | 'verbose';

/** Lines for a message in brief. */
const BRIEF = 2;
/** Less of a remedy beside a caret says nothing. */
const LEAST = 16;

/** The lines of one entry. @param source lines of the text that it was found in */
export function entryLines(
  entry: Entry,
  form: Form,
  { columns = USUAL_COLUMNS, language, color }: Output,
  source: readonly string[] | undefined,
): string[] {
  const { first, others } = entry;
  const words = lexicon(language ?? 'en-GB');
  const severity = words.say(`terminal.${first.severity}`);
  const line = lineOf(first, source);
  const sourceLine = line === undefined ? undefined : source?.[line - 1];
  const place = sourceLine === undefined && line !== undefined ? ` ${placeOf(first, source)}` : '';
  const start = `${severity}${place}  `;
  const said =
    form === 'brief'
      ? clipped(
          messageOf(first, language),
          briefTail(first, others.length, line === undefined, words),
          line => paragraph(line, columns, start, '  '),
        )
      : paragraph(`${messageOf(first, language)} (${codeAndPath(first)})`, columns, start, '  ');
  const remedy = shown(remedyOf(first, language));
  const drawn =
    sourceLine === undefined ? [] : sourceLines(sourceLine, first, columns, remedy, form === 'brief');
  const head = painted(said, severity, painter(color, first.severity));
  if (form === 'brief') return [...head, ...(drawn.length > 0 ? drawn : [`  → ${cut(remedy, columns - 4)}`])];
  const beside = drawn.some(line => line.endsWith(` ${remedy}`));
  return [
    ...head,
    ...drawn,
    ...(beside ? [] : paragraph(remedy, columns, '  → ', '    ')),
    ...alsoLines(others, columns, words.say('terminal.also'), source),
    ...followingLines(entry.following, columns, words, form, source),
    ...(first.acknowledged
      ? paragraph(words.say('terminal.accepted', { reason: first.acknowledged.reason }), columns, '  ')
      : []),
    ...(form === 'verbose' && first.severity !== 'information'
      ? paragraph(words.say('terminal.basis', { basis: first.basis }), columns, '  ')
      : []),
  ];
}

/** Begins a record: the place of what is missing from it as a whole. */
const BEGINNING = /^\s*(?:\{\s*)?(?:["']?casetally["']?\s*:|$)/;

/** The line that a finding is about; undefined for what stands nowhere: what is missing, what is about the destination. */
function lineOf({ line, path }: Finding, source: readonly string[] | undefined): number | undefined {
  if (line === undefined || path === 'destination') return undefined;
  const missing = path !== '' && path !== 'casetally' && BEGINNING.test(source?.[line - 1] ?? '-');
  return missing ? undefined : line;
}

/** `70:5`, else the path. */
function placeOf(of: Finding, source: readonly string[] | undefined): string {
  const line = lineOf(of, source);
  return line === undefined ? of.path : of.column === undefined ? String(line) : `${line}:${of.column}`;
}

const codeAndPath = ({ code, path }: Finding) => (path === '' ? code : `${code}, ${path}`);

/** In how many more places it is; and where, when no line of the source says it. */
function briefTail({ path }: Finding, more: number, unplaced: boolean, words: Lexicon): string {
  const where = unplaced && path !== '' ? ` (${path})` : '';
  return where + (more === 0 ? '' : ` ${words.say('terminal.more-like-it', { n: String(more) })}`);
}

/** A message in as many lines as are for it, with its tail; `…` stands for the words that are left out. */
function clipped(message: string, tail: string, lines: (text: string) => string[]): string[] {
  const words = message.split(' ');
  let said = lines(`${message}${tail}`);
  for (let n = words.length - 1; said.length > BRIEF && n > 0; n -= 1)
    said = lines(`${words.slice(0, n).join(' ')} …${tail}`);
  return said;
}

/** The line of the source, and the caret with the remedy beside it where that fits, or as much of it as does in `brief`. */
function sourceLines(line: string, at: Finding, columns: number, remedy: string, brief: boolean): string[] {
  const gutter = `  ${at.line} | `;
  const { line: text, before } = excerpt(line, at.column ?? 1, columns - gutter.length);
  const caret = `${' '.repeat(gutter.length - 2)}| ${' '.repeat(before)}^`;
  const room = columns - caret.length - 1;
  const beside = width(remedy) <= room ? remedy : brief && room >= LEAST ? cut(remedy, room) : '';
  return [`${gutter}${text}`, beside === '' ? caret : `${caret} ${beside}`];
}

/** The other places, and what is said there otherwise. */
function alsoLines(
  others: Entry['others'],
  columns: number,
  also: string,
  source: readonly string[] | undefined,
): string[] {
  if (others.length === 0) return [];
  const said = others.map(({ finding, differing }) => {
    const place = placeOf(finding, source);
    return differing === '' || place === '' ? `${place}${differing}` : `${differing} (${place})`;
  });
  return paragraph(`${also} ${said.join('; ')}`, columns, '  ', '    ');
}

function followingLines(
  following: readonly Finding[],
  columns: number,
  words: Lexicon,
  form: Form,
  source: readonly string[] | undefined,
): string[] {
  if (following.length === 0) return [];
  const places = [...new Set(following.map(f => placeOf(f, source)))].join(', ');
  const line = words.plural('terminal.following', String(following.length)).replace('{places}', places);
  const each = form === 'verbose' ? following : [];
  return [
    ...paragraph(line, columns, '  '),
    ...each.flatMap(f => paragraph(`${placeOf(f, source)} ${f.code}`, columns, '    ', '      ')),
  ];
}

function painted(lines: readonly string[], severity: string, paint: (text: string) => string): string[] {
  return lines.map((line, i) => (i === 0 ? `${paint(severity)}${line.slice(severity.length)}` : line));
}

function painter(color: boolean, severity: Severity): (text: string) => string {
  const paint = colors.createColors(color);
  if (severity === 'information') return paint.dim;
  return severity === 'warning' ? paint.yellow : text => paint.bold(paint.red(text));
}
