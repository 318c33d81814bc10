/** Sentences, words and syllables of a text. */
export interface Counts {
  readonly sentences: number;
  readonly words: number;
  readonly syllables: number;
  /** Words of three syllables or more, of one syllable, and of more than six letters. */
  readonly long: number;
  readonly short: number;
  readonly wide: number;
}

type Counted = 'de' | 'es' | 'fr';

/**
 * Groups of vowels, each a syllable: close enough for means over a letter. Spanish parts open vowels from one another
 * (`a-é-re-o`); the mute ending of French is none.
 */
const SYLLABLES: Readonly<Record<Counted, (word: string) => number>> = {
  de: word => groups(word, /ie|ei|ai|au|eu|äu|aa|ee|oo|[aeiouäöüy]/g),
  es: word => groups(word, /[iu]?[aeoáéó][iuy]?(?![aeoáéó])|[iu]?[aeoáéó]|[iuíúü]+/g),
  fr: word =>
    groups(
      word.length > 3 ? word.replace(/(?<=[a-zàâçéèêëîïôûùüÿœæ]{2})(?:es?|ent)$/, '') : word,
      /[aeiouyàâéèêëîïôûùüÿœæ]+/g,
    ),
};

const groups = (word: string, pattern: RegExp) => Math.max(1, word.match(pattern)?.length ?? 0);

export function countsOf(text: string, language: Counted): Counts {
  const sentences = text.split(/[.!?]+(?:\s|$)/).filter(part => /\p{L}/u.test(part)).length;
  const words = text.toLowerCase().match(/\p{L}+/gu) ?? [];
  const each = words.map(word => SYLLABLES[language](word));
  return {
    sentences: Math.max(1, sentences),
    words: words.length,
    syllables: each.reduce((a, b) => a + b, 0),
    long: each.filter(n => n >= 3).length,
    short: each.filter(n => n === 1).length,
    wide: words.filter(word => word.length > 6).length,
  };
}

/** First formula of Bamberger and Vanecek (Wiener Sachtextformel, 1984), in school years; from memory. */
export function schoolYear(text: string): number {
  const { sentences, words, long, short, wide } = countsOf(text, 'de');
  const share = (n: number) => (100 * n) / words;
  return (
    0.1935 * share(long) + (0.1672 * words) / sentences + 0.1297 * share(wide) - 0.0327 * share(short) - 0.875
  );
}

/** Szigriszt-Pazos (1993), read on the INFLESZ scale: 65 and more is fairly easy, as for primary school; from memory. */
export function perspicuity(text: string): number {
  const { sentences, words, syllables } = countsOf(text, 'es');
  return 206.835 - (62.3 * syllables) / words - words / sentences;
}

/** Kandel and Moles (1958), the Flesch scale for French: 70 and more is fairly easy; from memory. */
export function easeInFrench(text: string): number {
  const { sentences, words, syllables } = countsOf(text, 'fr');
  return 207 - (1.015 * words) / sentences - (73.6 * syllables) / words;
}
