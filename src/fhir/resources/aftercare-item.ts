import type { CodeableConcept, Period, Reference, ServiceRequest, Timing } from 'fhir/r4.js';
import type { AftercareItem, DueDate } from '../../clinical/aftercare/aftercare.js';
import { clockOf } from '../../clinical/aftercare/due-date.js';
import { readRepeat } from '../../clinical/aftercare/repeat.js';
import { printQuantity } from '../../record/quantity.js';
import { followUpCode } from '../codes/follow-up.js';
import { concept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { deviceName } from '../events.js';
import { present, some } from '../tidy.js';
import { deviceRole } from './device.js';
import { personRef } from './people.js';

/** Role of an item's ServiceRequest. */
export const itemRole = (item: Pick<AftercareItem, 'key'>): string => `aftercare/${item.key}`;

/** What is asked for: a ServiceRequest, as a plan or a proposal. */
export function addItem(context: MappingContext, item: AftercareItem): void {
  const role = itemRole(item);
  const notes = itemNotes(item);
  const device = itemDevice(context, item);
  const resource: ServiceRequest = {
    resourceType: 'ServiceRequest',
    identifier: [context.identifier(role)],
    status: 'active',
    intent: itemIntent(item),
    priority: itemPriority(item),
    code: itemConcept(context, item),
    subject: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
    ...occurrence(item),
    asNeededCodeableConcept: item.condition === undefined ? undefined : { text: item.condition },
    authoredOn: context.times.date,
    requester: personRef(context, context.record.report.author),
    performerType: { text: item.by },
    supportingInfo: device && [device],
    note: some(notes.map(text => ({ text }))),
    patientInstruction: item.by === 'patient' ? item.what : undefined,
  };
  context.add(role, resource, {
    from: item.path,
    sources: {
      occurrencePeriod: item.due ? `${item.path}.due` : undefined,
      occurrenceTiming: item.every === undefined ? undefined : `${item.path}.every`,
      occurrenceDateTime: `${item.path}.due`,
    },
    summary: itemSummary(context, item, notes),
    section: 'aftercare',
  });
}

/** What an item says in words: what and about what, by whom, when, and its notes. */
export function itemSummary(
  context: MappingContext,
  item: AftercareItem,
  notes: readonly string[],
): string[] {
  return present(
    item.what,
    item.device && deviceName(context, item.device),
    `By: ${item.by}`,
    item.condition && `When: ${item.condition}`,
    ...notes,
  );
}

type Occurrence = Pick<ServiceRequest, 'occurrencePeriod' | 'occurrenceDateTime' | 'occurrenceTiming'>;

/**
 * What is done again and again is a timing. Else a day or time that is due alone is a date; with an earliest or latest
 * one, or an end, it is a span.
 */
function occurrence(item: AftercareItem): Occurrence {
  const { earliest, due, latest, until } = item;
  const period = itemPeriod(item);
  const timing = timingOf(item, period);
  if (timing) return { occurrenceTiming: timing };
  if (due && !earliest && !latest && !until) return { occurrenceDateTime: due.date };
  return period ? { occurrencePeriod: period } : {};
}

/** From when to when something is done: from the earliest, the due time or the end of the case on. */
function itemPeriod({ earliest, due, latest, start, until }: AftercareItem): Period | undefined {
  const from = (earliest ?? due)?.date ?? start;
  const to = (until ?? latest ?? due)?.date;
  return from === undefined && to === undefined ? undefined : { start: from, end: to };
}

/** Words that cannot be read as a frequency stay in the notes alone. */
function timingOf({ every, latest, until }: AftercareItem, period: Period | undefined): Timing | undefined {
  const repeat = every === undefined ? undefined : readRepeat(every);
  if (every === undefined || !repeat) return undefined;
  // The first time is not the last: what has no end goes on.
  const end = (until ?? latest)?.date;
  const bounds = period?.start === undefined && end === undefined ? undefined : { start: period?.start, end };
  return { repeat: { boundsPeriod: bounds, ...repeat }, code: { text: every } };
}

function itemNotes(item: AftercareItem): string[] {
  return present(
    ...dateNotes(item),
    item.every && `Every: ${item.every}`,
    item.duration && `For: ${item.duration}`,
    ...item.criteria.map(
      one =>
        `If ${present(
          one.measure,
          one.is,
          one.value && printQuantity(one.value),
          one.over && `for ${printQuantity(one.over)}`,
        ).join(' ')}: ${one.action}`,
    ),
    item.call && `Call: ${item.call}`,
    item.ifMissed && `If missed: ${item.ifMissed}`,
    item.policy && `Policy: ${item.policy}`,
  );
}

/** The days and times of an item in words: how they were counted, and the working day that they fall on. */
export function dateNotes(item: AftercareItem): string[] {
  const dated = (name: string, due: DueDate | undefined) =>
    due &&
    `${name}: ${due.date}${due.counted ? ` (${due.written}, counted from the ${clockOf(due.date) ? 'end' : 'day'} of the case)` : ''}${
      due.workingDay === undefined ? '' : `, working day ${due.workingDay}`
    }`;
  return present(
    dated('Earliest', item.earliest),
    dated('Due', item.due),
    dated('Latest', item.latest),
    item.start && `From: ${item.start}, after the case`,
    item.until && `Until: ${item.until.date}`,
  );
}

/** What an item is, in its words, with the site's code for them or a published one. */
export function itemConcept(context: MappingContext, { what, device }: AftercareItem): CodeableConcept {
  const { family } = context.assessment.devices.get(device ?? '') ?? {};
  return concept(context.options, what, followUpCode(what, family));
}

export const itemIntent = (item: AftercareItem): 'plan' | 'proposal' =>
  item.source === 'aftercare' ? 'plan' : 'proposal';

export const itemPriority = (item: AftercareItem): 'urgent' | 'routine' =>
  item.urgent ? 'urgent' : 'routine';

/** The device that an item is about; nothing for one that the case has not. */
export function itemDevice(context: MappingContext, { device }: AftercareItem): Reference | undefined {
  return device !== undefined && context.assessment.devices.has(device)
    ? context.ref(deviceRole(device))
    : undefined;
}
