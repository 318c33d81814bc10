import { type DueDate, dueDate } from '../../clinical/aftercare/aftercare.js';
import { readQuantity } from '../../record/quantity.js';
import type { Term } from '../../record/schema/fields.js';
import type { Printer } from '../print/printer.js';

/**
 * A date, or a span from the case with the date it leads to, and the working day that stands for it where the date is none.
 * A span that leads to no day (hours, fractions) stays a span.
 * @param worked what the assessment worked out; without it the date is counted here
 */
export function termText(p: Printer, term: Term, worked?: DueDate): string {
  const due = worked ?? dueDate(term, p.record.case.date);
  const working = due?.workingDay === undefined ? undefined : p.date(due.workingDay);
  if (term.when) {
    const date = p.when(term.when);
    return working === undefined ? date : p.say('due.dateWorking', { date, working });
  }
  const span = p.quantity(term.span);
  if (!due) return p.say('due.span', { span });
  const date = p.date(due.date);
  return working === undefined
    ? p.say('due.counted', { date, span })
    : p.say('due.countedWorking', { date, span, working });
}

/** A date that was worked out and has no term of its own in the record: that of a site's rule. */
export function dueText(p: Printer, due: DueDate): string {
  const date = p.date(due.date);
  const working = due.workingDay === undefined ? undefined : p.date(due.workingDay);
  if (!due.counted) return working === undefined ? date : p.say('due.dateWorking', { date, working });
  const read = readQuantity(due.written, ['duration']);
  const span = read.ok ? p.quantity(read.value) : due.written;
  return working === undefined
    ? p.say('due.counted', { date, span })
    : p.say('due.countedWorking', { date, span, working });
}
