import { Temporal } from 'temporal-polyfill';
import type { Term } from '../record/schema/fields.js';
import type { CaseRecord } from '../record/schema/record.js';

/** A day on which something is due, and how it was worked out. */
export interface DueDate {
  /** FHIR date or dateTime of the precision that was written. */
  readonly date: string;
  /** As written: `12 weeks`, `2024-06-06`. */
  readonly written: string;
  /** True when the date was counted from the day of the case. */
  readonly counted: boolean;
}

/** Something to do after the case. Dates are advice for a person to confirm, never an order. */
export interface AftercareItem {
  /** Stable within the case: the written key, or made from the place in the record. */
  readonly key: string;
  /** `aftercare[0]` or `left[1]`. */
  readonly path: string;
  readonly what: string;
  /** Key of the device that it is about. */
  readonly device?: string;
  readonly earliest?: DueDate;
  readonly due?: DueDate;
  readonly latest?: DueDate;
  readonly condition?: string;
  readonly every?: string;
  readonly duration?: string;
  readonly by: string;
  readonly call?: string;
  readonly ifMissed?: string;
  readonly urgent: boolean;
  /** Whether a person wrote the item, or it follows from the entry on what was left. */
  readonly source: 'aftercare' | 'left';
}

const TEMPORAL_UNITS: Record<string, 'days' | 'weeks' | 'months' | 'years' | 'hours' | 'minutes'> = {
  d: 'days',
  wk: 'weeks',
  mo: 'months',
  a: 'years',
  h: 'hours',
  min: 'minutes',
};

/**
 * Works out a due date by calendar arithmetic from the day of the case.
 * Whole numbers of days, weeks, months or years give a date (the last day of a shorter month is kept within it);
 * hours and minutes, and fractions, cannot be a date and give undefined.
 */
export function dueDate(term: Term, caseDate: string): DueDate | undefined {
  if (term.when) return { date: term.when.iso, written: term.text, counted: false };
  const unit = TEMPORAL_UNITS[term.span.code];
  if (!unit || !/^\d{1,4}$/.test(term.span.value)) return undefined;
  const amount = Number(term.span.value);
  if (unit === 'hours' || unit === 'minutes') return undefined;
  const date = Temporal.PlainDate.from(caseDate).add({ [unit]: amount }, { overflow: 'constrain' });
  return { date: date.toString(), written: term.text, counted: true };
}

/** Aftercare items of the record, and one for each device left in situ with a date or condition of its own. */
export function aftercareOf(record: CaseRecord): AftercareItem[] {
  const day = record.case.date;
  const at = (name: 'earliest' | 'due' | 'latest', term: Term | undefined) => {
    const due = term && dueDate(term, day);
    return due ? { [name]: due } : {};
  };
  const written = (record.aftercare ?? []).map(
    (item, index): AftercareItem => ({
      key: item.key ?? `aftercare-${index + 1}`,
      path: `aftercare[${index}]`,
      what: item.do,
      ...(item.device !== undefined && { device: item.device }),
      ...at('earliest', item.earliest),
      ...at('due', item.due),
      ...at('latest', item.latest),
      ...(item.when !== undefined && { condition: item.when }),
      ...(item.every !== undefined && { every: item.every }),
      ...(item.for !== undefined && { duration: item.for }),
      by: item.by,
      ...(item.call !== undefined && { call: item.call }),
      ...(item.ifMissed !== undefined && { ifMissed: item.ifMissed }),
      urgent: item.urgent ?? false,
      source: 'aftercare',
    }),
  );
  const left = record.left === 'none' ? [] : (record.left ?? []);
  const implied = left.flatMap((entry, index): AftercareItem[] => {
    if (!entry.until && !entry.latest) return [];
    return [
      {
        key: `left-${index + 1}`,
        path: `left[${index}]`,
        what: entry.purpose === 'intended' ? 'Review or change' : 'Remove or change',
        device: entry.device,
        ...at('due', entry.until?.date),
        ...at('latest', entry.latest),
        ...(entry.until?.condition !== undefined && { condition: entry.until.condition }),
        by: 'interventional radiology',
        urgent: false,
        source: 'left',
      },
    ];
  });
  return [...written, ...implied];
}
