import { message } from '../../findings/message.js';
import { actOf, enters } from './act-of.js';
import type { LineNotes } from './bench.js';
import type { Clause } from './clauses.js';
import { exchange } from './exchange.js';
import { fields } from './fields.js';
import { isPlaced, plans } from './plans.js';
import { type Draft, propose, type Reading, rolesOf, textOf } from './reading.js';
import { relations } from './relations.js';
import { amountsOf } from './said.js';
import { subjectOf } from './subject.js';
import type { ProposedEvent } from './types.js';

const questions = /^(?:was|is|are|were|did|does|has|have|had|can)$/i;

/** Proposes the event of one clause. */
export function interpret(notes: LineNotes, clause: Clause, at: string | undefined): void {
  const amounts = amountsOf(clause);
  const plain = clause.nouns.filter(noun => noun.preposition === undefined && amounts.left(noun).length > 0);
  const reading: Reading = { notes, clause, amounts, plain, at };
  const doubts = rolesOf(clause, 'doubt').flatMap(({ entry, text }) =>
    entry?.role === 'doubt' ? [{ kind: entry.doubt, text }] : [],
  );
  for (const { text } of doubts) notes.doubt(message('line.open', { word: text }));
  for (const token of clause.tokens)
    if (token.entry?.role === 'act' && token.entry.doing)
      notes.doubt(message('line.open', { word: token.text }));
  if (belongs(reading) && attach(reading)) return;
  notes.unclear(clause.tokens.filter(({ piece, entry }) => piece?.is === 'mark' && entry === undefined));
  const asks = clause.tokens[0]?.text ?? '';
  if (questions.test(asks)) notes.doubt(message('line.open', { word: asks }));
  const act = actOf(reading);
  if (act === undefined) {
    if (!attach(reading)) nothingDone(reading);
    return;
  }
  if (act === 'exchange') {
    exchange(reading, doubts.length > 0);
    return;
  }
  const plan = plans[act];
  const event: Draft = { ...(at !== undefined && { at }), do: plan.do };
  const subject = subjectOf(reading, act, plan);
  const device = subject.device;
  if (device) event.device = device.key;
  if (act === 'advance' || act === 'insert') event.do = enters(reading, act, device);
  if (act === 'inflate' && device?.family === 'dilator') {
    notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
    event.do = 'insert';
  }
  if (event.do === 'insert' && device && isPlaced(device) && clause.acts.length === 0) event.do = 'deploy';
  if (device && !device.used && clause.tokens.some(({ text }) => /^back in$/i.test(text)))
    notes.doubt(message('line.askBack', { word: 'back in' }));
  if (
    !device &&
    !plan.alone &&
    notes.why.some(one => one.key === 'line.noFit') &&
    notes.unknown.length > 0 &&
    act !== 'happened'
  )
    return;
  const another = plain.flatMap(({ tokens }) => tokens).find(({ entry }) => entry?.role === 'which');
  if (another && device?.count === 1 && !device.proposed && act !== 'sample')
    notes.doubt(message('line.askBack', { word: another.text }));
  relations(reading, event, act, subject.used);
  fields(reading, event, act, device);
  const denied = doubts.some(({ kind }) => kind === 'denied');
  const tried = doubts.some(({ kind }) => kind === 'tried') || (denied && act === 'cross');
  if (tried) {
    event.do = 'attempt';
    if (act === 'cross') event.crossed = 'no';
    event.result = textOf(clause, notes.line);
  } else if (denied) {
    event.do = 'note';
    event.result = textOf(clause, notes.line);
  }
  if (act === 'happened' || act === 'lost') {
    notes.doubt(message('line.askBack', { word: rolesOf(clause, 'act')[0]?.text ?? '' }));
    event.result = textOf(clause, notes.line);
    delete event.into;
  }
  // What did not happen, or not yet, moves nothing.
  propose(reading, event, doubts.length === 0);
}

/** What each verb is measured by. */
const measuredBy: Readonly<Partial<Record<ProposedEvent['do'], readonly string[]>>> = {
  inflate: ['pressure', 'duration', 'volume'],
  compress: ['duration'],
  ablate: ['duration'],
  inject: ['volume', 'duration'],
  flush: ['volume'],
  aspirate: ['volume'],
  measure: ['pressure'],
};

/** Whether a clause of amounts alone says more of the event before it: `balloon up, 6 atm, 180 seconds`. */
function belongs({ notes, clause, plain, amounts }: Reading): boolean {
  const last = notes.events.at(-1);
  if (!last || plain.length > 0 || clause.acts.length > 0 || clause.particles.size > 0) return false;
  const here = (['pressure', 'duration', 'volume'] as const).filter(name => amounts[name] !== undefined);
  const takes = measuredBy[last.do] ?? [];
  return here.length > 0 && here.every(name => takes.includes(name) && last[name] === undefined);
}

/** Adds what a clause without a verb says to the event before it in the line. */
function attach(reading: Reading): boolean {
  const { notes, clause, plain } = reading;
  const last = notes.events.at(-1) as Draft | undefined;
  const seen = clause.tokens.some(({ entry }) => entry?.role === 'seen');
  if (!last || (plain.length > 0 && !seen)) return false;
  if (seen) {
    last.result = [last.result, textOf(clause, notes.line)].filter(Boolean).join('; ');
    return true;
  }
  const own: Draft = { do: last.do };
  relations(reading, own, 'advance', new Set());
  fields(reading, own, 'advance', undefined);
  if (last.do === 'set' && own.fixedBy !== undefined && last.fixedBy !== undefined)
    own.fixedBy = `${last.fixedBy} and ${own.fixedBy}`;
  const { do: _, ...rest } = own;
  for (const name of Object.keys(rest) as (keyof typeof rest)[])
    if (name !== 'note' && last[name] !== undefined && last[name] !== rest[name]) {
      notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
      delete rest[name];
    }
  Object.assign(last, rest);
  return true;
}

/** A clause in which nothing is done that was understood. */
function nothingDone({ notes, clause }: Reading): void {
  const words = clause.tokens.filter(
    ({ entry, piece }) => entry === undefined && piece?.is !== 'time' && piece?.is !== 'mark',
  );
  if (
    words.length === 0 &&
    clause.tokens.every(({ entry }) => entry?.role === 'filler' || entry?.role === 'article')
  )
    return;
  notes.unclear(words);
  notes.doubt(message('line.noAct'));
}
