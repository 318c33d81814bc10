import { type PhraseKey, phrases } from '../../clinical/phrases/phrases.js';
import { worked as de } from './de/worked.js';
import { worked as es } from './es/worked.js';
import type { Language } from './lexicon.js';

/** What calculations say in one language: every phrase, no more and no fewer. */
export type WorkedWords = Readonly<Record<PhraseKey, string>>;

const catalogues: Record<Language, WorkedWords> = { 'en-GB': phrases, 'en-US': phrases, de, es };

/** All phrases of calculations in one language. */
export function workedWordsOf(language: Language): WorkedWords {
  return catalogues[language];
}
