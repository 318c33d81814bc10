import { kindNamed } from '../../devices/kinds.js';
import { type Finding, finding } from '../../findings/finding.js';
import { allOf, message } from '../../findings/message.js';
import { UNPRINTABLE } from '../../record/schema/fields.js';
import { readMoment } from '../../record/time.js';
import { Bench, LineNotes } from './bench.js';
import { type Clause, clausesOf, type Token, tokensOf } from './clauses.js';
import { corrected } from './corrected.js';
import { drugIn, giveDrug } from './drug-lines.js';
import { interpret } from './interpret.js';
import { piecesOf } from './pieces.js';
import type { LineContext, LineReading } from './types.js';

/** Characters of a line, and lines of one call: no step of a case takes as many. */
export const LONGEST_LINE = 400;
export const MOST_LINES = 500;

/** Reads one line after others, on the bench that they have left. */
function readLine(line: string, bench: Bench): LineReading {
  const notes = new LineNotes(bench, line);
  const pieces = piecesOf(line);
  const [first, ...rest] = pieces;
  const own = first?.is === 'time' ? first.at : undefined;
  const tokens = asNouns(tokensOf(own === undefined ? pieces : rest));
  const meant = corrected(tokens);
  if (meant) notes.doubt(message('line.corrected'));
  const clauses = joined(clausesOf(meant ?? tokens));
  const later = clauses.find(({ at }) => at !== undefined)?.at;
  if (own !== undefined && clauses[0]?.at !== undefined && clauses[0].at !== own)
    notes.doubt(message('line.open', { word: clauses[0].at }));
  const at = own ?? later ?? bench.context.at;
  if (at === undefined) notes.doubt(message('line.noTime'));
  else if (bench.context.time) {
    const moment = readMoment(at, bench.context.time);
    if (!moment.ok) notes.doubt(moment.why);
  }
  const route = clauses
    .map(({ tokens: some }) => some.find(({ entry }) => entry?.role === 'route')?.entry)
    .find(Boolean);
  clauses.forEach(clause => {
    const when = clause.at ?? at;
    if (drugIn(clause)) giveDrug(notes, clause, when, route?.role === 'route' ? route.route : undefined);
    else interpret(notes, clause, when);
  });
  if (notes.unknown.length > 0)
    notes.doubt(message('line.words', { words: notes.unknown.map(({ text }) => text).join(', ') }));
  const proposes = notes.events.length > 0 || notes.drugs.length > 0;
  if (!proposes && notes.why.length === 0) notes.doubt(message('line.noAct'));
  return {
    line,
    certainty: !proposes ? 'not understood' : notes.why.length > 0 ? 'uncertain' : 'understood',
    why: notes.why,
    events: notes.events,
    drugs: notes.drugs,
    devices: notes.devices,
    meant: notes.meant,
    unknown: [...notes.unknown].sort((a, b) => a.start - b.start),
  };
}

/** What can be a word of a name as well. */
const nameable: ReadonlySet<string> = new Set(['act', 'specimen', 'fixing', 'reading', 'fluid']);
const unnamed: ReadonlySet<string | undefined> = new Set([
  'preposition',
  'particle',
  'article',
  'joint',
  'pointing',
  'filler',
]);

/** `biopsy needle`, `flush catheter`, `exchange wire`: a verb that is part of a name is none. */
function asNouns(tokens: readonly Token[]): Token[] {
  const fluid = tokens.some(({ entry }) => entry?.role === 'fluid');
  return tokens.map((token, index) => {
    const { entry, text } = token;
    if (!entry || !(nameable.has(entry.role) || text.toLowerCase() === 'access')) return token;
    const word = (one: Token | undefined) =>
      one?.piece?.is === 'word' && !unnamed.has(one.entry?.role) ? one.text : undefined;
    const [before, next, third] = [tokens[index - 1], tokens[index + 1], tokens[index + 2]].map(word);
    const names = [
      [text, next],
      [text, next, third],
      [before, text, next],
    ].some(words => words.every(one => one !== undefined) && kindNamed(words.join(' '))?.how === 'listed');
    if (!names || (fluid && index === 0)) return token;
    const { entry: _, ...noun } = token;
    return noun;
  });
}

/** `pusher and wire out`: both are out. What has no verb of its own goes with what stands before it. */
function joined(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  clauses.forEach((clause, index) => {
    const next = clauses[index + 1];
    const bare = clause.acts.length === 0 && clause.particles.size === 0 && clause.amounts.length === 0;
    const things =
      clause.nouns.length > 0 && clause.nouns.every(({ preposition }) => preposition === undefined);
    if (
      bare &&
      things &&
      next?.joint === 'and' &&
      next.nouns.some(({ preposition }) => preposition === undefined) &&
      !drugIn(clause)
    ) {
      clause.acts.push(...next.acts);
      for (const one of next.particles) clause.particles.add(one);
    }
    const last = out.at(-1);
    if (last && isRun(last, clause)) out.pop();
    out.push(clause);
  });
  return out;
}

/** `angiogram, 10 mL of contrast`: the run is the injection. */
function isRun(last: Clause, clause: Clause): boolean {
  return (
    last.acts.length === 1 &&
    last.acts[0]?.act === 'image' &&
    clause.tokens.some(
      ({ entry, text }) => (entry?.role === 'fluid' && !entry.out) || /^io\w+ol$/i.test(text),
    ) &&
    clause.acts.length === 0 &&
    last.tokens.every(({ entry }) => entry?.role !== 'doubt')
  );
}

/** What lines were read as, and what there is to say of them. */
export interface ReadLines {
  readonly readings: readonly LineReading[];
  readonly findings: readonly Finding[];
}

/**
 * Reads lines as they were said or typed, one after another, against the devices of a record and where they are.
 * Nothing is asserted: every reading is a proposal, and says what of it is not sure. A line of more than 400
 * characters, or with a control character, is not read; nor is what comes after 500 lines.
 */
export function readLines(lines: readonly string[], context: LineContext = {}): ReadLines {
  const bench = new Bench(context);
  const findings: Finding[] = [];
  const readings = lines.slice(0, MOST_LINES).map((line, index): LineReading => {
    const [path, n] = [`lines[${index}]`, `${index + 1}`];
    if (line.length > LONGEST_LINE) {
      findings.push(
        finding('lines.too-long', path, { n, found: `${line.length}`, limit: `${LONGEST_LINE}` }),
      );
      return unread(line);
    }
    if (UNPRINTABLE.test(line)) {
      findings.push(finding('lines.unprintable', path, { n }));
      return unread(line);
    }
    const reading = readLine(line, bench);
    const code = reading.certainty === 'not understood' ? 'lines.not-understood' : 'lines.uncertain';
    if (reading.certainty !== 'understood')
      findings.push(finding(code, path, { n, why: allOf(reading.why) }));
    return reading;
  });
  if (lines.length > MOST_LINES)
    findings.push(finding('lines.too-many', 'lines', { found: `${lines.length}`, limit: `${MOST_LINES}` }));
  return { readings, findings };
}

const unread = (line: string): LineReading => ({
  line: line.slice(0, 80),
  certainty: 'not understood',
  why: [],
  events: [],
  drugs: [],
  devices: {},
  meant: [],
  unknown: [],
});
