import { type Finding, finding } from '../../findings/finding.js';
import { allOf, message } from '../../findings/message.js';
import { UNPRINTABLE } from '../../record/schema/fields.js';
import { readMoment } from '../../record/time.js';
import { audit } from './audit.js';
import { drugIn, giveDrug } from './drug-lines.js';
import { interpret } from './event/interpret.js';
import { joined } from './joining.js';
import { asMeantHere } from './names.js';
import { spelled } from './spelling.js';
import { Bench, LineNotes, trust } from './table/bench.js';
import { clausesOf } from './text/clauses.js';
import { corrected } from './text/corrected.js';
import { piecesOf } from './text/pieces.js';
import { withTimes } from './text/times.js';
import { type Token, tokensOf } from './text/tokens.js';
import type { LineContext, LineReading } from './types.js';

/** Characters of a line, and lines of one call: no step of a case takes as many. */
export const LONGEST_LINE = 400;
export const MOST_LINES = 500;

/** Reads one line after others, on the bench that they have left. */
function readLine(line: string, bench: Bench): LineReading {
  const notes = new LineNotes(bench, line);
  const { pieces, slips } = spelled(piecesOf(line), bench);
  for (const word of slips) notes.doubt(message('line.askBack', { word }));
  const all = asMeantHere(tokensOf(withTimes(pieces)));
  const { own, tokens } = timeAtFront(all);
  if (own !== undefined && all.length - tokens.length > 1) notes.doubt(message('line.corrected'));
  const meant = corrected(tokens);
  if (meant) notes.doubt(message('line.corrected'));
  const clauses = joined(clausesOf(meant ?? tokens));
  const later = clauses.find(({ at }) => at !== undefined)?.at;
  if (own !== undefined && clauses[0]?.at !== undefined && clauses[0].at !== own && clauses.length === 1)
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
  let when = at;
  clauses.forEach(clause => {
    when = clause.at ?? when;
    if (drugIn(clause)) giveDrug(notes, clause, when, route?.role === 'route' ? route.route : undefined);
    else interpret(notes, clause, when);
  });
  audit(notes);
  if (notes.unknown.length > 0)
    notes.doubt(message('line.words', { words: notes.unknown.map(({ text }) => text).join(', ') }));
  trust(notes);
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

/** The time that a line begins with; a second one that takes back the first counts. */
function timeAtFront(tokens: readonly Token[]): { readonly own?: string; readonly tokens: readonly Token[] } {
  const [first, ...rest] = tokens;
  if (first?.piece?.is !== 'time') return { tokens };
  const next = rest.findIndex(({ piece }) => piece?.is !== 'mark');
  const takesBack = rest[next]?.text.toLowerCase() === 'no' || rest[next]?.entry?.role === 'correction';
  const after = rest.slice(next + 1).findIndex(({ piece }) => piece?.is !== 'mark');
  const instead = rest[next + 1 + after]?.piece;
  return takesBack && instead?.is === 'time'
    ? { own: instead.at, tokens: rest.slice(next + 2 + after) }
    : { own: first.piece.at, tokens: rest };
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
