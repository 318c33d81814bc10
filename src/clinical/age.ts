import { Temporal } from 'temporal-polyfill';
import { remembered } from '../record/remembered.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { When } from '../record/time.js';

/** Whole years between two days. One born on 29 February completes a year on 1 March of a common year. */
export const ageOn = (birthDate: string, day: string): number => yearsOf(`${birthDate}/${day}`);

const yearsOf = remembered(span => {
  const [from = '', to = ''] = span.split('/');
  return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'years' }).years;
});

/** Ages that a birth date of any precision leaves open on a day; undefined when there is none, or it lies later. */
export function agesOn(
  birthDate: When | undefined,
  day: string,
): { readonly least: number; readonly most: number } | undefined {
  if (!birthDate) return undefined;
  const [year = '', month, date] = birthDate.iso.slice(0, 10).split('-');
  const first = `${year}-${month ?? '01'}-${date ?? '01'}`;
  const last =
    date === undefined
      ? Temporal.PlainYearMonth.from(`${year}-${month ?? '12'}`)
          .toPlainDate({ day: 31 })
          .toString()
      : first;
  const most = ageOn(first, day);
  return first > day ? undefined : { least: Math.max(0, ageOn(last, day)), most };
}

/** Under 18 years on the day of the case, whichever day of the birth date's month or year it was. */
export function isChild({ patient, case: { date } }: CaseRecord): boolean {
  const ages = agesOn(patient.birthDate, date);
  return ages !== undefined && ages.most < 18;
}
