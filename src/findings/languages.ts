import { language as de } from './words/de/language.js';
import type { en } from './words/en/words.js';
import { enUS } from './words/en-us/words.js';
import { english } from './words/english.js';
import { language as es } from './words/es/language.js';
import { language as fr } from './words/fr/language.js';
import { type LanguageData, partial } from './words/language.js';

export type WordKey = keyof typeof en;

const spoken = { names: {}, forms: {}, reviewed: 'its authors' };

/** Every language by its BCP 47 tag; to add one, its folder of `words/` and its line here. */
const data = {
  'en-GB': { ...partial({ ...spoken, name: 'English', texts: {} }), complete: true },
  // The United States only say what they spell otherwise.
  'en-US': { ...partial({ ...spoken, name: 'English (United States)', texts: enUS }), complete: true },
  de,
  es,
  fr,
} satisfies Readonly<Record<string, LanguageData>>;

/** Languages a report can be written in, as BCP 47 tags. */
export type Language = keyof typeof data;
export const languages = Object.keys(data) as readonly Language[] as readonly [Language, ...Language[]];

export const languageData = (language: Language): LanguageData => data[language];

/** All texts of one language; English where it says nothing. */
export function textsOf(language: Language): Readonly<Record<string, string>> {
  return { ...english, ...(data[language].texts as Readonly<Record<string, string>>) };
}

/** True for a language that somebody of the trade has read. */
export const isReviewed = (language: Language): boolean => data[language].reviewed !== 'no';

/** The language that a tag asks for: its own, else that of its first part (`de-CH` is read in `de`). */
export function languageOf(tag: string): Language | undefined {
  const wanted = tag.trim().toLowerCase().replaceAll('_', '-');
  const first = wanted.split('-')[0] ?? '';
  return (
    languages.find(one => one.toLowerCase() === wanted) ??
    (first === '' ? undefined : languages.find(one => one.toLowerCase().split('-')[0] === first))
  );
}
