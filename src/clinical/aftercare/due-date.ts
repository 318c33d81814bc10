import { Temporal } from 'temporal-polyfill';
import { inBaseUnit, type Quantity } from '../../record/quantity.js';
import { remembered } from '../../record/remembered.js';
import type { Term } from '../../record/schema/fields.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { isTimeZone, type Moment } from '../../record/time.js';

/** A day or a point in time on which something is due, and how it was worked out. */
export interface DueDate {
  /** FHIR date or dateTime of the precision that was written; a span in hours or minutes gives a dateTime. */
  readonly date: string;
  /** As written: `12 weeks`, `2024-06-06`. */
  readonly written: string;
  /** True when the date was counted from the case. */
  readonly counted: boolean;
  /** The day to plan for, when the date itself is not worked: see `onWorkingDays`. */
  readonly workingDay?: string;
}

/** What spans are counted from: days from the day of the case, hours and minutes from its end. */
export interface CountedFrom {
  /** `YYYY-MM-DD`. */
  readonly date: string;
  /** FHIR dateTime with an offset; absent when the record does not say when the case ended. */
  readonly end?: string;
  /** IANA zone in which clock times are given; absent: the offset of the end. */
  readonly timeZone?: string;
}

/**
 * The day of the case, and its end: as recorded, else its last event, else the signature.
 * @param timeZone of the site, for a record that has none
 */
export function countedFrom({ case: head, events, report }: CaseRecord, timeZone?: string): CountedFrom {
  const last = (events ?? [])
    .map(({ at }) => at)
    .reduce<Moment | undefined>((best, at) => (best && best.epoch >= at.epoch ? best : at), undefined);
  const end = head.ended ?? last ?? report.signedAt;
  const zone = head.timeZone ?? timeZone;
  return {
    date: head.date,
    ...(end && { end: end.iso }),
    ...(zone !== undefined && isTimeZone(zone) && { timeZone: zone }),
  };
}

const DAYS: Readonly<Record<string, 'days' | 'weeks' | 'months' | 'years'>> = {
  d: 'days',
  wk: 'weeks',
  mo: 'months',
  a: 'years',
};

const HOURS: ReadonlySet<string> = new Set(['h', 'min', 's']);

/** Whether a span is one of hours, minutes or seconds: it leads to a clock time, not to a day. */
export const isHours = ({ code }: Quantity): boolean => HOURS.has(code);

/**
 * Works out a due date. Whole numbers of days, weeks, months or years are counted by the calendar from the day of the
 * case (the last day of a shorter month is kept within it). Hours and minutes are counted from its end by the time that
 * passes, whatever the clocks do meanwhile. Fractions of a day, bounds (`< 6 weeks`), hours after an end that is not
 * recorded and years beyond 9999 give undefined.
 */
export function dueDate(term: Term, from: CountedFrom): DueDate | undefined {
  if (term.when) return { date: term.when.iso, written: term.text, counted: false };
  if (term.span.comparator) return undefined;
  const date = isHours(term.span) ? clockTime(term.span, from) : day(term.span, from.date);
  return date === undefined ? undefined : { date, written: term.text, counted: true };
}

function day({ code, value }: Quantity, caseDate: string): string | undefined {
  const unit = DAYS[code];
  if (!unit || !/^\d{1,5}$/.test(value)) return undefined;
  return dayAfter(`${caseDate} ${value} ${unit}`);
}

/** The day so many days, weeks, months or years after another, asked for at every check of an item. */
const dayAfter = remembered(span => {
  const [from = '', count, unit = ''] = span.split(' ');
  const date = Temporal.PlainDate.from(from).add({ [unit]: Number(count) }, { overflow: 'constrain' });
  return date.year > 9999 ? undefined : date.toString();
});

/** Ten years in seconds: more hours than that are a mistake. */
const MOST_SECONDS = 10 * 366 * 86_400;

