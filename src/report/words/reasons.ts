import { type ReasonKey, reasons } from '../../devices/tally/reasons.js';
import { type Verb, verbs } from '../../devices/tally/verbs.js';
import { reasons as de } from './de/reasons.js';
import { reasons as es } from './es/reasons.js';
import type { Language } from './lexicon.js';

/** Why devices are in their end states, in one language: every reason and every verb. */
export type ReasonWords = Readonly<Record<ReasonKey | `verb.${Verb}`, string>>;

const done = Object.fromEntries(
  Object.entries(verbs).map(([verb, { done: word }]) => [`verb.${verb}`, word]),
) as Record<`verb.${Verb}`, string>;
const en: ReasonWords = { ...reasons, ...done };

const catalogues: Record<Language, ReasonWords> = { 'en-GB': en, 'en-US': en, de, es };

/** All reasons in one language. */
export function reasonWordsOf(language: Language): ReasonWords {
  return catalogues[language];
}
