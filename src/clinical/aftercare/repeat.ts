/** How often something is done, in the terms of a FHIR Timing: `frequency` times in `period` units. */
export interface Repeat {
  readonly frequency: number;
  readonly period: number;
  readonly periodUnit: 'min' | 'h' | 'd' | 'wk' | 'mo' | 'a';
}

type Unit = Repeat['periodUnit'];

const UNITS: readonly (readonly [Unit, RegExp])[] = [
  ['min', /^min(?:ute)?s?$/],
  ['h', /^(?:h|hrs?|hours?)$/],
  ['d', /^(?:d|days?)$/],
  ['wk', /^(?:wk|weeks?)$/],
  ['mo', /^(?:mo|months?)$/],
  ['a', /^(?:a|years?)$/],
];

const ADVERBS: Readonly<Record<string, Unit>> = {
  hourly: 'h',
  daily: 'd',
  weekly: 'wk',
  monthly: 'mo',
  yearly: 'a',
  annually: 'a',
};

const TIMES: Readonly<Record<string, number>> = { once: 1, twice: 2, thrice: 3 };
const NUMBERS: Readonly<Record<string, number>> = { one: 1, two: 2, three: 3, four: 4, five: 5, six: 6 };

const unitOf = (word: string): Unit | undefined => UNITS.find(([, spelling]) => spelling.test(word))?.[0];

/**
 * Reads `15 min`, `every 8 hours`, `every other day`, `4 times a day`, `twice daily`, `hourly`, `6-hourly`. Anything more
 * (`15 minutes for 1 h then hourly`, `2 to 3 times a day`) is undefined: it stays text.
 */
export function readRepeat(text: string): Repeat | undefined {
  const said = text
    .trim()
    .toLowerCase()
    .replace(/\.$/, '')
    .replace(/^(?:every|each)\s+/, '');
  return ofAdverb(said) ?? ofTimes(said) ?? ofInterval(said);
}

function ofAdverb(said: string): Repeat | undefined {
  const [, number, word = ''] = /^(?:(\d{1,3})[\s-]?)?([a-z]+)$/.exec(said) ?? [];
  const periodUnit = ADVERBS[word];
  const period = Number(number ?? 1);
  // `2 daily` may be every two days or twice a day.
  if (number !== undefined && periodUnit === 'd') return undefined;
  return periodUnit && period > 0 ? { frequency: 1, period, periodUnit } : undefined;
}

function ofTimes(said: string): Repeat | undefined {
  const [, many = '', rest = ''] =
    /^(once|twice|thrice|(?:\d{1,2}|[a-z]+)\s*(?:times|x|×))\s+(.+)$/.exec(said) ?? [];
  const word = many.replace(/\s*(?:times|x|×)$/, '');
  const frequency = TIMES[word] ?? NUMBERS[word] ?? (/^\d+$/.test(word) ? Number(word) : 0);
  const periodUnit = ADVERBS[rest] ?? unitOf(/^(?:an?|per|every|each)\s+([a-z]+)$/.exec(rest)?.[1] ?? '');
  return frequency > 0 && periodUnit ? { frequency, period: 1, periodUnit } : undefined;
}

function ofInterval(said: string): Repeat | undefined {
  const [, number = '1', word = ''] = /^(?:(other|second|\d{1,4}(?:\.\d)?)\s*)?([a-z]+)$/.exec(said) ?? [];
  const periodUnit = unitOf(word);
  const period = number === 'other' || number === 'second' ? 2 : Number(number);
  return periodUnit && period > 0 ? { frequency: 1, period, periodUnit } : undefined;
}

/**
 * True for what comes again in less than a week: checks that begin at once and do not wait for a working day. Words that
 * cannot be read count as such unless they name weeks, months or years.
 */
export function isOften(every: string): boolean {
  const repeat = readRepeat(every);
  return repeat
    ? ['min', 'h'].includes(repeat.periodUnit) || (repeat.periodUnit === 'd' && repeat.period < 7)
    : !/\b(?:week|month|year)/i.test(every);
}
