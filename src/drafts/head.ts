import { Temporal } from 'temporal-polyfill';
import { isCalendarDate } from '../record/time.js';
import { treeIn, valueAt } from '../record/tree.js';

/** What a list shows of a draft. */
export interface DraftHead {
  readonly case?: string;
  readonly patient?: string;
  readonly patientNumber?: string;
}

/** What a list shows of a draft, as far as it is entered. */
export function headOf(text: string): DraftHead {
  const tree = treeIn(text);
  const at = (...path: (string | number)[]) => {
    const value = valueAt(tree, path);
    return typeof value === 'string' && value !== '' ? value.slice(0, 200) : undefined;
  };
  const [id, number] = [at('case', 'id'), at('patient', 'identifiers', 0, 'value')];
  const parts = [
    at('patient', 'name', 'given') ?? at('patient', 'name', 'given', 0),
    at('patient', 'name', 'family'),
  ];
  const name = at('patient', 'name') ?? (parts.join(' ').trim() || undefined);
  return {
    ...(id !== undefined && { case: id }),
    ...(name !== undefined && { patient: name }),
    ...(number !== undefined && { patientNumber: number }),
  };
}

/** The day of the case, `YYYY-MM-DD`; undefined where none is entered. */
export function dayOf(text: string): string | undefined {
  const date = valueAt(treeIn(text), ['case', 'date']);
  return typeof date === 'string' && isCalendarDate(date) ? date : undefined;
}

/** The day at a place, `YYYY-MM-DD`; by UTC where no zone is known. */
export function dayAt(at: number, timeZone = 'UTC'): string {
  return Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(timeZone).toPlainDate().toString();
}
