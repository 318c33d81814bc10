import { acts } from './acts.js';
import type { Entry } from './entry.js';
import { phrases } from './phrases.js';
import { talk } from './talk.js';

const lexicon = new Map<string, Entry>([...acts, ...talk, ...phrases]);

/** Most words of one entry. */
const LONGEST = Math.max(...[...lexicon.keys()].map(key => key.split(' ').length));

/** Every word of the entries. */
export const lexiconWords: ReadonlySet<string> = new Set([...lexicon.keys()].flatMap(key => key.split(' ')));

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

/** Words cut short, after which a stop ends nothing. Common practice, no source. */
const short = new Set(
  (
    'w cath exch punct approx min sec seg inj asp art lt rt ant post prox dist ca med neph gw wd ndl bal dil sup inf approx vol adv rem ' +
    'insp amt cont incl sm lg int ext diag ang hydro wt pt dr intro pig micro inc'
  ).split(' '),
);

export const isAbbreviation = (word: string): boolean => short.has(word.toLowerCase());
