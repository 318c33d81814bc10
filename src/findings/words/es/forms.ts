import type { Forms } from '../language.js';

const none = { before: '' };

/** Artículos según el género. */
export const forms: Forms = {
  bare: { m: none, f: none, n: none, p: none, x: none },
  def: { m: { before: 'el ' }, f: { before: 'la ' }, n: { before: 'el ' }, p: { before: 'las ' }, x: none },
  de: {
    m: { before: 'del ' },
    f: { before: 'de la ' },
    n: { before: 'del ' },
    p: { before: 'de las ' },
    x: { before: 'de ' },
  },
};
