import { type Finding, finding } from '../../../findings/finding.js';
import { type Message, message } from '../../../findings/message.js';
import type { Side } from './words.js';

/** The sides in words. */
export const spoken = (sides: Iterable<Side>): Message => {
  const all = new Set(sides);
  return all.size > 1 ? message('side.both') : message(all.has('left') ? 'side.left' : 'side.right');
};

/** Two places that differ; `other` is the text or path of the second. */
export function differs(
  path: string,
  text: string,
  sides: Iterable<Side>,
  other: string,
  otherSides: Iterable<Side>,
): Finding {
  return finding('clinical.side-differs', path, {
    text,
    side: spoken(sides),
    other,
    otherSide: spoken(otherSides),
  });
}
