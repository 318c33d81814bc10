import type { Annotation, CarePlan, Period, ServiceRequest } from 'fhir/r4.js';
import type { AftercareItem, DueDate } from '../../clinical/aftercare.js';
import { printQuantity } from '../../record/quantity.js';
import { concept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { deviceName } from '../events.js';
import { present, some } from '../tidy.js';
import { deviceRole } from './device.js';
import { personRef } from './people.js';

/** The planned procedure, as a plan that the case fulfilled or not. */
export function addPlanned(context: MappingContext): void {
  const { planned } = context.record;
  if (!planned) return;
  const resource: ServiceRequest = {
    resourceType: 'ServiceRequest',
    identifier: [context.identifier('planned')],
    status: 'completed',
    intent: 'plan',
    code: concept(context.options, planned),
    subject: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
  };
  context.add('planned', resource, { from: 'planned', summary: [planned.text], section: 'indication' });
}

/**
 * Aftercare: a CarePlan, and a ServiceRequest for each item. An item that a person wrote is a plan; one that follows
 * from a device left inside, or from a rule of the site, is a proposal. None is ever an order.
 */
export function addAftercare(context: MappingContext): void {
  const items = context.assessment.aftercare;
  const advice = adviceNotes(context);
  if (items.length === 0 && advice.length === 0) return;
  for (const item of items) addItem(context, item);
  const resource: CarePlan = {
    resourceType: 'CarePlan',
    identifier: [context.identifier('aftercare')],
    status: 'active',
    intent: items.every(item => item.source === 'aftercare') ? 'plan' : 'proposal',
    title: 'Aftercare',
    subject: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
    created: context.times.date,
    author: personRef(context, context.record.report.author),
    activity: some(items.map(item => ({ reference: context.ref(itemRole(item), item.what) }))),
    note: some(advice),
  };
  context.add('aftercare', resource, {
    from: 'aftercare',
    sources: { note: 'advice' },
    summary: ['Aftercare', ...advice.map(({ text }) => text)],
    section: items.length > 0 ? 'aftercare' : 'advice',
  });
}

const itemRole = (item: AftercareItem) => `aftercare/${item.key}`;

function addItem(context: MappingContext, item: AftercareItem): void {
  const role = itemRole(item);
  const known = item.device !== undefined && context.assessment.devices.has(item.device);
  const notes = itemNotes(item);
  const resource: ServiceRequest = {
    resourceType: 'ServiceRequest',
    identifier: [context.identifier(role)],
    status: 'active',
    intent: item.source === 'aftercare' ? 'plan' : 'proposal',
    priority: item.urgent ? 'urgent' : 'routine',
    code: concept(context.options, item.what),
    subject: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
    ...occurrence(item),
    asNeededCodeableConcept: item.condition === undefined ? undefined : { text: item.condition },
    authoredOn: context.times.date,
    requester: personRef(context, context.record.report.author),
    performerType: { text: item.by },
    supportingInfo: known && item.device ? [context.ref(deviceRole(item.device))] : undefined,
    note: some(notes.map(text => ({ text }))),
    patientInstruction: item.by === 'patient' ? item.what : undefined,
  };
  context.add(role, resource, {
    from: item.path,
    sources: {
      occurrencePeriod: item.due ? `${item.path}.due` : undefined,
      occurrenceDateTime: `${item.path}.due`,
    },
    summary: present(
      item.what,
      item.device && deviceName(context, item.device),
      `By: ${item.by}`,
      item.condition && `When: ${item.condition}`,
      ...notes,
    ),
    section: 'aftercare',
  });
}

/** A day that is due alone is a date; with an earliest or latest day it is a span. */
function occurrence(item: AftercareItem): { occurrencePeriod?: Period; occurrenceDateTime?: string } {
  const { earliest, due, latest } = item;
  if (due && !earliest && !latest) return { occurrenceDateTime: due.date };
  if (!earliest && !due && !latest) return {};
  return { occurrencePeriod: { start: (earliest ?? due)?.date, end: (latest ?? due)?.date } };
}

function itemNotes(item: AftercareItem): string[] {
  const dated = (name: string, due: DueDate | undefined) =>
    due &&
    `${name}: ${due.date}${due.counted ? ` (${due.written}, counted from the day of the case)` : ''}${
      due.workingDay === undefined ? '' : `, working day ${due.workingDay}`
    }`;
  return present(
    dated('Earliest', item.earliest),
    dated('Due', item.due),
    dated('Latest', item.latest),
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

function adviceNotes(context: MappingContext): Annotation[] {
  const { advice } = context.record;
  const contact = advice?.contact ?? context.options.contact;
  return present(
    ...(advice?.ward ?? []).map(text => `For the ward: ${text}`),
    ...(advice?.referrer ?? []).map(text => `For the referrer: ${text}`),
    ...(advice?.patient ?? []).map(text => `For the patient: ${text}`),
    contact && `Contact: ${contact}`,
  ).map(text => ({ text }));
}
