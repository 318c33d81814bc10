import type { Quantity, Size } from '../../record/quantity.js';
import type { Lexicon, PluralKey } from '../words/lexicon.js';

/** Spans of time are written out as words; every other unit keeps its sign. */
const SPANS: Readonly<Record<string, PluralKey>> = {
  s: 'unit.s',
  min: 'unit.min',
  h: 'unit.h',
  d: 'unit.d',
  wk: 'unit.wk',
  mo: 'unit.mo',
  a: 'unit.a',
};

/** Prints numbers in the language's own form and never changes a digit. */
export function numberPrinter(words: Lexicon) {
  const separator =
    new Intl.NumberFormat(words.language).formatToParts(1.5).find(part => part.type === 'decimal')?.value ??
    '.';
  const decimal = (value: string) => value.replace('.', separator);

  /** `7 Fr`, `< 5 mL`, `6 weeks`. */
  const quantity = (q: Quantity): string => {
    const sign = q.comparator ? `${q.comparator} ` : '';
    const span = SPANS[q.code];
    if (span) return sign + words.plural(span, q.value, decimal(q.value));
    const gap = q.unit === '' || q.unit === '%' ? '' : ' ';
    // A unit may hold a number itself: mL/min/1.73 m².
    const unit = q.unit.replace(/\d\.\d/, decimal);
    return `${sign}${decimal(q.value)}${gap}${unit}`;
  };

  /** `8.5 Fr × 35 cm`, `500 µm to 700 µm`. */
  const size = (s: Size): string => {
    const across = s.upTo
      ? words.say('range', { from: quantity(s.diameter), to: quantity(s.upTo) })
      : quantity(s.diameter);
    return s.length ? `${across} × ${quantity(s.length)}` : across;
  };

  /** A name that Casetally made, such as `8.5 Fr stent, 2.5 cm`: the same numbers in the language's own form. */
  const named = (name: string) => name.replace(/\b\d+\.\d+(?= (?:Fr|G|mm|cm|µm|in|m)\b)/gu, decimal);

  return { decimal, quantity, size, named };
}
