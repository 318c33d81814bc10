import { message } from '../../../findings/message.js';
import { familyNamed } from '../table/table.js';
import { isPart, isPlace } from '../table/which.js';
import type { Noun } from '../text/clauses.js';
import type { Token } from '../text/tokens.js';
import type { ProposedEvent } from '../types.js';
import { plainWord } from '../words/lexicon.js';
import { isKnownPlace, isPlaceWord, placeWords } from '../words/places.js';
import { findingWords, looksLikeAct } from '../words/talk.js';
import { type Draft, named, type Reading, rolesOf, textOf } from './reading.js';

/** Roles of words that leave it at what was seen. */
const plainRoles: ReadonlySet<string> = new Set([
  'article',
  'filler',
  'which',
  'seen',
  'preposition',
  'fluid',
  'state',
  'specimen',
  'reading',
  'guidance',
  'everything',
]);

const denial = /^(?:no|not|nil|without|never)$/i;
const leaves: ReadonlySet<ProposedEvent['do']> = new Set([
  'remove',
  'retrieve',
  'peel away',
  'withdraw',
  'exchange',
]);

/**
 * Takes what is said beside the acts: what stays where it is, in which state things came out, what was seen, what is
 * not to be had. False where something may have been done.
 */
export function setAside(reading: Reading): boolean {
  return onlyTalk(reading) || outOfStock(reading) || stays(reading) || cameOut(reading) || finding(reading);
}

function onlyTalk({ clause, notes }: Reading): boolean {
  return clause.tokens.every(
    ({ entry, piece, text }) =>
      (entry?.role === 'filler' && !/again|repeat/i.test(text)) ||
      entry?.role === 'article' ||
      (entry?.role === 'route' && notes.drugs.length > 0) ||
      (entry === undefined && piece?.is === 'time'),
  );
}

/** `no eight and a half on the shelf`: why something else was taken. */
function outOfStock({ clause }: Reading): boolean {
  return (
    clause.acts.length === 0 &&
    (rolesOf(clause, 'stock').length > 0 || /^left$/i.test(clause.tokens.at(-1)?.text ?? '')) &&
    rolesOf(clause, 'doubt').some(({ text }) => denial.test(text))
  );
}

/** `sheath stays`: nothing is done to what is in. */
function stays(reading: Reading): boolean {
  const { clause, notes, plain } = reading;
  if (rolesOf(clause, 'stays').length === 0 || clause.acts.length > 0 || clause.particles.has('out'))
    return false;
  if (rolesOf(clause, 'setting').length > 0 || rolesOf(clause, 'fixing').length > 0) return false;
  for (const noun of plain) {
    const one = named(reading, noun, { where: 'inside' });
    if (!one || one.fit.length === 0) notes.unclear(noun.tokens);
    else if (one.misplaced) notes.doubt(message('line.notIn', { device: one.fit[0]?.key ?? one.said }));
  }
  for (const { text } of rolesOf(clause, 'doubt')) notes.doubt(message('line.open', { word: text }));
  return true;
}

/** `came out whole`, `everything intact`: of what this line took out. */
function cameOut(reading: Reading): boolean {
  const { clause, notes, plain } = reading;
  const states = rolesOf(clause, 'state');
  const [state] = states;
  const everything =
    rolesOf(clause, 'everything').length > 0 ||
    clause.tokens.some(({ text }) => /^(?:both|all)$/i.test(text));
  const named_ = plain.some(noun => noun.tokens.some(({ entry }) => entry === undefined) && !everything);
  if (state?.entry?.role !== 'state' || states.length > 1 || named_) return false;
  if (clause.acts.some(({ act }) => act !== 'move' && act !== 'pull' && act !== 'remove')) return false;
  if (rolesOf(clause, 'doubt').length > 0 || clause.nouns.some(noun => noun.preposition !== undefined))
    return false;
  const out = (notes.events as Draft[]).filter(event => leaves.has(event.do) && event.state === undefined);
  const these = everything ? out : out.slice(-1);
  const last = notes.events.at(-1) as Draft | undefined;
  if (last && leaves.has(last.do) && last.state !== undefined && last.state !== state.entry.state) {
    notes.doubt(message('line.askBack', { word: textOf(clause, notes.line) }));
    return true;
  }
  if (these.length === 0 || (!everything && notes.events.at(-1) !== these[0])) return false;
  for (const event of these) {
    event.state = state.entry.state;
    if (event.state !== 'intact') event.result = textOf(clause, notes.line);
  }
  return true;
}

