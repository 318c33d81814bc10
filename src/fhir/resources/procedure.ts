import type { Annotation, CodeableConcept, Procedure, Reference } from 'fhir/r4.js';
import { entriesOf } from '../../record/entries.js';
import { identifierTypes } from '../codes/document.js';
import { categoryCodes } from '../codes/procedures.js';
import type { Breakdown } from '../components.js';
import { concept, knownConcept, outcomeConcept } from '../concept.js';
import { caseConcept, complicationConcept, roleConcept } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { eventText } from '../events.js';
import { IPS } from '../profiles.js';
import { present, some } from '../tidy.js';
import { performed } from '../times.js';
import { itemConcept } from './aftercare-item.js';
import { siteConcept, siteExtensions } from './body-sites.js';
import { focalDevices, usedDevices } from './focal.js';
import { isPerformer, personRef } from './people.js';
import { caseNotes } from './procedure-notes.js';

const STATUS = { completed: 'completed', 'stopped early': 'stopped', 'not done': 'not-done' } as const;

/** True where the subject is a reference that a receiver can follow, as the patient summary profiles ask. */
export function claims(context: MappingContext, profile: string): { profile: string[] } | undefined {
  return context.options.references.patient === 'identifier' ? undefined : { profile: [profile] };
}

/** The case as one Procedure; its components point at it with partOf. */
export function addProcedure(context: MappingContext, breakdown: Breakdown): void {
  const { record, options, times } = context;
  const { accession } = record.case;
  const targets = Object.entries(record.targets ?? {});
  const complications = entriesOf(record.complications);
  const keys = [...context.assessment.devices.keys()];
  const resource: Procedure = {
    resourceType: 'Procedure',
    meta: claims(context, IPS.procedure),
    extension: some(
      siteExtensions(
        context,
        targets.map(([key, target]) => ({ role: `site/target/${key}`, side: target.side })),
      ),
    ),
    identifier: [
      context.identifier('procedure'),
      { system: options.identifiers.case, value: record.case.id },
      ...(accession !== undefined && options.identifiers.accession !== undefined
        ? [
            {
              type: knownConcept(identifierTypes.accession),
              system: options.identifiers.accession,
              value: accession,
            },
          ]
        : []),
    ],
    basedOn: some(basedOn(context)),
    status: STATUS[record.case.status],
    statusReason: record.case.reason && concept(options, record.case.reason),
    category: record.case.category && knownConcept(categoryCodes[record.case.category], record.case.category),
    code: caseConcept(options, record.case),
    subject: context.ref('patient'),
    encounter: record.case.encounter && context.ref('encounter'),
    ...performed(times, record.case.date),
    recorder: personRef(context, record.report.author),
    performer: some(performers(context)),
    location: record.case.location && context.ref('location', record.case.location.name),
    reasonCode: [{ text: record.indication.text }],
    reasonReference: some(
      (record.indication.conditions ?? []).map((_, i) => context.ref(`condition/${i + 1}`)),
    ),
    bodySite: some(targets.map(([, target]) => siteConcept(context, target.what, target.side))),
    outcome: outcome(context),
    report: [context.ref('composition')],
    complication: some(complications.map(item => complicationConcept(options, item.what))),
    complicationDetail: some(complications.map((_, i) => context.ref(`complication/${i + 1}`))),
    followUp: some(context.assessment.aftercare.map(item => itemConcept(context, item))),
    note: some(notes(context, breakdown)),
    focalDevice: some(focalDevices(context, keys)),
    usedReference: some(usedDevices(context, keys)),
  };
  context.add('procedure', resource, {
    from: 'case',
    sources: {
      status: 'case.status',
      statusReason: record.case.reason && 'case.reason',
      category: 'case.category',
      code: record.case.procedure ? 'case.procedure' : 'case.kind',
      performedPeriod: record.case.started ? 'case.started' : 'events',
      performedDateTime: 'case.date',
      performer: 'team',
      location: 'case.location',
      reasonCode: 'indication.text',
      reasonReference: 'indication.conditions',
      bodySite: 'targets',
      outcome: 'outcome.overall',
      complication: 'complications',
      complicationDetail: 'complications',
      followUp: 'aftercare',
      note: 'events',
      focalDevice: 'devices',
      usedReference: 'devices',
      recorder: 'report.author',
      encounter: 'case.encounter',
      basedOn: 'case.order',
    },
    summary: present(
      record.case.procedure?.text ?? record.case.kind,
      `Status: ${record.case.status}`,
      record.case.reason && `Because: ${record.case.reason.text}`,
      record.indication.text,
      record.outcome && `Outcome: ${record.outcome.overall}`,
    ),
    section: 'technique',
  });
}

function basedOn(context: MappingContext): Reference[] {
  const { order, accession } = context.record.case;
  const accessions = context.options.identifiers.accession;
  return [
    ...(order ? [context.ref('order')] : []),
    // Without an order number the accession number names it.
    ...(!order && accession !== undefined && accessions !== undefined
      ? [
          {
            type: 'ServiceRequest',
            identifier: {
              type: knownConcept(identifierTypes.accession),
              system: accessions,
              value: accession,
            },
          },
        ]
      : []),
    ...(context.record.planned ? [context.ref('planned')] : []),
  ];
}

function performers(context: MappingContext): NonNullable<Procedure['performer']> {
  return context.record.team
    .filter(member => isPerformer(member.role))
    .map(member => ({
      function: roleConcept(context.options, member.role),
      actor: context.ref(`person/${member.key}`, member.name),
      onBehalfOf: member.organization === undefined ? undefined : { display: member.organization },
    }));
}

function outcome(context: MappingContext): CodeableConcept | undefined {
  const said = context.record.outcome;
  return said && outcomeConcept(context.options, said.overall, present(said.overall, said.text).join(': '));
}

function notes(context: MappingContext, breakdown: Breakdown): Annotation[] {
  return [
    ...caseNotes(context),
    ...breakdown.rest.map(({ event }) => ({
      time: event.at.iso,
      authorReference: personRef(context, event.by),
      text: eventText(context, event),
    })),
  ];
}
