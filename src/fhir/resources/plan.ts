import type { Annotation, CarePlan, ServiceRequest } from 'fhir/r4.js';
import { concept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { present, some } from '../tidy.js';
import { addItem, itemRole } from './aftercare-item.js';
import { addTask, isDated, taskRole } from './aftercare-task.js';
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
 * Aftercare: a CarePlan, a ServiceRequest for each item, and a Task for each item with a date. An item that a person
 * wrote is a plan; one that follows from a device left inside, or from a rule of the site, is a proposal. None is ever
 * an order.
 */
export function addAftercare(context: MappingContext): void {
  const items = context.assessment.aftercare;
  const advice = adviceNotes(context);
  if (items.length === 0 && advice.length === 0) return;
  for (const item of items) {
    addItem(context, item);
    if (isDated(item)) addTask(context, item);
  }
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
    activity: some(
      items.flatMap(item =>
        [itemRole(item), ...(isDated(item) ? [taskRole(item)] : [])].map(role => ({
          reference: context.ref(role, item.what),
        })),
      ),
    ),
    note: some(advice),
  };
  context.add('aftercare', resource, {
    from: 'aftercare',
    sources: { note: 'advice' },
    summary: ['Aftercare', ...advice.map(({ text }) => text)],
    section: items.length > 0 ? 'aftercare' : 'advice',
  });
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
