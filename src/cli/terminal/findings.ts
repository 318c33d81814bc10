import colors from 'picocolors';
import type { Finding } from '../../findings/finding.js';
import { byHarm } from '../../findings/harm.js';
import { lexicon } from '../../findings/say.js';
import { width } from '../../report/render/wrap.js';
import type { Output } from '../output.js';
import { countLine, counts } from './counts.js';
import { entryLines, type Form } from './entry.js';
import { filled, linesText, paragraph, USUAL_COLUMNS } from './fill.js';
import { findingsIn, folded } from './fold.js';

/** How many findings are shown at once, and in how many lines: what is seen without turning back. */
const WORST = 10;
const SCREEN = 40;
/** Lines of a screen for what was kept back. */
const KEPT_BACK = 2;

/** What findings are about. */
export interface About {
  /** What they come to: `not to be sent`. */
  readonly verdict?: string;
  /** The text that they were found in, whose lines are shown; absent where it is not at hand. */
  readonly source?: string | Uint8Array;
  /** What else `--verbose` shows that is kept back now. */
  readonly rest?: string;
}

/** A record's own lines, where a person sees standard error: elsewhere it may be kept as a log. */
export const ownLines = ({ watched }: Output, source: Uint8Array): Pick<About, 'source'> =>
  watched ? { source } : {};

/** What findings come to in a line, with the name of what they are about, and then the findings; nothing where there is nothing to say. */
export function findingsText(
  name: string,
  findings: readonly Finding[],
  output: Output,
  about: About = {},
): string {
  const { verdict } = about;
  if (findings.length === 0 && verdict === undefined) return '';
  const head = verdictText(name, findings, output, verdict);
  return head + listText(findings, output, about, head.split('\n').length - 1);
}

/** `case.yaml: 3 errors, 2 warnings; not to be sent`. */
export function verdictText(
  name: string,
  findings: readonly Finding[],
  output: Output,
  verdict?: string,
): string {
  const { bold } = colors.createColors(output.color);
  const columns = output.columns ?? USUAL_COLUMNS;
  const line = `${shortName(name, 0.4 * columns)}: ${[countLine(findings, output.language), verdict ?? []].flat().join('; ')}`;
  return linesText(paragraph(line, columns, '', '  ').map(bold));
}

/** The end of a path that would leave no room for the verdict. */
function shortName(name: string, most: number): string {
  if (width(name) <= most || /^\w+:\/\//.test(name)) return name;
  const parts = name.split(/[/\\]/);
  while (parts.length > 1 && width(parts.join('/')) + 2 > most) parts.shift();
  return `…/${parts.join('/')}`;
}

/**
 * Findings as a person reads them, the worst first: each with its line of the source and a caret, the same one in many places
 * as one. At most ten and no more than a screen; what is kept back is counted. Everything with `detail: 'all'`.
 * @param above lines of the screen that stand above
 */
export function listText(findings: readonly Finding[], output: Output, about: About = {}, above = 1): string {
  const { detail, language } = output;
  const looked = detail === 'all' ? findings : findings.filter(f => f.severity !== 'information');
  const entries = folded(byHarm(looked), language);
  const source = about.source === undefined ? undefined : linesOf(about.source);
  const draw = (form: Form) => entries.map(entry => entryLines(entry, form, output, source));
  if (detail === 'all') return draw('verbose').map(linesText).join('\n');
  const full = draw('full');
  if (detail === undefined) return full.map(linesText).join('');
  const room = SCREEN - above - KEPT_BACK;
  const fits = entries.length <= WORST && full.flat().length <= room;
  const blocks = fits ? full : firstWithin(draw('brief'), room);
  const seen = new Set(entries.slice(0, blocks.length).flatMap(findingsIn));
  const missing = [
    ...counts(
      findings.filter(f => !seen.has(f)),
      language,
    ),
    ...(fits ? [] : [lexicon(language ?? 'en-GB').say('terminal.remedies')]),
    ...(about.rest === undefined ? [] : [about.rest]),
  ].join(', ');
  return `${blocks.map(linesText).join('')}${missing === '' ? '' : keptBack(missing, output)}`;
}

function keptBack(what: string, { language, columns }: Output): string {
  return filled(lexicon(language ?? 'en-GB').say('terminal.kept-back', { what }), columns);
}

/** As many as fit, ten at the most; one at the least. */
function firstWithin(blocks: readonly string[][], room: number): string[][] {
  let used = 0;
  return blocks.slice(0, WORST).filter((block, i) => {
    used += block.length;
    return i === 0 || used <= room;
  });
}

const linesOf = (source: string | Uint8Array): string[] =>
  (typeof source === 'string' ? source : Buffer.from(source).toString('utf8')).split(/\r\n|\r|\n/);
