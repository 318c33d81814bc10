import { Temporal } from 'temporal-polyfill';
import type { Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { When } from '../../record/time.js';
import { analyteNamed, type LabName } from '../../trade/analytes.js';

/** One value that a calculation may use, with its place in the record. */
export interface LabValue {
  /** What was measured, as written. */
  readonly what: string;
  readonly quantity: Quantity;
  readonly at: When;
  readonly path: string;
}

/** Values of one kind, oldest first. Values dated no finer than a month are left out: their order is not known. */
export function labsNamed(record: CaseRecord, name: LabName): LabValue[] {
  const take = (labs: NonNullable<CaseRecord['before']>['labs'], path: string) =>
    (labs ?? []).flatMap((lab, index) =>
      analyteNamed(lab.what.text)?.name === name &&
      (lab.at.precision === 'day' || lab.at.precision === 'time')
        ? [{ what: lab.what.text, quantity: lab.value, at: lab.at, path: `${path}[${index}]` }]
        : [],
    );
  return [...take(record.before?.labs, 'before.labs'), ...take(record.after?.labs, 'after.labs')].sort(
    (a, b) => compareWhen(a.at, b.at),
  );
}

/** Values that came in after the case, oldest first. */
export function labsAfter(record: CaseRecord, name: LabName): LabValue[] {
  return labsNamed(record, name).filter(lab => lab.path.startsWith('after'));
}

/** Values taken before the case started (or on its day, when only the day is known), oldest first. */
export function labsBefore(record: CaseRecord, name: LabName): LabValue[] {
  const { started, date } = record.case;
  const day = started?.date ?? date;
  return labsNamed(record, name).filter(({ path, at }) => {
    if (!path.startsWith('before')) return false;
    if (dayOfWhen(at) !== day) return dayOfWhen(at) < day;
    return !at.moment || !started || at.moment.epoch <= started.epoch;
  });
}

/** The last value taken before the case. */
export function lastBefore(record: CaseRecord, name: LabName): LabValue | undefined {
  return labsBefore(record, name).at(-1);
}

/** The day by the clocks of the case. */
const dayOfWhen = (when: When) => when.moment?.date ?? when.iso.slice(0, 10);

/** By the moment where both have one, else by the day; a day alone comes before the hours of that day. */
function compareWhen(a: When, b: When): number {
  if (a.moment && b.moment) return a.moment.epoch - b.moment.epoch;
  const [first, second] = [dayOfWhen(a), dayOfWhen(b)];
  if (first !== second) return first < second ? -1 : 1;
  return Number(a.moment !== undefined) - Number(b.moment !== undefined);
}

/** Whole days from a value to the day of the case, by the calendar. */
export function ageInDays(when: When, caseDate: string): number {
  return daysBetween(dayOfWhen(when), caseDate);
}

function daysBetween(from: string, to: string): number {
  return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'days' }).days;
}

/** Hours between two values: one number twice where both times are known, else the least and the most they may be. */
export function hoursBetween(from: When, to: When): { readonly least: number; readonly most: number } {
  if (from.moment && to.moment) {
    const hours = (to.moment.epoch - from.moment.epoch) / 3_600_000;
    return { least: hours, most: hours };
  }
  const days = daysBetween(dayOfWhen(from), dayOfWhen(to));
  return { least: Math.max(0, (days - 1) * 24), most: (days + 1) * 24 };
}
