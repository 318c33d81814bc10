import { clockOf, countedFrom, type DueDate, dueDate } from '../../clinical/aftercare/due-date.js';
import { readQuantity } from '../../record/quantity.js';
import type { Term } from '../../record/schema/fields.js';
import type { Printer } from '../print/printer.js';

/** A date of any precision, or a point in time. */
export function dateText(p: Printer, date: string): string {
  const moment = clockOf(date);
  return moment ? p.fullMoment(moment) : p.date(date);
}

/**
 * A date, or a span from the case with the day or the time that it leads to, and the working day that stands for it where
 * the date is none. A span that leads to none (fractions of a day) stays a span.
 * @param worked what the assessment worked out; without it the date is counted here
 */
export function termText(p: Printer, term: Term, worked?: DueDate): string {
  const due = worked ?? dueDate(term, countedFrom(p.record));
  return due ? dueText(p, due) : p.say('due.span', { span: spanText(p, term.text) });
}

/** A date that was worked out, with the span that it was counted from. */
export function dueText(p: Printer, due: DueDate): string {
  const date = dateText(p, due.date);
  const working = due.workingDay === undefined ? undefined : p.date(due.workingDay);
  if (!due.counted) return working === undefined ? date : p.say('due.dateWorking', { date, working });
  const span = spanText(p, due.written);
  return working === undefined
    ? p.say('due.counted', { date, span })
    : p.say('due.countedWorking', { date, span, working });
}

/** A span of time in the reader's language; as written where it is none. */
export function spanText(p: Printer, written: string): string {
  const read = readQuantity(written, ['duration']);
  return read.ok ? p.quantity(read.value) : written;
}
