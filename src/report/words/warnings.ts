import type { CatalogueEntry } from '../../findings/define.js';
import type { Finding } from '../../findings/finding.js';
import { fillPlaces } from '../../findings/places.js';
import type { clinicalWording } from '../../findings/wording/clinical.js';
import type { sizeWording } from '../../findings/wording/sizes.js';
import type { tallyWording } from '../../findings/wording/tally.js';
import type { tradeWording } from '../../findings/wording/trade.js';
import { warnings as de } from './de/warnings.js';
import { warnings as es } from './es/warnings.js';
import { type Language, lexicon } from './lexicon.js';

/** Codes of a wording that are warnings: these a record can acknowledge, and the report then prints them. */
type Warnings<T extends Record<string, CatalogueEntry>> = {
  [Code in keyof T]: T[Code]['severity'] extends 'warning' ? Code : never;
}[keyof T];

export type WarningCode =
  | Warnings<typeof clinicalWording>
  | Warnings<typeof sizeWording>
  | Warnings<typeof tallyWording>
  | Warnings<typeof tradeWording>;

/** Messages of warnings in one language; a place whose filling is a sentence of its own in English is left out. */
export type WarningWords = Readonly<Record<WarningCode, string>>;

/** Words that fill places, where they are chosen and not written by a person. */
export type WarningTerms = Readonly<Record<string, string>>;

const catalogues: Partial<
  Record<Language, { readonly messages: WarningWords; readonly terms: WarningTerms }>
> = { de, es };

/** Messages and terms of a language that has its own. */
export function warningWordsOf(
  language: Language,
): { readonly messages: WarningWords; readonly terms: WarningTerms } | undefined {
  return catalogues[language];
}

/** The message of a finding in a language; its own English one where the language has none. */
export function warningMessage(
  language: Language,
  { code, params, message }: Finding,
  decimal: (value: string) => string,
): string {
  const words = warningWordsOf(language);
  const messages: Readonly<Record<string, string>> | undefined = words?.messages;
  if (!words || !messages || !Object.hasOwn(messages, code)) return message;
  const fill = (value: string) => {
    if (Object.hasOwn(words.terms, value)) return words.terms[value] ?? value;
    // A part of a device, both by their keys in the record.
    const [, part, device] = /^([\w-]+) of ([\w-]+)$/.exec(value) ?? [];
    if (part !== undefined && device !== undefined)
      return lexicon(language).say('name.part', { part, device });
    return value.replace(/(?<![\d.,])\d+\.\d+(?![\d.,])/g, decimal);
  };
  return fillPlaces(messages[code] ?? message, params, fill);
}
