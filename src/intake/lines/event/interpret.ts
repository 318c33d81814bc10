import { message } from '../../../findings/message.js';
import type { LineNotes } from '../table/bench.js';
import { isAlike } from '../table/choosing.js';
import { canBeCalled, type OnTable } from '../table/table.js';
import { isPart, wordsOfNoun } from '../table/which.js';
import type { Clause, Noun } from '../text/clauses.js';
import { actOf, enters } from './act-of.js';
import { setAside } from './aside.js';
import { attach, belongs, sameSetting, setFree, settled } from './attach.js';
import { exchange } from './exchange.js';
import { fields } from './fields.js';
import { again, attempted, guessed, tries } from './guesses.js';
import { isPlaced, isPoured, plans } from './plans.js';
import { type Draft, named, propose, type Reading, rolesOf, textOf } from './reading.js';
import { relations } from './relations.js';
import { type Amounts, amountsOf } from './said.js';
import { subjectOf } from './subject.js';

const questions = /^(?:was|is|are|were|did|does|has|have|had|can)$/i;

/** Proposes the event of one clause. */
export function interpret(notes: LineNotes, clause: Clause, at: string | undefined): void {
  const amounts = amountsOf(clause);
  const reading: Reading = { notes, clause, amounts, plain: plainOf(notes, clause, amounts), at };
  const { plain } = reading;
  const doubts = rolesOf(clause, 'doubt').flatMap(({ entry, text }) =>
    entry?.role === 'doubt' ? [{ kind: entry.doubt, text }] : [],
  );
  if (rolesOf(clause, 'atSkin').length > 0)
    for (const noun of clause.nouns)
      noun.tokens.splice(0, noun.tokens.length, ...noun.tokens.filter(({ piece }) => piece?.is !== 'amount'));
  if (setAside(reading)) return;
  const act = actOf(reading);
  const failed = act === 'cross' && doubts.length > 0 && doubts.every(({ kind }) => kind === 'failed');
  if (!failed) for (const { text } of doubts) notes.doubt(message('line.open', { word: text }));
  for (const token of clause.tokens)
    if (token.entry?.role === 'act' && token.entry.doing)
      notes.doubt(message('line.open', { word: token.text }));
  if (belongs(reading) && attach(reading)) return;
  if (settled(reading) && attach(reading)) return;
  often(reading);
  notes.unclear(clause.tokens.filter(({ piece, entry }) => piece?.is === 'mark' && entry === undefined));
  const asks = clause.tokens[0]?.text ?? '';
  if (questions.test(asks)) notes.doubt(message('line.open', { word: asks }));
  if (act === undefined) {
    if (
      tries(doubts)
        ? attempted(reading)
        : fetched(reading) || (doubts.length === 0 && again(reading)) || attach(reading)
    )
      return;
    if (doubts.length > 0 || questions.test(asks) || !guessed(reading)) nothingDone(reading);
    return;
  }
  // What was not done, or may be done later, is no event.
  if (doubts.some(({ kind }) => kind === 'planned') || (asks.length > 0 && questions.test(asks))) return;
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
  if (act === 'remove' && plain.length === 0 && rolesOf(clause, 'everything').length > 0) {
    allOut(reading);
    return;
  }
  const subject = subjectOf(reading, act, plan);
  const device = subject.device;
  if (device) event.device = device.key;
  if (subject.part !== undefined) event.part = subject.part;
  if (act === 'advance' || act === 'insert') event.do = enters(reading, act, device);
  const shaky = device !== undefined && notes.bench.shaky.has(device.key);
  if (act === 'advance' && clause.acts.length === 0 && shaky && event.do === 'advance')
    notes.doubt(message('line.isIn', { device: device.key }));
  if (act === 'inflate' && device?.family === 'dilator') {
    notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
    event.do = 'insert';
  }
  if (event.do === 'insert' && device && isPlaced(device) && !isPoured(device) && !runs(clause))
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
  const alike = notes.bench.table.some(one => one !== device && isAlike(one, device));
  if (another && device?.count === 1 && !device.proposed && act !== 'sample' && !alike)
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
  // What is inflated must be there by now.
  if (event.do === 'inflate' && device?.inside === 0) Object.assign(device, { inside: 1, used: true });
  if (event.do === 'release' && device?.family === 'filter') event.do = 'deploy';
  if (event.do === 'retrieve' && taken.has(device?.family)) event.do = 'remove';
  // 10 mL for both, or 10 each.
  const halves = clause.nouns.some(
    noun => isPart(noun) && noun.tokens.some(({ text }) => /^both$/i.test(text)),
  );
  if (halves && event.volume !== undefined) notes.doubt(message('line.askBack', { word: event.volume }));
  if (act === 'lock' && event.agent !== undefined) Object.assign(event, { do: 'set', to: 'locked' });
  if (
    event.do === 'withdraw' &&
    event.over !== undefined &&
    event.into === undefined &&
    (device?.family === 'needle' || device?.family === 'dilator')
  )
    event.do = 'remove';
  asMeant(event, device, clause);
  // What did not happen, or not yet, moves nothing.
  if (setFree(notes.events.at(-1), event, plain.length > 0)) return;
  if (sameSetting(notes.events.at(-1), event, plain.length > 0)) return;
  propose(reading, event, doubts.length === 0);
  for (const other of subject.others ?? [])
    propose(reading, { ...event, device: other.key }, doubts.length === 0);
}

/** What is taken out again, and not retrieved from where it lay. */
const taken: ReadonlySet<string | undefined> = new Set([
  'balloon',
  'guidewire',
  'catheter',
  'sheath',
  'needle',
  'dilator',
]);

/** `everything out`: all that does not stay; which that is, a person says. */
function allOut(reading: Reading): void {
  const { notes, clause, at } = reading;
  notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
  for (const { key, inside, family } of [...notes.bench.table])
    if (inside > 0 && !stays.has(family))
      propose(reading, { ...(at !== undefined && { at }), do: 'remove', device: key }, true);
}

const stays: ReadonlySet<string | undefined> = new Set([
  'stent',
  'filter',
  'embolic',
  'closure',
  'anchor',
  'drain',
  'tube',
]);

/** What something is done to; `loop` of `loop locked` is a part of it, and no device. */
function plainOf({ bench }: LineNotes, clause: Clause, amounts: Amounts): Noun[] {
  const locks = clause.acts.some(({ act }) => act === 'lock' || act === 'unlock');
  return clause.nouns.filter(noun => {
    if (noun.preposition !== undefined || amounts.left(noun).length === 0) return false;
    const formed = locks && /^pigtail$/i.test(wordsOfNoun(noun).join(' '));
    return !(
      formed ||
      (isPart(noun) && (locks || !bench.table.some(one => canBeCalled(one, wordsOfNoun(noun)))))
    );
  });
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
  notes.pending = device.key;
  notes.subjects.push(device.key);
  return true;
}

/** How often something was done stands in no event; how long does, `8 atm x 60 s`. */
function often({ notes, clause }: Reading): void {
  clause.tokens.forEach(({ entry, text }, index) => {
    const next = clause.tokens[index + 1]?.piece;
    const howLong = /^x$/i.test(text) && next?.is === 'amount' && next.dimension === 'duration';
    const sewn = clause.acts.some(({ act }) => act === 'fix');
    if (entry?.role === 'times' && !howLong && !sewn) notes.doubt(message('line.askBack', { word: text }));
  });
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