function clockTime(span: Quantity, { end, timeZone }: CountedFrom): string | undefined {
  const seconds = inBaseUnit(span)?.times(60).toDecimalPlaces(6);
  if (end === undefined || !seconds?.isInteger() || seconds.lt(0) || seconds.gt(MOST_SECONDS))
    return undefined;
  const offset = /([+-]\d{2}:\d{2})$/.exec(end)?.[1] ?? 'UTC';
  const at = Temporal.Instant.from(end)
    .add({ seconds: seconds.toNumber() })
    .toZonedDateTimeISO(timeZone ?? offset);
  return `${at.toPlainDateTime().toString({ smallestUnit: 'second' })}${at.offset}`;
}

/** The local date and clock of a date with a time; undefined for a day, month or year. */
export function clockOf(date: string): { date: string; clock: string; iso: string } | undefined {
  const parts = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2}(?::(?!00)\d{2})?)/.exec(date);
  return parts ? { date: parts[1] ?? '', clock: parts[2] ?? '', iso: date } : undefined;
}

/** Which days a site works. */
export interface WorkingDays {
  /** ISO weekdays that are not worked, 1 Monday to 7 Sunday. */
  readonly weekend: readonly number[];
  /** `YYYY-MM-DD`. */
  readonly holidays: readonly string[];
}

function walk(date: string, step: 1 | -1, { weekend, holidays }: WorkingDays): string {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) return date;
  const closed = new Set(holidays);
  let day = Temporal.PlainDate.from(date);
  // A year without a working day is a mistake in the settings; the date then stays as it was.
  for (let tried = 0; tried < 366; tried++) {
    if (!weekend.includes(day.dayOfWeek) && !closed.has(day.toString())) return day.toString();
    day = day.add({ days: step });
  }
  return date;
}

/** The day itself when it is worked, else the next one that is. Partial dates and times are left alone. */
export const nextWorkingDay = (date: string, days: WorkingDays): string => walk(date, 1, days);

/** The day itself when it is worked, else the last one before it that is. */
export const lastWorkingDay = (date: string, days: WorkingDays): string => walk(date, -1, days);

/** The dates of one item. */
export interface Dates {
  readonly earliest?: DueDate;
  readonly due?: DueDate;
  readonly latest?: DueDate;
}

/**
 * Puts the dates of an item on working days: the earliest and the due day move on, the latest moves back, since it must
 * not be passed; a due day that would move beyond the latest moves back as well. No day moves before the case, and dates
 * that were in order stay so: where no working day lies between them, all stay as they are.
 */
export function onWorkingDays(dates: Dates, caseDate: string, days: WorkingDays): Dates {
  const on = (due: DueDate | undefined) => due && moved(due, nextWorkingDay(due.date, days));
  const back = (due: DueDate | undefined) => {
    const before = due && lastWorkingDay(due.date, days);
    return due && before !== undefined && before >= caseDate ? moved(due, before) : due;
  };
  const { earliest, due, latest } = dates;
  const outer = { earliest: on(earliest), latest: back(latest) };
  const choices: Record<keyof Dates, DueDate | undefined>[] = [
    { ...outer, due: on(due) },
    { ...outer, due: back(due) },
  ];
  const best = choices.find(inOrder);
  if (!best) return dates;
  return {
    ...(best.earliest && { earliest: best.earliest }),
    ...(best.due && { due: best.due }),
    ...(best.latest && { latest: best.latest }),
  };
}

const moved = (due: DueDate, day: string): DueDate => (day === due.date ? due : { ...due, workingDay: day });

/** Whether no date of an item is after one that it must not be after. */
function inOrder({
  earliest,
  due,
  latest,
}: { readonly [name in keyof Dates]: DueDate | undefined }): boolean {
  const dates = [earliest, due, latest]
    .filter(one => one !== undefined)
    .map(one => one.workingDay ?? one.date);
  return dates.every((date, place) => dates.slice(0, place).every(before => !isAfter(before, date)));
}

/** Whether a date is after another: by the minute where both have a time, else at the precision that both have. */
export function isAfter(a: string, b: string): boolean {
  if (clockOf(a) && clockOf(b)) return Date.parse(a) > Date.parse(b);
  const shared = Math.min(a.length, b.length, 10);
  return a.slice(0, shared) > b.slice(0, shared);
}
