import type { Forms } from '../language.js';

/** Artikel und Endung starker und schwacher Adjektive nach Fall und Geschlecht. */
export const forms: Forms = {
  bare: {
    m: { before: '', ending: 'er' },
    f: { before: '', ending: 'e' },
    n: { before: '', ending: 'es' },
    p: { before: '', ending: 'e' },
    x: { before: '' },
  },
  nom: {
    m: { before: 'der ', ending: 'e' },
    f: { before: 'die ', ending: 'e' },
    n: { before: 'das ', ending: 'e' },
    p: { before: 'die ', ending: 'en' },
    x: { before: '' },
  },
  acc: {
    m: { before: 'den ', ending: 'en' },
    f: { before: 'die ', ending: 'e' },
    n: { before: 'das ', ending: 'e' },
    p: { before: 'die ', ending: 'en' },
    x: { before: '' },
  },
  dat: {
    m: { before: 'dem ', ending: 'en' },
    f: { before: 'der ', ending: 'en' },
    n: { before: 'dem ', ending: 'en' },
    p: { before: 'den ', ending: 'en' },
    x: { before: '' },
  },
  gen: {
    m: { before: 'vom ', ending: 'en' },
    f: { before: 'von der ', ending: 'en' },
    n: { before: 'vom ', ending: 'en' },
    p: { before: 'von den ', ending: 'en' },
    x: { before: 'von ' },
  },
  zum: {
    m: { before: 'zum ', ending: 'en' },
    f: { before: 'zur ', ending: 'en' },
    n: { before: 'zum ', ending: 'en' },
    p: { before: 'zu den ', ending: 'en' },
    x: { before: 'zu ' },
  },
};
