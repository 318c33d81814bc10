import { Temporal } from 'temporal-polyfill';
import type { Quantity } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { When } from '../record/time.js';

export type LabName = 'creatinine' | 'cystatin C' | 'INR' | 'platelets' | 'haemoglobin' | 'bilirubin';

/** One value that a calculation may use, with its place in the record. */
export interface LabValue {
  readonly quantity: Quantity;
  readonly at: When;
  readonly path: string;
}

const names: readonly (readonly [LabName, RegExp])[] = [
  ['creatinine', /^(?:serum |plasma )?creatinine\b/i],
  ['cystatin C', /^(?:serum |plasma )?cystatin[ -]?c\b/i],
  ['INR', /^(?:inr\b|international normali[sz]ed ratio)/i],
  ['platelets', /^platelets?\b/i],
  ['haemoglobin', /^ha?emoglobin\b/i],
  ['bilirubin', /^(?:total |serum )?bilirubin\b/i],
];

/** Values of one kind, oldest first. Values dated no finer than a month are left out: their order is not known. */
export function labsNamed(record: CaseRecord, name: LabName): LabValue[] {
  const pattern = names.find(([known]) => known === name)?.[1];
  const take = (labs: NonNullable<CaseRecord['before']>['labs'], path: string) =>
    (labs ?? []).flatMap((lab, index) =>
      pattern?.test(lab.what.text) && (lab.at.precision === 'day' || lab.at.precision === 'time')
        ? [{ quantity: lab.value, at: lab.at, path: `${path}[${index}]` }]
        : [],
    );
  return [...take(record.before?.labs, 'before.labs'), ...take(record.after?.labs, 'after.labs')].sort(
    (a, b) => orderOf(a.at) - orderOf(b.at),
  );
}

/** The last value taken before access (or on the day of the case, when only the day is known). */
export function lastBefore(record: CaseRecord, name: LabName): LabValue | undefined {
  const start = record.case.started?.epoch ?? epochOfDay(record.case.date) + 86_400_000;
  return labsNamed(record, name)
    .filter(lab => lab.path.startsWith('before') && orderOf(lab.at) <= start)
    .at(-1);
}

/** Milliseconds since 1970 of a moment, or of the start of a day in UTC. Good for ordering and for ages in days. */
export function orderOf(when: When): number {
  return when.moment?.epoch ?? epochOfDay(when.iso.slice(0, 10));
}

function epochOfDay(date: string): number {
  return Temporal.PlainDate.from(date).toZonedDateTime('UTC').epochMilliseconds;
}

/** Whole days from a value to the day of the case, by the calendar. */
export function ageInDays(when: When, caseDate: string): number {
  return Temporal.PlainDate.from(when.moment?.date ?? when.iso.slice(0, 10)).until(
    Temporal.PlainDate.from(caseDate),
    { largestUnit: 'days' },
  ).days;
}
