import { de } from './words/de/words.js';
import type { en } from './words/en/words.js';
import { enUS } from './words/en-us/words.js';
import { english } from './words/english.js';
import { es } from './words/es/words.js';
import type { ReportedKey } from './words/reported.js';

export type WordKey = keyof typeof en;

/**
 * What a language has to say: every word, and every finding that a report can print. Remedies and the other findings
 * are for command line and service, which speak English.
 */
type Catalogue = Readonly<Record<WordKey | ReportedKey, string>>;

/** Languages a report can be written in, as BCP 47 tags. */
export const languages = ['en-GB', 'en-US', 'de', 'es'] as const;
export type Language = (typeof languages)[number];

/** One folder of `words/` each; the United States only say what they spell otherwise. */
const own: Readonly<Record<Exclude<Language, 'en-GB' | 'en-US'>, Catalogue>> & {
  readonly 'en-US': Partial<Catalogue>;
} = { 'en-US': enUS, de, es };

/** All texts of one language. */
export function textsOf(language: Language): Readonly<Record<string, string>> {
  return language === 'en-GB' ? english : { ...english, ...own[language] };
}
