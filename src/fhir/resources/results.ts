import type { ObservationComponent } from 'fhir/r4.js';
import type { Quantity } from '../../record/quantity.js';
import { sectionRows } from '../codes/sections.js';
import { type Breakdown, componentRole } from '../components.js';
import { concept, knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { deviceName, timedEvents } from '../events.js';
import { measured, quantityOf } from '../quantity.js';
import { present } from '../tidy.js';
import { siteConcept } from './body-sites.js';
import { deviceRole } from './device.js';
import { addObservation, component } from './observation.js';

/** Findings, outcome, blood loss and measurements, and the conclusion. */
export function addResults(context: MappingContext): void {
  const { record } = context;
  for (const [index, item] of (record.findings ?? []).entries()) {
    const target = item.about === undefined ? undefined : record.targets?.[item.about];
    const device =
      item.about !== undefined && context.assessment.devices.has(item.about) ? item.about : undefined;
    addObservation(context, {
      role: `finding/${index + 1}`,
      category: 'imaging',
      code: knownConcept(sectionRows.findings.code, 'Finding'),
      value: item.codes
        ? { valueCodeableConcept: concept(context.options, { text: item.text, codes: item.codes }) }
        : { valueString: item.text },
      more: {
        bodySite: target && siteConcept(context, target.what, target.side),
        focus: device === undefined ? undefined : [context.ref(deviceRole(device))],
      },
      section: 'findings',
      from: `findings[${index}]`,
    });
  }
  addOutcome(context);
  addGrades(context);
  if (record.conclusion !== undefined)
    addObservation(context, {
      role: 'observation/conclusion',
      category: 'procedure',
      code: { text: 'Conclusion' },
      value: { valueString: record.conclusion },
      at: context.times.end,
      section: 'findings',
      from: 'conclusion',
    });
}

function addOutcome(context: MappingContext): void {
  const { outcome, targets } = context.record;
  if (!outcome) return;
  const say = (role: string, name: string, text: string | undefined, from: string) => {
    if (text === undefined) return;
    addObservation(context, {
      role,
      category: 'exam',
      code: { text: name },
      value: { valueString: text },
      at: context.times.end,
      section: 'outcome',
      from,
    });
  };
  say('observation/leaving', 'Condition on leaving', outcome.condition, 'outcome.condition');
  say('observation/disposition', 'Disposition', outcome.disposition, 'outcome.disposition');
  if (outcome.bloodLoss !== undefined)
    addObservation(context, {
      role: 'observation/blood-loss',
      category: 'procedure',
      code: { text: 'Estimated blood loss' },
      value:
        typeof outcome.bloodLoss === 'string'
          ? { valueString: outcome.bloodLoss }
          : { valueQuantity: quantityOf(outcome.bloodLoss) },
      at: context.times.end,
      section: 'outcome',
      from: 'outcome.bloodLoss',
    });
  for (const [index, item] of (outcome.measurements ?? []).entries()) {
    const target = item.target === undefined ? undefined : targets?.[item.target];
    addObservation(context, {
      role: `observation/measurement-${index + 1}`,
      category: 'exam',
      code: concept(context.options, item.what),
      value: { valueQuantity: measured(item.value, item.unit) },
      at: context.times.end,
      more: { bodySite: target && siteConcept(context, target.what, target.side) },
      section: 'outcome',
      from: `outcome.measurements[${index}]`,
    });
  }
}

/** Grades by a named scale: each an Observation of that scale. */
function addGrades(context: MappingContext): void {
  for (const [index, { scale, grade, target: key }] of (context.record.outcome?.grades ?? []).entries()) {
    const target = key === undefined ? undefined : context.record.targets?.[key];
    addObservation(context, {
      role: `observation/grade-${index + 1}`,
      category: 'exam',
      code: { text: scale },
      value: { valueCodeableConcept: concept(context.options, grade) },
      at: context.times.end,
      more: { bodySite: target && siteConcept(context, target.what, target.side) },
      section: 'outcome',
      from: `outcome.grades[${index}]`,
    });
  }
}

/** Amounts and coded places of the timeline, each event's under one Observation; its words are a procedure's note. */
export function addEventMeasures(context: MappingContext, breakdown: Breakdown): void {
  for (const timed of timedEvents(context.record.events ?? [])) {
    const { event } = timed;
    const quantity = (name: string, value: Quantity | undefined): ObservationComponent[] =>
      value ? [component(name, { valueQuantity: quantityOf(value) })] : [];
    const components = [
      ...quantity('Pressure', event.pressure),
      ...quantity('Diameter', event.diameter),
      ...quantity('Depth', event.depth),
      ...quantity('Duration', event.duration),
      ...quantity('Volume', event.volume),
    ];
    const coded = event.into && event.into.codes.length > 0 ? event.into : undefined;
    if (components.length === 0 && !coded) continue;
    const owner = breakdown.components.find(({ events }) => events.some(({ rank }) => rank === timed.rank));
    const known = event.device !== undefined && context.assessment.devices.has(event.device);
    addObservation(context, {
      role: `observation/event-${timed.rank}`,
      category: 'procedure',
      code: {
        text: present(event.do, event.device && deviceName(context, event.device), event.agent).join(' '),
      },
      components,
      at: event.at.iso,
      more: {
        bodySite: coded && siteConcept(context, coded),
        partOf: [context.ref(owner ? componentRole(owner) : 'procedure')],
        device: known && event.device ? context.ref(deviceRole(event.device)) : undefined,
      },
      section: 'technique',
      from: timed.path,
    });
  }
}
