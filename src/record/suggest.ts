import { closest, distance } from 'fastest-levenshtein';
import { anyOf, type Message, message, quoted } from '../findings/message.js';
import { saidOtherwise } from './trade-words.js';

const fold = (text: string) => text.toLowerCase().replace(/[_\s-]/g, '');

/** 'Did you mean …?' when a candidate is near enough, else the list of what is allowed. */
export function suggest(found: string, allowed: readonly string[]): Message {
  if (allowed.length === 0) return message('answer.takeOut');
  const same = allowed.find(name => fold(name) === fold(found));
  if (same) return didYouMean(same);
  const near = closest(found.slice(0, 100), [...allowed]);
  if (isNear(found, near)) return didYouMean(near);
  const words = new Set([...saidOtherwise(found), ...holding(found, allowed)]);
  const meant = [...words].filter(name => allowed.includes(name));
  if (meant.length > 0 && meant.length <= 3) return didYouMean(...meant);
  return message('answer.useOneOf', { allowed: allowed.join(', ') });
}

const didYouMean = (...names: readonly string[]) =>
  message('answer.didYouMean', { names: anyOf(names.map(quoted)) });

/** True where something near was found, and not only what is allowed. */
export const isNearest = ({ key }: Message): boolean => key === 'answer.didYouMean';

/** Candidates in which what was written is a whole word: 'local' of 'local infiltration'. */
function holding(found: string, allowed: readonly string[]): string[] {
  const wanted = found.toLowerCase();
  return wanted.length < 3
    ? []
    : allowed.filter(name =>
        name
          .toLowerCase()
          .split(/[\s_-]/)
          .includes(wanted),
      );
}

/** One slip of the hand, or a few in a long word that begins alike; `case` is not near `use`. */
function isNear(found: string, candidate: string): boolean {
  const [a, b] = [found.toLowerCase(), candidate.toLowerCase()];
  if (a.length > 100) return false;
  const slips = distance(a, b);
  if (slips <= 1) return b.length > 2 || a[0] === b[0];
  return a[0] === b[0] ? slips <= Math.max(2, Math.floor(b.length / 3)) : slips <= Math.floor(b.length / 4);
}

/** Every candidate that is one slip of the hand or of the shift key away, in the order given. */
export function oneSlipAway(found: string, candidates: readonly string[]): string[] {
  if (found.length > 100) return [];
  return candidates.filter(
    name => distance(found, name) === 1 || (found !== name && found.toLowerCase() === name.toLowerCase()),
  );
}
