import type { Severity } from '../../findings/define.js';
import type { Finding } from '../../findings/finding.js';
import { withFollowing } from '../../findings/harm.js';
import type { Language } from '../../findings/languages.js';
import { lexicon, type PluralKey } from '../../findings/say.js';

const KINDS: readonly (readonly [PluralKey, readonly Severity[]])[] = [
  ['terminal.errors', ['fatal', 'error']],
  ['terminal.warnings', ['warning']],
  ['terminal.notes', ['information']],
];

/** How many findings there are of each kind, in the order of `KINDS`; what follows from another is counted with it. */
export function numbers(findings: readonly Finding[]): number[] {
  const alone = withFollowing(findings).map(({ finding }) => finding);
  return KINDS.map(([, severities]) => alone.filter(f => severities.includes(f.severity)).length);
}

/** `2 errors`, `1 warning`. */
export const counts = (findings: readonly Finding[], language?: Language): string[] =>
  texts(numbers(findings), language);

function texts(all: readonly number[], language: Language = 'en-GB'): string[] {
  return KINDS.flatMap(([key], kind) => {
    const n = all[kind] ?? 0;
    return n === 0 ? [] : [lexicon(language).plural(key, String(n))];
  });
}

/** `2 errors, 1 warning` or `no findings`. */
export const countLine = (findings: readonly Finding[], language?: Language): string =>
  numbersLine(numbers(findings), language);

/** The same for findings that were counted before. */
export function numbersLine(all: readonly number[], language: Language = 'en-GB'): string {
  const said = texts(all, language);
  return said.length === 0 ? lexicon(language).say('terminal.none') : said.join(', ');
}
