import type { Clause, Noun } from './clauses.js';
import { findingWords } from './talk.js';
import { wordTokens } from './which.js';

/** `thick pus`: how what came looks, and no thing of its own. */
export function isDescription(clause: Clause, noun: Noun): boolean {
  const words = wordTokens(noun).flatMap(({ text }) => text.toLowerCase().split('-'));
  const fluid = clause.tokens.some(({ entry }) => entry?.role === 'fluid' && entry.out);
  return fluid && words.length > 0 && words.every(word => findingWords.has(word));
}
