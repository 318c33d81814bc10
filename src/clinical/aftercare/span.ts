import { readQuantity } from '../../record/quantity.js';
import type { Term } from '../../record/schema/fields.js';
import {
  type CountedFrom,
  clockOf,
  type Dates,
  type DueDate,
  dueDate,
  isHours,
  onWorkingDays,
  type WorkingDays,
} from './due-date.js';
import { isOften } from './repeat.js';

/** When an item is due, and from when to when it is done. */
export interface Plan extends Dates {
  /**
   * FHIR date or dateTime from which an item without dates of its own is done: the end of the case, for checks that come
   * often and for what lasts a while. Absent for items with dates, and for those that wait for a condition.
   */
  readonly start?: string;
  /** When what is done for a while ends: counted from the earliest or due time, else from the case. */
  readonly until?: DueDate;
}

/** What an item says of its time, whoever wrote it. */
export interface Written {
  readonly earliest?: Term | undefined;
  readonly due?: Term | undefined;
  readonly latest?: Term | undefined;
  readonly when?: string | undefined;
  readonly every?: string | undefined;
  readonly for?: string | undefined;
  readonly by: string;
}

/** Works out the times of items. Monitoring is never put on a working day; a visit is. */
export function planner(from: CountedFrom, days: WorkingDays): (item: Written) => Plan {
  return item => {
    const counted = datesOf(item, from);
    const dates = isMonitoring(item) ? counted : onWorkingDays(counted, from.date, days);
    const until = untilOf(item, dates, from);
    const dated = counted.earliest ?? counted.due ?? counted.latest;
    const often = item.every !== undefined && isOften(item.every);
    const atOnce = !dated && item.when === undefined && (often || until !== undefined);
    return { ...dates, ...(atOnce && { start: from.end ?? from.date }), ...(until && { until }) };
  };
}

function datesOf(item: Written, from: CountedFrom): Dates {
  const at = (name: keyof Dates): Dates => {
    const term = item[name];
    const due = term && dueDate(term, from);
    return due ? { [name]: due } : {};
  };
  return { ...at('earliest'), ...at('due'), ...at('latest') };
}

/**
 * True for what goes on while the patient is watched: done by the ward, again within a week, or within hours. Everything
 * else is a visit or a task that can wait for a working day.
 */
function isMonitoring({ earliest, due, latest, every, by }: Written): boolean {
  const hours = [earliest, due, latest].some(term => term?.span && isHours(term.span));
  return hours || by.trim().toLowerCase() === 'ward' || (every !== undefined && isOften(every));
}

/** The first time an item is done, and how long it goes on, added up. */
function untilOf(item: Written, { earliest, due }: Dates, from: CountedFrom): DueDate | undefined {
  if (item.for === undefined) return undefined;
  const read = readQuantity(item.for, ['duration']);
  const first = earliest ?? due;
  if (!read.ok || (!first && item.when !== undefined)) return undefined;
  if (!first) return dueDate({ text: item.for, span: read.value }, from);
  const date = first.workingDay ?? first.date;
  if (date.length < 10) return undefined;
  const clock = clockOf(date);
  // From a day without a clock time, hours can be counted only where they make whole days.
  const wholeDays = !clock && read.value.code === 'h' && Number(read.value.value) % 24 === 0;
  const span = wholeDays
    ? { ...read.value, code: 'd', value: String(Number(read.value.value) / 24) }
    : read.value;
  const { timeZone } = from;
  return dueDate(
    { text: item.for, span },
    {
      date: date.slice(0, 10),
      ...(clock && { end: date }),
      ...(timeZone !== undefined && { timeZone }),
    },
  );
}
