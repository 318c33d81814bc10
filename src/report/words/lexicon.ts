import { fillPlaces } from '../../findings/places.js';
import { de } from './de.js';
import { en } from './en.js';
import { enUS } from './en-US.js';
import { es } from './es.js';

export type WordKey = keyof typeof en;
/** One language: every key, no more and no fewer. */
export type Words = Readonly<Record<WordKey, string>>;
/** Keys that come in `.one` and `.other`. */
export type PluralKey = WordKey extends infer K ? (K extends `${infer Base}.one` ? Base : never) : never;

/** Languages a report can be written in, as BCP 47 tags. */
export const languages = ['en-GB', 'en-US', 'de', 'es'] as const;
export type Language = (typeof languages)[number];

/** The words of one language, and how to fill their places. */
export interface Lexicon {
  readonly language: Language;
  /** The word or sentence of `key`, its `{places}` filled from `params`. */
  say(key: WordKey, params?: Readonly<Record<string, string>>): string;
  /** The form of `key` for the amount `n` (decimal text), which fills `{n}` as `shown`. */
  plural(key: PluralKey, n: string, shown?: string): string;
}

const catalogues: Record<Language, Words> = { 'en-GB': en, 'en-US': enUS, de, es };

/** All words of one language. */
export function wordsOf(language: Language): Words {
  return catalogues[language];
}

/** True for a key of the catalogue; templates name keys as text. */
export function isWordKey(key: string): key is WordKey {
  return Object.hasOwn(en, key);
}

/** Makes the lexicon of one language. */
export function lexicon(language: Language): Lexicon {
  const words = wordsOf(language);
  const rules = new Intl.PluralRules(language);
  const say: Lexicon['say'] = (key, params = {}) => fillPlaces(words[key], params, value => value);
  return {
    language,
    say,
    plural: (key, n, shown = n) =>
      say(rules.select(Number(n)) === 'one' ? `${key}.one` : `${key}.other`, { n: shown }),
  };
}
