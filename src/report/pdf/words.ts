import type { Language } from '../../findings/languages.js';

/** Words that only pages of paper need. */
const pageOf: Record<Language, string> = {
  'en-GB': 'Page {n} of {m}',
  'en-US': 'Page {n} of {m}',
  de: 'Seite {n} von {m}',
  es: 'Página {n} de {m}',
};

/** `Page 2 of 5`. */
export function pageNumber(language: Language, n: number, m: number): string {
  return pageOf[language].replace('{n}', String(n)).replace('{m}', String(m));
}
