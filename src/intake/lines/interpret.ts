import { message } from '../../findings/message.js';
import { actOf, enters } from './act-of.js';
import { setAside } from './aside.js';
import type { LineNotes } from './bench.js';
import type { Clause } from './clauses.js';
import { exchange } from './exchange.js';
import { fields } from './fields.js';
import { isPlaced, plans } from './plans.js';
import { type Draft, named, propose, type Reading, rolesOf, textOf } from './reading.js';
import { relations } from './relations.js';
import { amountsOf } from './said.js';
import { subjectOf } from './subject.js';
import type { OnTable } from './table.js';
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
  if (setAside(reading)) return;
  const act = actOf(reading);
  const failed = act === 'cross' && doubts.length > 0 && doubts.every(({ kind }) => kind === 'failed');
  if (!failed) for (const { text } of doubts) notes.doubt(message('line.open', { word: text }));
  for (const token of clause.tokens)
    if (token.entry?.role === 'act' && token.entry.doing)
      notes.doubt(message('line.open', { word: token.text }));
  if (belongs(reading) && attach(reading)) return;
  notes.unclear(clause.tokens.filter(({ piece, entry }) => piece?.is === 'mark' && entry === undefined));
  const asks = clause.tokens[0]?.text ?? '';
  if (questions.test(asks)) notes.doubt(message('line.open', { word: asks }));
  if (act === undefined) {
    if (fetched(reading)) return;
    if (!attach(reading)) nothingDone(reading);
    return;
  }
  // What was not done, or may be done later, is no event.
  if (doubts.some(({ kind }) => kind === 'planned') || asks.length > 0 && questions.test(asks)) return;
  if (doubts.some(({ kind }) => kind === 'denied') && act !== 'cross') return;
  if (act === 'lost') {
    notes.doubt(message('line.askBack', { word: rolesOf(clause, 'act')[0]?.text ?? '' }));
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
  if (subject.part !== undefined) event.part = subject.part;
  if (act === 'advance' || act === 'insert') event.do = enters(reading, act, device);
  if (act === 'inflate' && device?.family === 'dilator') {
    notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
    event.do = 'insert';
  }
  if (event.do === 'insert' && device && isPlaced(device) && clause.acts.length === 0 && !runs(clause))
    event.do = 'deploy';
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
  const tried = doubts.some(({ kind }) => kind === 'tried' || kind === 'failed' || kind === 'denied');
  if (tried) {
    event.result = textOf(clause, notes.line);
    if (act === 'cross') event.crossed = 'no';
    else event.do = 'attempt';
  }
  if (act === 'happened') {
    notes.doubt(message('line.askBack', { word: rolesOf(clause, 'act')[0]?.text ?? '' }));
    event.result = textOf(clause, notes.line);
    delete event.into;
  }
  asMeant(event, device, clause);
  // What did not happen, or not yet, moves nothing.
  if (sameSetting(notes.events.at(-1), event, plain.length > 0)) return;
  propose(reading, event, doubts.length === 0);
}

/** `on free drainage, sutured`: one setting of one device, of several clauses. */
function sameSetting(last: Draft | undefined, event: Draft, ownNoun: boolean): boolean {
  if (last?.do !== 'set' || event.do !== 'set' || last.device !== event.device || ownNoun || last.at !== event.at) return false;
  for (const name of ['to', 'fixedBy', 'depth'] as const)
    if (event[name] !== undefined) last[name] = [last[name], event[name]].filter(Boolean).join(' and ');
  return true;
}

const runs = ({ nouns }: Clause): boolean => nouns.some(({ preposition }) => preposition === 'through');

/** A needle that comes into tissue by itself punctures it; what is in and goes across a lesion crosses it. */
function asMeant(event: Draft, device: OnTable | undefined, { nouns }: Clause): void {
  const runsIn = event.through !== undefined || event.over !== undefined;
  if (event.do === 'insert' && device?.family === 'needle' && event.into !== undefined && !runsIn)
    event.do = 'puncture';
  const crosses = device?.family === 'guidewire' || device?.family === 'catheter';
  if (event.do === 'advance' && event.across !== undefined && crosses && nouns.length > 0) event.do = 'cross';
}

/** `got a 5 French sheath from the store`: it lies ready, and the line goes on with it. */
function fetched(reading: Reading): boolean {
  const { notes, clause, plain } = reading;
  if (rolesOf(clause, 'fetched').length === 0 || rolesOf(clause, 'doubt').length > 0) return false;
  const [noun] = plain;
  const one = noun && named(reading, noun, { where: 'outside' });
  const device = one && notes.take('device', one, true);
  if (!device) return false;
  notes.bench.subject = device.key;
  notes.subjects.push(device.key);
  return true;
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
