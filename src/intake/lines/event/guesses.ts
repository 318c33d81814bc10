import { message } from '../../../findings/message.js';
import type { ProposedEvent } from '../types.js';
import { type Draft, named, propose, type Reading, rolesOf, textOf } from './reading.js';
import { countOf } from './said.js';

interface Doubt {
  readonly kind: string;
}

export const tries = (doubts: readonly Doubt[]): boolean =>
  doubts.some(({ kind }) => kind === 'tried' || kind === 'failed') &&
  doubts.every(({ kind }) => kind === 'tried' || kind === 'failed');

const timed = (at: string | undefined) => (at === undefined ? {} : { at });

/** A device alone, `J wire, needle out`: it goes in, as far as one can tell. What the event before was about is said again. */
export function guessed(reading: Reading): boolean {
  const { notes, clause, plain, at } = reading;
  const [noun, ...more] = plain;
  if (!noun || more.length > 0 || clause.nouns.length > 1) return false;
  const any = named(reading, noun, { where: 'anywhere' });
  const last = notes.events.at(-1)?.device;
  if (any?.unknown.length === 0 && last !== undefined && any.fit.some(({ key }) => key === last)) return true;
  const one = named(reading, noun, { where: 'outside' });
  if (!one?.device || one.misplaced) return false;
  notes.doubt(message('line.noAct'));
  const device = notes.take('device', one, false);
  if (device) propose(reading, { ...timed(at), do: 'insert', device: device.key }, true);
  return device !== undefined;
}

/** `tried the 14 French drain, wouldn't go`: an attempt with what is named, or with what the line was about. */
export function attempted(reading: Reading): boolean {
  const { notes, clause, plain, at } = reading;
  const [noun] = plain;
  const last = notes.events.at(-1) as Draft | undefined;
  const text = textOf(clause, notes.line);
  if (last?.do === 'attempt') {
    last.result = [last.result, text].filter(Boolean).join('; ');
    return true;
  }
  const one = noun && named(reading, noun, { where: 'anywhere' });
  const failed = rolesOf(clause, 'doubt').every(
    ({ entry }) => entry?.role === 'doubt' && entry.doubt === 'failed',
  );
  if (failed && !noun && (last?.do === 'insert' || last?.do === 'advance')) {
    last.result = [last.result, text].filter(Boolean).join('; ');
    return true;
  }
  const device = one?.device ? notes.take('device', one, false) : notes.bench.of(notes.subjects.at(-1));
  if (!device) return false;
  propose(reading, { ...timed(at), do: 'attempt', device: device.key, result: text }, false);
  return true;
}

const repeats: ReadonlySet<ProposedEvent['do']> = new Set([
  'sample',
  'deploy',
  'detach',
  'inject',
  'inflate',
  'flush',
]);

/** `two more`, `same again`: what was done before, once more; that it was is a guess. */
export function again(reading: Reading): boolean {
  const { notes, clause, plain, at } = reading;
  const { last } = notes.bench;
  const more = rolesOf(clause, 'which').some(({ entry }) => entry?.role === 'which' && entry.more);
  const same = clause.tokens.some(({ text }) => /^(?:same again|and again|repeated|repeat)$/i.test(text));
  if (
    !last ||
    !repeats.has(last.do) ||
    plain.some(noun => noun.tokens.some(({ entry, piece }) => entry === undefined && piece?.is === 'word'))
  )
    return false;
  if (!more && !same) return false;
  notes.doubt(message('line.noAct'));
  const count = countOf(clause);
  const { at: _, result, note, count: before, through: __, over: ___, ...rest } = last;
  const text = textOf(clause, notes.line);
  propose(
    reading,
    {
      ...rest,
      ...timed(at),
      ...(more
        ? { ...(count !== undefined && { count }), result: text }
        : before !== undefined && { count: before }),
    },
    true,
  );
  return true;
}
