import { Temporal } from 'temporal-polyfill';
import type { Term } from '../../record/schema/fields.js';

/** A day on which something is due, and how it was worked out. */
export interface DueDate {
  /** FHIR date or dateTime of the precision that was written. */
  readonly date: string;
  /** As written: `12 weeks`, `2024-06-06`. */
  readonly written: string;
  /** True when the date was counted from the day of the case. */
  readonly counted: boolean;
  /** The day to plan for, when the date itself is not worked: see `onWorkingDays`. */
  readonly workingDay?: string;
}

const SPANS: Readonly<Record<string, 'days' | 'weeks' | 'months' | 'years'>> = {
  d: 'days',
  wk: 'weeks',
  mo: 'months',
  a: 'years',
};

/**
 * Works out a due date by calendar arithmetic from the day of the case.
 * Whole numbers of days, weeks, months or years give a date (the last day of a shorter month is kept within it);
 * hours and minutes, fractions, bounds (`< 6 weeks`) and years beyond 9999 cannot be a date and give undefined.
 */
export function dueDate(term: Term, caseDate: string): DueDate | undefined {
  if (term.when) return { date: term.when.iso, written: term.text, counted: false };
  const unit = SPANS[term.span.code];
  if (!unit || term.span.comparator || !/^\d{1,5}$/.test(term.span.value)) return undefined;
  const date = Temporal.PlainDate.from(caseDate).add(
    { [unit]: Number(term.span.value) },
    { overflow: 'constrain' },
  );
  return date.year > 9999 ? undefined : { date: date.toString(), written: term.text, counted: true };
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

/** Whether a date is after another, at the precision that both have. */
export function isAfter(a: string, b: string): boolean {
  const shared = Math.min(a.length, b.length, 10);
  return a.slice(0, shared) > b.slice(0, shared);
}
