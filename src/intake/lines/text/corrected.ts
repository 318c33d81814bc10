import type { Token } from './tokens.js';

const isSize = ({ piece }: Token) =>
  piece !== undefined && ['amount', 'wire', 'pair', 'number'].includes(piece.is);
const isMark = ({ piece, entry }: Token) => piece?.is === 'mark' && entry === undefined;
const isNoun = ({ piece, entry }: Token) => piece?.is === 'word' && entry === undefined;

/** `twelve, no, ten French`: a bare number is taken back by any size. */
const alike = (one: Token, other: Token) =>
  one.piece?.is === other.piece?.is || one.piece?.is === 'number' || other.piece?.is === 'number';

/** Place of the word that takes back what was said before it; -1 where there is none. */
function takenBack(tokens: readonly Token[]): number {
  return tokens.findIndex((token, index) => {
    if (token.entry?.role === 'correction') return true;
    const [before, after] = [tokens[index - 1], tokens[index + 1]];
    if (token.text.toLowerCase() !== 'no' || !before || !isMark(before) || !after) return false;
    return isMark(after) || isSize(after) || after.entry?.role === 'preposition';
  });
}

/**
 * The line with its corrections made: `6 French, no, 8 French sheath` is an 8 French sheath. Undefined where it takes
 * nothing back.
 */
export function corrected(tokens: readonly Token[]): readonly Token[] | undefined {
  const place = takenBack(tokens);
  if (place < 0) return undefined;
  const rest = tokens.slice(place + 1);
  while (rest[0] && (isMark(rest[0]) || rest[0].entry?.role === 'article')) rest.shift();
  let before = tokens.slice(0, place);
  while (before.at(-1) && isMark(before.at(-1) as Token)) before = before.slice(0, -1);
  const [first] = rest;
  if (!first) return [...before];
  const role = first.entry?.role;
  const same = (token: Token): boolean => {
    if (isSize(first)) return isSize(token) && alike(token, first);
    if (role === 'preposition')
      return (
        token.entry?.role === 'preposition' &&
        first.entry?.role === 'preposition' &&
        token.entry.preposition === first.entry.preposition
      );
    return isNoun(first) ? isNoun(token) : role !== undefined && token.entry?.role === role;
  };
  let from = before.findLastIndex(same);
  if (from < 0) return [...before, ...rest];
  if (isNoun(first)) while (from > 0 && isNoun(before[from - 1] as Token)) from--;
  return [...before.slice(0, from), ...rest];
}
