import { acts } from './acts.js';
import type { Entry } from './entry.js';
import { phrases } from './phrases.js';

const lexicon = new Map<string, Entry>([...acts, ...phrases]);

/** Most words of one entry. */
const LONGEST = Math.max(...[...lexicon.keys()].map(key => key.split(' ').length));

/** As words are compared: case, hyphens and curly apostrophes aside. */
export const plainWord = (word: string) => word.toLowerCase().replace(/’/g, "'").replace(/-/g, '');

/** The longest entry that the words begin with, and how many of them it takes. */
export function entryAt(
  words: readonly string[],
): { readonly entry: Entry; readonly length: number } | undefined {
  for (let length = Math.min(LONGEST, words.length); length > 0; length--) {
    const entry = lexicon.get(words.slice(0, length).join(' '));
    if (entry) return { entry, length };
  }
  return undefined;
}
