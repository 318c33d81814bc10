import { isScalar } from 'yaml';
import { type Message, message } from '../findings/message.js';

type Pairs = readonly { readonly key: unknown; readonly value: unknown }[];

/** Longer texts, and those of more pieces, are not repeated as they are to be written. */
const MOST = { letters: 120, pieces: 8 };

/**
 * Inside braces a comma ends the text before it, and what follows is taken for a field: one that has neither a colon nor
 * a value. What to do about it, with the whole text as it was meant; undefined where no comma cut a text.
 * @param items pairs of a map in braces
 */
export function cutByComma(items: Pairs, index: number): Message | undefined {
  if (!isPiece(items, index)) return undefined;
  let first = index;
  while (isPiece(items, first) && index - first < MOST.pieces) first--;
  let last = index;
  while (isPiece(items, last + 1) && last - index < MOST.pieces) last++;
  const begin = items[first]?.value;
  const braces = { braces: '{ }', brackets: '[ ]' };
  const open = last - first >= MOST.pieces;
  if (open || !isScalar(begin) || typeof begin.value !== 'string') return message('answer.quoteText', braces);
  const pieces = items.slice(first + 1, last + 1).map(({ key }) => (isScalar(key) ? String(key.value) : ''));
  const whole = [begin.value, ...pieces].join(', ');
  return whole.length > MOST.letters || /["\\\n]/.test(whole)
    ? message('answer.quoteText', braces)
    : message('answer.quoteTextAs', { ...braces, text: `"${whole}"` });
}

/** A key without a colon that follows something else. */
const isPiece = (items: Pairs, index: number): boolean => index > 0 && items[index]?.value === null;
