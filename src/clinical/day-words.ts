import { Temporal } from 'temporal-polyfill';

/** Days, first and last, that words may mean; counted from the day of the case. */
export interface DaySpan {
  readonly from: number;
  readonly to: number;
}

const months = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];
const monthNames = months.map(name => `${name}|${name.slice(0, 3)}`).join('|');
const weekdays = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];
const numbers: Readonly<Record<string, number>> = {
  a: 1,
  an: 1,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  twelve: 12,
  fourteen: 14,
};
const units: Readonly<Record<string, number>> = {
  hour: 1 / 24,
  hr: 1 / 24,
  h: 1 / 24,
  day: 1,
  d: 1,
  night: 1,
  week: 7,
  wk: 7,
  fortnight: 14,
  month: 30.4,
  mo: 30.4,
  year: 365,
};
const count = `(\\d{1,3}|${Object.keys(numbers).join('|')})`;
const unit = '(hours?|hrs?|h|days?|d|nights?|weeks?|wks?|fortnights?|months?|years?)';
const iso = /\b(\d{4})-(\d{2})-(\d{2})\b/;
const dayMonth = new RegExp(`\\b(\\d{1,2})(?:st|nd|rd|th)?(?: of)? (${monthNames})\\b(?: (\\d{4}))?`, 'i');
const monthDay = new RegExp(`\\b(${monthNames}) (\\d{1,2})(?:st|nd|rd|th)?\\b(?:,? (\\d{4}))?`, 'i');
const numeric = /\b(\d{1,2})[./](\d{1,2})[./](\d{4}|\d{2})\b/;
const span = new RegExp(
  `\\b(?:in|after|for|from|until|within)?\\s?(?:about |another |at least |the next )?${count}[- ]${unit}(?: later| after\\b| from now| post\\b| time\\b| or so)?\\b`,
  'i',
);
const today =
  /\b(?:today|tonight|this (?:evening|afternoon|morning)|same (?:day|evening)|straight ?away|immediately|at once|now|right away|without (?:a )?(?:break|pause|interruption)|on (?:the )?day 0)\b/i;
const tomorrow =
  /\b(?:tomorrow|next (?:day|morning)|the (?:day|morning) after|following (?:day|morning)|day 1|POD ?1|overnight)\b/i;
const overTomorrow = /\b(?:day after tomorrow|in two days|day 2|POD ?2)\b/i;
const nextWeek = /\bnext week\b|\bin a week\b/i;
const weekday = new RegExp(`\\b(?:on |from |until |next )?(${weekdays.join('|')})\\b`, 'i');

/** When a text says that something is, in days from that of the case; undefined where it says no time that can be counted. */
export function daysTold(text: string, caseDate: string): DaySpan | undefined {
  const day = Temporal.PlainDate.from(caseDate);
  const exact = (date: Temporal.PlainDate | undefined): DaySpan | undefined => {
    if (!date) return undefined;
    const days = day.until(date, { largestUnit: 'days' }).days;
    return { from: days, to: days };
  };
  const [, y, m, d] = iso.exec(text) ?? [];
  if (y !== undefined) return exact(dateOf(Number(y), Number(m), Number(d)));
  const named = dayMonth.exec(text);
  if (named) return exact(near(day, Number(named[1]), named[2] ?? '', named[3]));
  const american = monthDay.exec(text);
  if (american) return exact(near(day, Number(american[2]), american[1] ?? '', american[3]));
  const figures = numeric.exec(text);
  if (figures) {
    const year = Number(figures[3]) < 100 ? 2000 + Number(figures[3]) : Number(figures[3]);
    const [one, two] = [Number(figures[1]), Number(figures[2])];
    return exact(dateOf(year, two, one) ?? dateOf(year, one, two));
  }
  if (overTomorrow.test(text)) return { from: 2, to: 2 };
  if (tomorrow.test(text)) return { from: 1, to: 1 };
  const counted = span.exec(text);
  if (counted) {
    const number = numbers[(counted[1] ?? '').toLowerCase()] ?? Number(counted[1]);
    const per =
      units[(counted[2] ?? '').toLowerCase().replace(/s$/, '')] ?? units[(counted[2] ?? '').toLowerCase()];
    if (per === undefined) return undefined;
    const days = number * per;
    return { from: Math.floor(days), to: Math.ceil(days) };
  }
  if (nextWeek.test(text)) return { from: 5, to: 11 };
  if (today.test(text)) return { from: 0, to: 0 };
  const name = weekday.exec(text)?.[1]?.toLowerCase();
  if (name === undefined) return undefined;
  const ahead = (weekdays.indexOf(name) + 1 - day.dayOfWeek + 7) % 7 || 7;
  return { from: ahead, to: ahead };
}

function dateOf(year: number, month: number, day: number): Temporal.PlainDate | undefined {
  try {
    return Temporal.PlainDate.from({ year, month, day }, { overflow: 'reject' });
  } catch {
    return undefined;
  }
}

/** A day without its year is the one that comes next. */
function near(from: Temporal.PlainDate, day: number, name: string, year: string | undefined) {
  const month = months.findIndex(one => one.startsWith(name.toLowerCase().slice(0, 3))) + 1;
  if (year !== undefined) return dateOf(Number(year), month, day);
  const date = dateOf(from.year, month, day);
  return date && Temporal.PlainDate.compare(date, from.subtract({ months: 3 })) < 0
    ? dateOf(from.year + 1, month, day)
    : date;
}
