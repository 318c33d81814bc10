import type { Clause, Noun } from '../text/clauses.js';
import type { Token } from '../text/tokens.js';
import { findingWords } from '../words/talk.js';
import { wordTokens } from './which.js';

const isAdjective = (noun: Noun): boolean => {
  const words = wordTokens(noun).flatMap(({ text }) => text.toLowerCase().split('-'));
  return words.length > 0 && words.every(word => findingWords.has(word));
};

/** `flushed clear`, `aspirated dry`: words behind an act that tell how it went. */
export const isManner = (noun: Noun, tokens: readonly Token[]): boolean => {
  const [word, ...more] = noun.tokens;
  if (!word || more.length > 0 || !isAdjective(noun)) return false;
  return tokens[tokens.indexOf(word) - 1]?.entry?.role === 'act';
};

/** `thick pus`: how what came looks, and no thing of its own. */
export function isDescription(clause: Clause, noun: Noun): boolean {
  const fluid = clause.tokens.some(({ entry }) => entry?.role === 'fluid' && entry.out);
  return fluid && isAdjective(noun);
}
