import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { died } from '../../record/died.js';
import { entriesOf } from '../../record/entries.js';
import { readQuantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { staysForGood } from '../../trade/removal.js';
import type { AftercareItem, AftercareOptions } from './aftercare.js';
import { type CountedFrom, clockOf, countedFrom, dueDate, isAfter } from './due-date.js';
import { contactMissing, latestDiffers, settingWithoutCriteria, untilDiffers } from './left-checks.js';
import { rulesFor } from './rules.js';
import { endsTold } from './told.js';

type Devices = ReadonlyMap<string, DeviceDetails>;

/**
 * Dates in the wrong order or before the case, spans that cannot be counted, conditions that nobody can measure, dates
 * beyond the policy of the site, and devices that nobody will come back to.
 */
export function checkAftercare(
  record: CaseRecord,
  items: readonly AftercareItem[],
  devices: Devices,
  options: AftercareOptions,
  contact?: string,
): Finding[] {
  const from = countedFrom(record, options.timeZone);
  return [
    ...items.flatMap(item => dateFindings(record, item)),
    ...uncountable(record, from),
    ...criteria(record),
    ...beyondPolicy(record, from, devices, options),
    ...latestDiffers(record, items, from, devices),
    ...untilDiffers(record, items, from, devices),
    ...(died(record) ? [] : endsTold(record, items, devices)),
    ...(died(record)
      ? []
      : [
          ...left(record, items, devices),
          ...settingWithoutCriteria(record, items, devices),
          ...contactMissing(record, items, contact),
        ]),
  ];
}

/** A date as findings say it, with the clock time where it has one. */
const said = (date: string): Param => {
  const moment = clockOf(date);
  return {
    when: { text: moment ? `${moment.date} ${moment.clock}` : date, iso: date, ...(moment && { moment }) },
  };
};

/** What is to be done: as a person wrote it, or what the entry on what was left comes to. */
function namedTask({ source, path, what }: AftercareItem, { left }: CaseRecord): Param {
  if (source !== 'left') return what;
  const entry = entriesOf(left).find((_, index) => path === `left[${index}]`);
  return message(entry?.purpose === 'intended' ? 'task.reviewLeft' : 'task.removeLeft');
}

function dateFindings(record: CaseRecord, item: AftercareItem): Finding[] {
  const { case: head } = record;
  const findings: Finding[] = [];
  const dates = [item.earliest, item.due, item.latest].filter(due => due !== undefined);
  // A time is compared with the end of the case, a day with its day.
  const over = head.ended ?? head.started;
  dates.forEach((due, place) => {
    for (const before of dates.slice(0, place)) {
      if (isAfter(before.date, due.date))
        findings.push(
          finding('clinical.due-order', item.path, {
            what: namedTask(item, record),
            earlier: said(before.date),
            later: said(due.date),
          }),
        );
    }
    if (isAfter(clockOf(due.date) && over ? over.iso : head.date, due.date))
      findings.push(
        finding('clinical.due-before-case', item.path, {
          what: namedTask(item, record),
          date: said(due.date),
        }),
      );
  });
  return findings;
}

function uncountable(record: CaseRecord, from: CountedFrom): Finding[] {
  const lines = [
    ...(record.aftercare ?? []).map(({ earliest, due, latest }, index) => ({
      path: `aftercare[${index}]`,
      terms: { earliest, due, latest },
    })),
    ...entriesOf(record.left).map(({ until, latest }, index) => ({
      path: `left[${index}]`,
      terms: { 'until.date': until?.date, latest },
    })),
  ];
  return lines.flatMap(({ path, terms }) =>
    Object.entries(terms).flatMap(([name, term]): Finding[] =>
      term && !dueDate(term, from)
        ? [finding('clinical.due-uncountable', `${path}.${name}`, { written: term.text })]
        : [],
    ),
  );
}

function criteria(record: CaseRecord): Finding[] {
  return (record.aftercare ?? []).flatMap((item, index) =>
    (item.criteria ?? []).flatMap((one, place): Finding[] => {
      const bare = one.is === 'present' || one.is === 'absent';
      return bare === (one.value === undefined)
        ? []
        : [
            finding('clinical.criterion-value', `aftercare[${index}].criteria[${place}]`, {
              measure: one.measure,
              is: { term: 'is', value: one.is },
              wanted: message(bare ? 'criterion.noValue' : 'criterion.needsValue'),
            }),
          ];
    }),
  );
}

/** Items that stand in for a rule of the site, and are planned later than it allows. */
function beyondPolicy(
  record: CaseRecord,
  from: CountedFrom,
  devices: Devices,
  options: AftercareOptions,
): Finding[] {
  return rulesFor(record, devices, options.rules).flatMap(({ rule, replacedBy }): Finding[] => {
    const item = replacedBy === undefined ? undefined : record.aftercare?.[replacedBy];
    const span = rule.latest === undefined ? undefined : readQuantity(rule.latest, ['duration']);
    const allowed =
      span?.ok && rule.latest !== undefined
        ? dueDate({ text: rule.latest, span: span.value }, from)?.date
        : undefined;
    const term = item?.latest ?? item?.due;
    const planned = term && dueDate(term, from)?.date;
    if (!item || !planned || !allowed || planned.length < 10 || !isAfter(planned, allowed)) return [];
    return [
      finding(
        'clinical.later-than-policy',
        `aftercare[${replacedBy}]`,
        { what: item.do, planned: said(planned), allowed: said(allowed) },
        { basis: rule.source },
      ),
    ];
  });
}

/** Families that a person may carry for life; a filter, drain, tube or line always needs somebody who comes back. */
const FOR_GOOD: ReadonlySet<string> = new Set(['anchor', 'closure', 'embolic', 'stent']);

/** A permanent implant may be left to itself; stents of ureter and urethra and those of plastic are changed. */
const isForGood = ({ family, row, kind }: DeviceDetails) =>
  FOR_GOOD.has(family) && !/\b(?:ureteric|nephroureteral|urethral|prostatic|plastic)\b/.test(row ?? kind);

/** Each device left needs someone who comes back to it. */
function left(record: CaseRecord, items: readonly AftercareItem[], devices: Devices): Finding[] {
  return entriesOf(record.left).flatMap((entry, index): Finding[] => {
    const details = devices.get(entry.device);
    const name = details?.said ?? entry.device;
    const own = items.filter(item => item.device === entry.device);
    if (own.length === 0 && entry.purpose === 'intended' && details && isForGood(details)) return [];
    // Whoever wrote that it stays for good has said what becomes of it.
    if (own.length === 0 && entry.purpose === 'intended' && staysForGood(entry.until?.condition)) return [];
    if (own.length === 0)
      return [
        finding('clinical.left-without-aftercare', `left[${index}]`, {
          device: entry.part === undefined ? name : message('name.part', { part: entry.part, device: name }),
        }),
      ];
    return [];
  });
}
