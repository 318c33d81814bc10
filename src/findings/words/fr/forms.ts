import type { Forms } from '../language.js';

const none = { before: '' };

/** Articles selon le genre, avec l’élision devant une voyelle. */
export const forms: Forms = {
  bare: { m: none, f: none, n: none, p: none, x: none },
  def: {
    m: { before: 'le ', vowel: 'l’' },
    f: { before: 'la ', vowel: 'l’' },
    n: { before: 'le ', vowel: 'l’' },
    p: { before: 'les ' },
    x: none,
  },
  de: {
    m: { before: 'du ', vowel: 'de l’' },
    f: { before: 'de la ', vowel: 'de l’' },
    n: { before: 'du ', vowel: 'de l’' },
    p: { before: 'des ' },
    x: { before: 'de ', vowel: 'd’' },
  },
};
