import type { en } from './en/words.js';
import type { ReportedKey } from './reported.js';

/** What a language has to say: every word, and every finding that a report can print. */
export type Texts = Readonly<Record<keyof typeof en | ReportedKey, string>>;

/** Grammatical gender of a name; `p` for one that has only a plural. */
export type Gender = 'm' | 'f' | 'n' | 'p';

/**
 * What a name takes on where a text asks for it in a form, `{what:acc}`: what stands before it by its gender, another
 * word there before a vowel, and what `~` in the name becomes (the ending of a German adjective).
 */
export interface Form {
  readonly before: string;
  readonly vowel?: string;
  readonly ending?: string;
}

/** Lists of names of the trade; every name under that of its row in `src/trade`, or under the word of the record. */
export const nameLists = ['devices', 'parts', 'drugs', 'values', 'cases', 'places'] as const;
export type NameList = (typeof nameLists)[number];
export type Names = Readonly<Record<NameList, Readonly<Record<string, string>>>>;

/** Forms of a language by name; `bare` is how a name stands alone, `x` what is said before one whose gender is not known. */
export type Forms = Readonly<Record<string, Readonly<Record<Gender | 'x', Form>>>>;

/** One language, whole: nothing of it is code. */
export interface LanguageData {
  /** What it is called in itself. */
  readonly name: string;
  /** Who of the trade read it, and when; `no` where nobody did. */
  readonly reviewed: string;
  /** False for one to try out: what it does not say is said in English, and every page says so. */
  readonly complete: boolean;
  readonly texts: Readonly<Partial<Record<string, string>>>;
  readonly names: Partial<Names>;
  readonly forms: Forms;
}

/** A language that says everything: a missing text does not compile. */
export const complete = (
  language: Omit<LanguageData, 'complete'> & { readonly texts: Texts; readonly names: Names },
): LanguageData => ({ ...language, complete: true });

/** A language that is being written. */
export const partial = (
  language: Omit<LanguageData, 'complete'> & { readonly texts: Partial<Texts> },
): LanguageData => ({ ...language, complete: false });

/** Reads a list of names: one a line, `row: name`, a gender before the name where it has one. */
export function names(text: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    text
      .trim()
      .split('\n')
      .map(line => {
        const colon = line.indexOf(': ');
        return [line.slice(0, colon), line.slice(colon + 2)];
      }),
  );
}
