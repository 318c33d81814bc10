import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { died } from '../../record/died.js';
import { readQuantity } from '../../record/quantity.js';
import type { CaseRecord, LeftEntry } from '../../record/schema/record.js';
import { isClosed } from '../../trade/places.js';
import type { AftercareItem, AftercareOptions } from './aftercare.js';
import { dueDate, isAfter } from './due-date.js';
import { rulesFor } from './rules.js';

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
): Finding[] {
  return [
    ...items.flatMap(item => dateFindings(record.case.date, item)),
    ...uncountable(record),
    ...criteria(record),
    ...beyondPolicy(record, devices, options),
    ...(died(record) ? [] : left(record, items, devices)),
  ];
}

function dateFindings(caseDate: string, item: AftercareItem): Finding[] {
  const findings: Finding[] = [];
  const dates = [item.earliest, item.due, item.latest].filter(due => due !== undefined);
  dates.forEach((due, place) => {
    for (const before of dates.slice(0, place)) {
      if (isAfter(before.date, due.date))
        findings.push(
          finding('clinical.due-order', item.path, {
            what: item.what,
            earlier: before.date,
            later: due.date,
          }),
        );
    }
    if (due.date.slice(0, 10) < caseDate.slice(0, Math.min(10, due.date.length)))
      findings.push(finding('clinical.due-before-case', item.path, { what: item.what, date: due.date }));
  });
  return findings;
}

function uncountable(record: CaseRecord): Finding[] {
  const lines = [
    ...(record.aftercare ?? []).map(({ earliest, due, latest }, index) => ({
      path: `aftercare[${index}]`,
      terms: { earliest, due, latest },
    })),
    ...leftOf(record).map(({ until, latest }, index) => ({
      path: `left[${index}]`,
      terms: { 'until.date': until?.date, latest },
    })),
  ];
  return lines.flatMap(({ path, terms }) =>
    Object.entries(terms).flatMap(([name, term]): Finding[] => {
      // Hours and minutes are for the ward on the day itself: they stay a span.
      const soon =
        term?.span && (term.span.code === 'h' || term.span.code === 'min' || term.span.code === 's');
      return term && !soon && !dueDate(term, record.case.date)
        ? [finding('clinical.due-uncountable', `${path}.${name}`, { written: term.text })]
        : [];
    }),
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
function beyondPolicy(record: CaseRecord, devices: Devices, options: AftercareOptions): Finding[] {
  return rulesFor(record, devices, options.rules).flatMap(({ rule, replacedBy }): Finding[] => {
    const item = replacedBy === undefined ? undefined : record.aftercare?.[replacedBy];
    const span = rule.latest === undefined ? undefined : readQuantity(rule.latest, ['duration']);
    const allowed =
      span?.ok && rule.latest !== undefined
        ? dueDate({ text: rule.latest, span: span.value }, record.case.date)?.date
        : undefined;
    const term = item?.latest ?? item?.due;
    const planned = term && dueDate(term, record.case.date)?.date;
    if (!item || !planned || !allowed || planned.length < 10 || planned.slice(0, 10) <= allowed) return [];
    return [
      finding(
        'clinical.later-than-policy',
        `aftercare[${replacedBy}]`,
        { what: item.do, planned: { day: planned.slice(0, 10) }, allowed: { day: allowed } },
        { basis: rule.source },
      ),
    ];
  });
}

const leftOf = (record: CaseRecord): readonly LeftEntry[] =>
  record.left === 'none' ? [] : (record.left ?? []);

/** Each device left needs someone who comes back to it; one that is capped needs to say what opens it again. */
function left(record: CaseRecord, items: readonly AftercareItem[], devices: Devices): Finding[] {
  return leftOf(record).flatMap((entry, index): Finding[] => {
    const details = devices.get(entry.device);
    const name = details?.name ?? entry.device;
    const own = items.filter(item => item.device === entry.device);
    // A permanent implant may be left to itself.
    if (own.length === 0 && entry.purpose === 'intended') return [];
    if (own.length === 0)
      return [
        finding('clinical.left-without-aftercare', `left[${index}]`, {
          device:
            entry.part === undefined
              ? { device: name }
              : message('name.part', { part: entry.part, device: { device: name } }),
        }),
      ];
    const drain = details?.family === 'drain' || details?.family === 'tube';
    const capped = drain && entry.part === undefined && isClosed(entry.set);
    return capped && own.every(item => item.criteria.length === 0)
      ? [finding('clinical.capped-without-criteria', `left[${index}].set`, { device: { device: name } })]
      : [];
  });
}
