import { Temporal } from 'temporal-polyfill';
import { type Finding, finding } from '../findings/finding.js';
import { readQuantity } from '../record/quantity.js';
import type { Term } from '../record/schema/fields.js';
import type { AftercareEntry, CaseRecord } from '../record/schema/record.js';

/** A day on which something is due, and how it was worked out. */
export interface DueDate {
  /** FHIR date or dateTime of the precision that was written. */
  readonly date: string;
  /** As written: `12 weeks`, `2024-06-06`. */
  readonly written: string;
  /** True when the date was counted from the day of the case. */
  readonly counted: boolean;
  /** The next day that the site works, when the date itself is not one. */
  readonly workingDay?: string;
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
  /** Conditions that can be measured, and what follows from each. */
  readonly criteria: NonNullable<AftercareEntry['criteria']>;
  readonly every?: string;
  readonly duration?: string;
  readonly by: string;
  readonly call?: string;
  readonly ifMissed?: string;
  readonly urgent: boolean;
  /** Whether a person wrote the item, it follows from the entry on what was left, or from a rule of the site. */
  readonly source: 'aftercare' | 'left' | 'site';
  /** Where the site's rule comes from. */
  readonly policy?: string;
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

/** How a site plans: which days count, and what its policy asks for by kind of device. */
export interface AftercareOptions {
  /** ISO weekdays that are not worked, 1 Monday to 7 Sunday. */
  readonly weekend: readonly number[];
  /** `YYYY-MM-DD`. */
  readonly holidays: readonly string[];
  /** The site's own rules, by kind of device (as written or as Casetally names it). */
  readonly rules: readonly AftercareRule[];
}

/** One line of a site's aftercare policy. */
export interface AftercareRule {
  readonly kind: string;
  readonly what: string;
  readonly due?: string;
  readonly latest?: string;
  readonly by: string;
  readonly source: string;
}

export const plainCalendar: AftercareOptions = { weekend: [6, 7], holidays: [], rules: [] };

/** The day itself when it is worked, else the next one that is. Partial dates and times are left alone. */
export function nextWorkingDay(
  date: string,
  options: Pick<AftercareOptions, 'weekend' | 'holidays'>,
): string {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) return date;
  const holidays = new Set(options.holidays);
  let day = Temporal.PlainDate.from(date);
  // A year without a working day is a mistake in the settings; the date then stays as it was.
  for (let tried = 0; tried < 366; tried++) {
    if (!options.weekend.includes(day.dayOfWeek) && !holidays.has(day.toString())) return day.toString();
    day = day.add({ days: 1 });
  }
  return date;
}

/** Aftercare items of the record, one for each device left with a date or condition of its own, and the site's rules. */
export function aftercareOf(
  record: CaseRecord,
  devices: ReadonlyMap<string, { readonly kind: string }> = new Map(),
  options: AftercareOptions = plainCalendar,
): AftercareItem[] {
  const day = record.case.date;
  const at = (name: 'earliest' | 'due' | 'latest', term: Term | undefined) => {
    const due = term && dueDate(term, day);
    if (!due) return {};
    const working = nextWorkingDay(due.date, options);
    return { [name]: working === due.date ? due : { ...due, workingDay: working } };
  };
  const written = (record.aftercare ?? []).map((item, index) => fromRecord(item, index, at));
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
        criteria: [],
        source: 'left',
      },
    ];
  });
  const ruled = left.flatMap((entry, index): AftercareItem[] => {
    const kind = devices.get(entry.device)?.kind ?? record.devices?.[entry.device]?.kind;
    return options.rules
      .filter(rule => rule.kind === kind)
      .map(rule => ({
        key: `rule-${index + 1}-${slug(rule.what)}`,
        path: `left[${index}]`,
        what: rule.what,
        device: entry.device,
        ...at('due', spanOf(rule.due)),
        ...at('latest', spanOf(rule.latest)),
        by: rule.by,
        urgent: false,
        criteria: [],
        source: 'site',
        policy: rule.source,
      }));
  });
  return [...written, ...implied, ...ruled];
}

type AtTerm = (name: 'earliest' | 'due' | 'latest', term: Term | undefined) => Partial<AftercareItem>;

function fromRecord(item: AftercareEntry, index: number, at: AtTerm): AftercareItem {
  return {
    key: item.key ?? `aftercare-${index + 1}`,
    path: `aftercare[${index}]`,
    what: item.do,
    ...(item.device !== undefined && { device: item.device }),
    ...at('earliest', item.earliest),
    ...at('due', item.due),
    ...at('latest', item.latest),
    ...(item.when !== undefined && { condition: item.when }),
    criteria: item.criteria ?? [],
    ...(item.every !== undefined && { every: item.every }),
    ...(item.for !== undefined && { duration: item.for }),
    by: item.by,
    ...(item.call !== undefined && { call: item.call }),
    ...(item.ifMissed !== undefined && { ifMissed: item.ifMissed }),
    urgent: item.urgent ?? false,
    source: 'aftercare',
  };
}

function spanOf(written: string | undefined): Term | undefined {
  if (written === undefined) return undefined;
  const span = readQuantity(written, ['duration']);
  return span.ok ? { text: written, span: span.value } : undefined;
}

const slug = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 40);

/** Dates in the wrong order or before the case, spans that cannot be counted, and devices that nobody will come back to. */
export function checkAftercare(
  record: CaseRecord,
  items: readonly AftercareItem[],
  names: ReadonlyMap<string, { readonly name: string }>,
): Finding[] {
  const findings: Finding[] = [];
  for (const item of items) {
    const dates = [item.earliest, item.due, item.latest].filter(due => due !== undefined);
    dates.forEach((due, place) => {
      const before = dates[place - 1];
      // Compared at the precision that both have.
      const shared = before ? Math.min(before.date.length, due.date.length, 10) : 0;
      if (before && before.date.slice(0, shared) > due.date.slice(0, shared))
        findings.push(
          finding('clinical.due-order', item.path, {
            what: item.what,
            earlier: before.date,
            later: due.date,
          }),
        );
      if (due.date.slice(0, 10) < record.case.date.slice(0, Math.min(10, due.date.length)))
        findings.push(finding('clinical.due-before-case', item.path, { what: item.what, date: due.date }));
    });
  }
  (record.aftercare ?? []).forEach((item, index) => {
    for (const name of ['earliest', 'due', 'latest'] as const) {
      const term = item[name];
      const soon = term?.span && (term.span.code === 'h' || term.span.code === 'min');
      if (term && !soon && !dueDate(term, record.case.date))
        findings.push(
          finding('clinical.due-uncountable', `aftercare[${index}].${name}`, { written: term.text }),
        );
    }
  });
  const cared = new Set(items.map(item => item.device));
  (record.left === 'none' ? [] : (record.left ?? [])).forEach((entry, index) => {
    if (entry.part === undefined && !cared.has(entry.device))
      findings.push(
        finding('clinical.left-without-aftercare', `left[${index}]`, {
          device: names.get(entry.device)?.name ?? entry.device,
        }),
      );
  });
  return findings;
}

/** The full date that an item is put under. */
export function dayOf(item: AftercareItem): string | undefined {
  return [item.due, item.latest, item.earliest]
    .map(due => due?.date.slice(0, 10))
    .find(date => date !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(date));
}

/** Items that cannot be in a calendar since they hang on a condition or on a date that is not given to the day. */
export function undated(items: readonly AftercareItem[]): AftercareItem[] {
  return items.filter(item => dayOf(item) === undefined);
}
