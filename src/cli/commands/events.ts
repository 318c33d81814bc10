import { text as readAll } from 'node:stream/consumers';
import colors from 'picocolors';
import { Document, isMap, isScalar, Scalar } from 'yaml';
import { CasetallyError } from '../../findings/errors.js';
import { say } from '../../findings/say.js';
import type { LineReading, Meant, Span } from '../../intake/lines/types.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import { openUnfinishedBytes, type Unfinished } from '../../pipeline/open-unfinished.js';
import { type CaseLines, readCaseLines } from '../../pipeline/read-case-lines.js';
import { isClock } from '../../record/time.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { MOST_LINE_BYTES, readBytes } from '../files.js';
import { jsonText, type Output } from '../output.js';
import { findingsText } from '../terminal/findings.js';
import { shown } from '../terminal/shown.js';
import { openSite } from './open-site.js';

interface EventsFlags {
  readonly case?: string;
  readonly at?: string;
  readonly accept?: boolean;
  readonly yaml?: boolean;
  readonly json?: boolean;
  readonly site?: string;
}

/** Prints what lines propose: 0 when every one was understood, 1 when one is uncertain or was not, 2 for a bad case. */
export async function events(
  texts: readonly string[],
  flags: EventsFlags,
  output: Output,
): Promise<ExitCode> {
  if (flags.at !== undefined && !isClock(flags.at))
    throw new CasetallyError('usage', 'write --at with a time such as 09:04.');
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const said = new Date().toISOString();
  const opened = flags.case === undefined ? undefined : await caseFor(flags.case, site, said, output);
  if (opened === 'unread') return exitCodes.usage;
  const lines = await linesOf(texts);
  const read = readCaseLines(lines, {
    ...{ opened, site: site.site, said, at: flags.at, accept: flags.accept === true },
  });
  if (flags.json) output.out(jsonText(read));
  else if (flags.yaml) output.out(yamlText(read, output));
  else {
    output.out(read.readings.map(reading => readingText(reading, output)).join('\n'));
    const bounds = read.findings.filter(({ code }) => !/^lines\.(?:uncertain|not-understood)$/.test(code));
    if (bounds.length > 0) output.err(findingsText('lines', bounds, output));
  }
  const whole = read.findings.length === 0 && (opened?.unread ?? []).length === 0;
  return whole ? exitCodes.ok : exitCodes.findings;
}

/** The record that lines belong to, as far as they need it; what is wrong with it is said. */
async function caseFor(
  file: string,
  { site }: OpenedSite,
  now: string,
  output: Output,
): Promise<Unfinished | 'unread'> {
  const opened = openUnfinishedBytes(await readBytes(file), site, now);
  const said = 'record' in opened ? opened.unread : opened.findings;
  if (said.length > 0) output.err(findingsText(file, said, output));
  return 'record' in opened ? opened : 'unread';
}

/** The lines of the call, and of standard input where one of them is `-`. */
async function linesOf(texts: readonly string[]): Promise<string[]> {
  const all: string[][] = [];
  for (const one of texts) {
    const text = one === '-' ? await readAll(process.stdin) : one;
    if (text.length > MOST_LINE_BYTES)
      throw new CasetallyError('usage', `lines may have ${MOST_LINE_BYTES} characters together.`);
    all.push(text.split(/\r?\n/));
  }
  return all.flat();
}

/** A line, what it proposes, which device it means, and what makes it uncertain. */
function readingText(reading: LineReading, output: Output): string {
  const { bold, dim, yellow, green, red } = colors.createColors(output.color);
  const mark = { understood: green('+'), uncertain: yellow('?'), 'not understood': red('-') }[
    reading.certainty
  ];
  const rows = [
    `${mark} ${bold(marked(reading.line, reading.unknown, output))}`,
    ...Object.entries(reading.devices).map(([key, device]) => `    devices: ${key}: ${flow(device)}`),
    ...reading.events.map(event => `    events:  ${flow(event)}`),
    ...reading.drugs.map(drug => `    drugs:   ${flow(drug)}`),
    ...reading.meant.map(one => dim(`    ${meantText(one)}`)),
    ...reading.why.map(why => yellow(`    ${say(why, output.language)}`)),
  ];
  return rows.map(row => `${row}\n`).join('');
}

/** The line with what was not understood underlined; between brackets where there are no colours. */
function marked(line: string, unknown: readonly Span[], { color }: Output): string {
  const { underline, red } = colors.createColors(color);
  let at = 0;
  let text = '';
  for (const { start, end } of unknown) {
    if (start < at) continue;
    const words = shown(line.slice(start, end));
    text += shown(line.slice(at, start)) + (color ? red(underline(words)) : `[${words}]`);
    at = end;
  }
  return text + shown(line.slice(at));
}

const meantText = ({ as, device, by, said, others = [] }: Meant): string =>
  `${as} ${device}: ${said === undefined ? '' : `'${shown(said)}', `}${by}${others.length > 0 ? `; also ${others.join(', ')}` : ''}`;

/** One entry as a case file has it, on one line; times in quotes, as the examples have them. */
function flow(value: unknown): string {
  const document = new Document(value);
  if (isMap(document.contents)) {
    document.contents.flow = true;
    const at = document.contents.get('at', true);
    if (isScalar(at)) at.type = Scalar.QUOTE_DOUBLE;
  }
  return shown(document.toString({ lineWidth: 0 }).trim());
}

/**
 * What would stand in a case file, each value under the line that said it. What is no more than proposed is a comment
 * and asserts nothing; with `--accept`, what was understood is an entry.
 */
function yamlText({ readings, contribution: { values } }: CaseLines, output: Output): string {
  const why = new Map(
    readings.map(reading => [
      reading.line,
      reading.why.map(one => shown(say(one, output.language))).join('; '),
    ]),
  );
  const section = (name: string) => {
    const own = values.filter(({ path }) => path[0] === name);
    const stands = own.some(({ as }) => as === 'add' || as === 'set');
    const rows = own.flatMap(({ path, value, as, said = '' }, index) => {
      const entry = path.length > 1 ? `${path[1]}: ${flow(value)}` : `- ${flow(value)}`;
      const doubt = why.get(said) ? `  -- ${why.get(said)}` : '';
      const source = own[index - 1]?.said === said ? [] : [`  # ${shown(said)}${doubt}`];
      return [...source, as === 'add' || as === 'set' ? `  ${entry}` : `  # ${entry}`];
    });
    return own.length === 0 ? '' : [`${stands ? '' : '# '}${name}:`, ...rows].map(row => `${row}\n`).join('');
  };
  const lost = readings.filter(({ certainty }) => certainty === 'not understood');
  return [
    ...['devices', 'events', 'drugs'].map(section),
    ...lost.map(({ line }) => `# not understood: ${shown(line)}\n`),
  ].join('');
}
