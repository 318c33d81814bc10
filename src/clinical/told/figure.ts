import { Decimal } from '../../record/decimal.js';
import { convert, type Quantity } from '../../record/quantity.js';
import { remembered } from '../../record/remembered.js';
import { type Unit, unitNamed } from '../../record/units.js';

/** A figure with its unit as a text tells it. */
export interface Figure {
  readonly quantity: Quantity;
  readonly index: number;
  readonly length: number;
  /** Told as no more than near: 'about 5 cm'. */
  readonly near: boolean;
}

const numberWords = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
  'twenty',
];

/** The words for one up to a number, as a pattern. */
export const upTo = (most: number): string => numberWords.slice(1, most + 1).join('|');

/** A number in digits or in words up to twenty, as a pattern. */
export const NUMBER = `\\d{1,3}|${upTo(20)}|both|single`;

/** 'Two vials in the one and one in the other': the last is counted by its number alone. */
export const inParts = new RegExp(
  `\\b(?:and|then|plus)\\s+(?:another\\s+)?(?:${NUMBER})(?:\\s+(?:in|into|on|for|at|to|from|below|above|beside)\\b|\\s*$)|\\b(?:${NUMBER})\\s+(?:then|plus|and)\\s+(?:${NUMBER})\\b`,
  'i',
);

/** What a number in digits or words comes to. */
export function numberOf(text: string): number {
  const word = text.toLowerCase();
  if (word === 'both') return 2;
  if (word === 'single') return 1;
  const place = numberWords.indexOf(word);
  return place >= 0 ? place : Number(text);
}

const unitsTold =
  'mmHg|mm Hg|cmH2O|mGy·?cm2?|mGy|c?Gy·?cm2|Gy|µg|ug|mcg|mg|kg|lb|g|IU|units|mL|ml|L|l|litres?|mm|cm|µm|Fr|French|G|gauge|%|atm|bar|min|minutes|s|sec|seconds|h|hours';
/** `21 to 8 mmHg`, `3 x 40 mm`: a figure without a unit of its own takes that of the next. */
const figure = new RegExp(
  `(?<![\\d.,/-])(\\d+(?:\\.\\d+)?)(?=\\s?(${unitsTold})(?![\\p{L}\\d])|\\s*(?:to|and|x|×|-|–|or)\\s*\\d+(?:\\.\\d+)?\\s?(${unitsTold})(?![\\p{L}\\d]))`,
  'gu',
);

const nearly = /(?:\b(?:about|around|approximately|approx\.?|some|nearly|almost|roughly|circa|ca\.?)|~)\s*$/i;
/** A limit, an aim, a difference or a rate is no measured value. */
const bound =
  /\b(?:under|below|less than|up to|at most|at least|over|above|more than|aim(?:ed)?(?: of| at| for)?|goal(?: of)?|limit(?: of)?|target of|by|within|from skin|every|each|max(?:imum)?(?: of)?|keep(?:ing)?|of the last)\s*(?:about )?$/i;
const rate =
  /^(?:\s+of\s+\S+)?\s*(?:\/|per\b|an hour|a day|a minute|each\b|every\b|daily\b|hourly\b|later\b|ago\b)/i;

/** Every figure with a unit in a text that is told as a value. */
export const figuresIn: (text: string) => readonly Figure[] = remembered(text =>
  [...text.matchAll(figure)].flatMap(match => {
    const [whole, value = '', own, next] = match;
    const unit = unitOf(own ?? next ?? '');
    const before = text.slice(0, match.index);
    const length =
      whole.length +
      (own === undefined ? 0 : (/^\s*\S+/.exec(text.slice(match.index + whole.length))?.[0].length ?? 0));
    if (!unit || bound.test(before) || rate.test(text.slice(match.index + length))) return [];
    return [
      {
        quantity: { value, unit: unit.display, code: unit.code },
        index: match.index,
        length,
        near: nearly.test(before),
      },
    ];
  }),
);

const unitOf = (text: string): Unit | undefined => unitNamed(text);

/** Whether a told figure is a recorded one, as people round: a tenth of it, or half of its last digit. */
export function agrees({ quantity, near }: Figure, recorded: Quantity): boolean | undefined {
  if (quantity.code === recorded.code && quantity.code === '{gauge}')
    return quantity.value === recorded.value;
  const own = convert(recorded, quantity.code);
  if (!own) return undefined;
  return closeTo(new Decimal(quantity.value), own, near);
}

/** The same with a bare number in the unit of the told one. */
export function closeTo(told: Decimal, own: Decimal, near = false): boolean {
  const digits = told.toString().split('.')[1]?.length ?? 0;
  const half = new Decimal(5).div(new Decimal(10).pow(digits + 1));
  const part = own.abs().times(near ? '0.25' : '0.1');
  const slack = part.gt(half) ? part : half;
  return told.minus(own).abs().lte(slack);
}

/** Whether a told figure contradicts every recorded one of its dimension. */
export function contradicts(told: Figure, recorded: readonly Quantity[]): Quantity | undefined {
  const verdicts = recorded.map(one => ({ one, agrees: agrees(told, one) }));
  const known = verdicts.filter(({ agrees: yes }) => yes !== undefined);
  return known.length > 0 && !known.some(({ agrees: yes }) => yes) ? known[0]?.one : undefined;
}
