import type { Period, Task } from 'fhir/r4.js';
import type { AftercareItem } from '../../clinical/aftercare/aftercare.js';
import { taskCodes } from '../codes/procedures.js';
import { concept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { deviceName } from '../events.js';
import { present, some } from '../tidy.js';
import { dateNotes, itemDevice, itemIntent, itemPriority, itemRole, itemSummary } from './aftercare-item.js';
import { personRef } from './people.js';

/** Role of an item's Task. */
export const taskRole = (item: Pick<AftercareItem, 'key'>): string => `task/${item.key}`;

/** True for an item with a day or time by which, from which, or until which somebody has to do it. */
export const isDated = ({ earliest, due, latest, until }: AftercareItem): boolean =>
  (earliest ?? due ?? latest ?? until) !== undefined;

/**
 * The doing of a dated item: a Task that seeks fulfilment of its ServiceRequest between the earliest and the latest
 * time, or for as long as it goes on. Nobody is named as owner but the patient: who takes it up says so in the receiving system.
 */
export function addTask(context: MappingContext, item: AftercareItem): void {
  const role = taskRole(item);
  const request = context.ref(itemRole(item), item.what);
  const device = itemDevice(context, item);
  const notes = present(
    ...dateNotes(item),
    item.call && `Call: ${item.call}`,
    item.ifMissed && `If missed: ${item.ifMissed}`,
  );
  const resource: Task = {
    resourceType: 'Task',
    identifier: [context.identifier(role)],
    basedOn: [request],
    status: 'requested',
    intent: itemIntent(item),
    priority: itemPriority(item),
    // R5 (tsk-1) allows a restriction beside this code only; the R4 definition of the code says the same in words.
    code: concept(context.options, item.what, taskCodes.fulfil),
    description: present(
      item.what,
      item.device && deviceName(context, item.device),
      item.condition && `When: ${item.condition}`,
    ).join('; '),
    focus: request,
    for: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
    authoredOn: context.times.date,
    requester: personRef(context, context.record.report.author),
    performerType: [{ text: item.by }],
    owner: item.by === 'patient' ? context.ref('patient') : undefined,
    note: some(notes.map(text => ({ text }))),
    restriction: { period: restriction(item) },
    input: device && [{ type: { text: 'Device' }, valueReference: device }],
  };
  context.add(role, resource, {
    from: item.path,
    sources: {
      restriction: `${item.path}.${item.until ? 'for' : item.latest ? 'latest' : item.due ? 'due' : 'earliest'}`,
    },
    summary: itemSummary(context, item, notes),
    section: 'aftercare',
  });
}

function restriction({ earliest, due, latest, start, until }: AftercareItem): Period {
  return until
    ? { start: (earliest ?? due)?.date ?? start, end: until.date }
    : { start: earliest?.date, end: (latest ?? due)?.date };
}