/** What was seen after what was done: words of a finding, or words that name no device and can be no act. */
function finding(reading: Reading): boolean {
  const { clause, notes } = reading;
  if (clause.acts.some(({ act }) => act !== 'move' && act !== 'happened')) return false;
  const words = clause.tokens.map(token => plainWord(token.text));
  const seen = clause.tokens.some(
    ({ entry, text }, index) =>
      entry?.role === 'seen' ||
      (entry?.role === 'fluid' && entry.out) ||
      plainWord(text)
        .split(' ')
        .some(word => findingWords.has(word)) ||
      (index > 0 &&
        entry?.role === 'particle' &&
        entry.particle === 'back' &&
        words.some(word => findingWords.has(word))),
  );
  const pictured = notes.events.at(-1)?.do === 'image';
  const bare = clause.tokens.every(token => allowed(token, seen) || (pictured && isFigure(token)));
  if (!bare || reading.amounts.others.some(({ piece }) => piece?.is === 'amount' && piece.unit !== '%'))
    return false;
  if (reading.amounts.volume ?? reading.amounts.pressure ?? reading.amounts.duration) return false;
  // `sent to microbiology` tells of what this line took.
  const sent = /^sent (?:to|for|off)\b/i.test(textOf(clause, notes.line)) && notes.events.length > 0;
  if (sent && clause.acts.length === 1) {
    const last = notes.events.at(-1) as Draft;
    last.result = [last.result, textOf(clause, notes.line)].filter(Boolean).join('; ');
    return true;
  }
  const parts = clause.nouns.every(noun => isPart(noun) || isPlace(noun));
  if (clause.acts.some(({ act }) => act === 'happened') && !(parts && notes.events.length > 0)) return false;
  const devices = clause.nouns.filter(
    noun => (named(reading, noun, { where: 'anywhere' })?.fit ?? []).length > 0,
  );
  const relates = devices.some(
    ({ preposition }) =>
      preposition === 'over' || preposition === 'through' || preposition === 'into' || preposition === 'with',
  );
  const goes = clause.nouns.some(
    ({ preposition }) => preposition === 'over' || preposition === 'across' || preposition === 'into',
  );
  const none = denial.test(clause.tokens[0]?.text ?? '');
  if ((relates || goes) && !(none && seen)) return false;
  if (clause.acts.length > 0 && devices.length > 0) return false;
  if (!seen && (devices.length > 0 || words.some(looksLikeAct))) return false;
  const text = textOf(clause, notes.line);
  const last = notes.events.at(-1) as Draft | undefined;
  // What no word of a finding is may be something else.
  const things = new Set(devices.flatMap(({ tokens }) => tokens));
  notes.unclear(clause.tokens.filter(token => !isSeen(token) && !things.has(token)));
  if (last) last.result = [last.result, text].filter(Boolean).join('; ');
  else if (seen && devices.every(noun => isThereAlone(reading, noun))) {
    notes.seenFirst.push(text);
    for (const noun of devices) {
      const key = named(reading, noun, { where: 'inside' })?.device?.key;
      if (key !== undefined) notes.bench.subject = key;
    }
  } else return false;
  return true;
}

/** `PICC aspirates and flushes`: what is in was tried, and by name. */
function isThereAlone(reading: Reading, noun: Noun): boolean {
  const one = named(reading, noun, { where: 'inside' });
  const tested = rolesOf(reading.clause, 'seen').some(({ text }) => /aspirates|flushes/i.test(text));
  return tested && noun.preposition === undefined && one?.device !== undefined && !one.misplaced;
}

const isFigure = ({ piece }: Token): boolean =>
  piece?.is === 'number' || (piece?.is === 'amount' && piece.dimension === 'length');

const isSeen = ({ entry, piece, text }: Token): boolean =>
  entry !== undefined ||
  piece?.is === 'amount' ||
  piece?.is === 'mark' ||
  piece?.is === 'number' ||
  findingWords.has(plainWord(text)) ||
  text
    .split(/[-/]/)
    .every(
      word =>
        findingWords.has(plainWord(word)) ||
        (text.includes('-') && familyNamed(plainWord(word)) !== undefined) ||
        placeWords.has(plainWord(word)) ||
        isPlaceWord(word) ||
        isKnownPlace(word),
    );

function allowed({ entry, piece, text }: Token, seen: boolean): boolean {
  if (entry === undefined)
    return piece?.is === 'word' || piece?.is === 'mark' || (piece?.is === 'amount' && piece.unit === '%');
  if (entry.role === 'doubt')
    return (
      denial.test(text) || (seen && /^(?:some|half|but|most of|some of|nearly|almost|partly)$/i.test(text))
    );
  if (entry.role === 'particle') return seen && entry.particle !== 'out' && entry.particle !== 'in';
  return (
    plainRoles.has(entry.role) || (entry.role === 'act' && (entry.act === 'move' || entry.act === 'happened'))
  );
}
