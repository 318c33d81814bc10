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

/** `2 errors`, `1 warning`; what follows from another is counted with it. */
export function counts(findings: readonly Finding[], language: Language = 'en-GB'): string[] {
  const alone = withFollowing(findings).map(({ finding }) => finding);
  return KINDS.flatMap(([key, severities]) => {
    const n = alone.filter(f => severities.includes(f.severity)).length;
    return n === 0 ? [] : [lexicon(language).plural(key, String(n))];
  });
}

/** `2 errors, 1 warning` or `no findings`. */
export function countLine(findings: readonly Finding[], language: Language = 'en-GB'): string {
  const all = counts(findings, language);
  return all.length === 0 ? lexicon(language).say('terminal.none') : all.join(', ');
}
