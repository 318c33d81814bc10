import {
  asList,
  concepts,
  fields,
  listOf,
  oneConcept,
  references,
  same,
  type TypeTable,
  withoutAbsent,
} from './steps.js';

export const procedureTables: Readonly<Record<string, TypeTable>> = {
  Procedure: {
    type: 'Procedure',
    elements: {
      ...same(
        ...['identifier', 'instantiatesCanonical', 'instantiatesUri', 'basedOn', 'partOf', 'status'],
        ...['statusReason', 'code', 'subject', 'encounter', 'recorder', 'performer', 'location', 'bodySite'],
        ...['outcome', 'report', 'followUp', 'note', 'focalDevice'],
      ),
      category: asList('category'),
      'performed[x]': { to: 'occurrence[x]' },
      asserter: { to: 'reportedReference' },
      reasonCode: concepts('reason'),
      reasonReference: references('reason'),
      complication: concepts('complication'),
      complicationDetail: references('complication'),
      usedReference: references('used'),
      usedCode: concepts('used'),
    },
  },
  ServiceRequest: {
    type: 'ServiceRequest',
    elements: {
      ...same(
        ...['identifier', 'instantiatesCanonical', 'instantiatesUri', 'basedOn', 'replaces', 'requisition'],
        ...['status', 'intent', 'category', 'priority', 'doNotPerform', 'quantity[x]', 'subject'],
        ...['encounter', 'occurrence[x]', 'asNeeded[x]', 'authoredOn', 'requester', 'performerType'],
        ...['performer', 'insurance', 'specimen', 'bodySite', 'note', 'relevantHistory'],
      ),
      code: oneConcept('code'),
      orderDetail: value => ({
        set: {
          orderDetail: listOf(value).map(concept => ({
            parameter: [{ code: { text: 'detail' }, valueCodeableConcept: concept }],
          })),
        },
      }),
      locationCode: concepts('location'),
      locationReference: references('location'),
      reasonCode: concepts('reason'),
      reasonReference: references('reason'),
      supportingInfo: references('supportingInfo'),
      patientInstruction: value => ({ set: { patientInstruction: [{ instructionMarkdown: value }] } }),
    },
  },
  Task: {
    type: 'Task',
    elements: {
      ...same(
        ...['identifier', 'instantiatesCanonical', 'instantiatesUri', 'basedOn', 'groupIdentifier', 'partOf'],
        ...['status', 'businessStatus', 'intent', 'priority', 'code', 'description', 'focus', 'for'],
        ...['encounter', 'executionPeriod', 'authoredOn', 'lastModified', 'requester', 'owner', 'location'],
        ...['insurance', 'note', 'relevantHistory', 'restriction', 'input', 'output'],
      ),
      statusReason: oneConcept('statusReason'),
      performerType: concepts('requestedPerformer'),
      reasonCode: concepts('reason'),
      reasonReference: references('reason'),
    },
  },
  CarePlan: {
    type: 'CarePlan',
    elements: {
      ...same(
        ...['identifier', 'instantiatesCanonical', 'instantiatesUri', 'basedOn', 'replaces', 'partOf'],
        ...['status', 'intent', 'category', 'title', 'description', 'subject', 'encounter', 'period'],
        ...['created', 'contributor', 'careTeam', 'supportingInfo', 'goal', 'note'],
      ),
      // R4: who is responsible for the plan; R5 calls this one the custodian.
      author: { to: 'custodian' },
      addresses: references('addresses'),
      activity: value => {
        const all = listOf(value).map(fields);
        const kept = all.flatMap(({ reference, progress, outcomeReference, outcomeCodeableConcept }) => {
          const performed = [
            ...listOf(outcomeReference).map(item => ({ reference: item })),
            ...listOf(outcomeCodeableConcept).map(concept => ({ concept })),
          ];
          const activity = withoutAbsent({
            performedActivity: performed.length > 0 ? performed : undefined,
            progress,
            plannedActivityReference: reference,
          });
          return Object.keys(activity).length > 0 ? [activity] : [];
        });
        return {
          ...(kept.length > 0 && { set: { activity: kept } }),
          ...(all.some(a => a['detail'] !== undefined) && {
            lost: 'activity details, which R5 keeps elsewhere',
          }),
        };
      },
    },
  },
  CareTeam: {
    type: 'CareTeam',
    elements: {
      ...same('identifier', 'status', 'category', 'name', 'subject', 'period', 'managingOrganization'),
      ...same('telecom', 'note'),
      encounter: { lost: 'R5 has no encounter of a care team' },
      reasonCode: concepts('reason'),
      reasonReference: references('reason'),
      // R5 allows one role: who has several takes part several times.
      participant: value => ({
        set: {
          participant: listOf(value).flatMap(item => {
            const { role, period, ...rest } = fields(item);
            const one = { ...rest, ...(period !== undefined && { coveragePeriod: period }) };
            const roles = listOf(role);
            return roles.length === 0 ? [one] : roles.map(played => ({ role: played, ...one }));
          }),
        },
      }),
    },
  },
  Encounter: {
    type: 'Encounter',
    elements: {
      ...same('identifier', 'type', 'priority', 'subject', 'episodeOfCare', 'basedOn', 'appointment'),
      ...same('length', 'account', 'serviceProvider', 'partOf'),
      status: value => ({ set: { status: STATUSES[String(value)] ?? value } }),
      // A class that is only said to be absent has nothing to code.
      class: value => {
        const { extension, ...coding } = fields(value);
        const hasCode = Object.keys(coding).length > 0;
        return {
          set: {
            class: [{ ...(extension !== undefined && { extension }), ...(hasCode && { coding: [coding] }) }],
          },
        };
      },
      serviceType: concepts('serviceType'),
      period: { to: 'actualPeriod' },
      reasonCode: value => ({ set: { reason: listOf(value).map(concept => ({ value: [{ concept }] })) } }),
      reasonReference: value => ({
        set: { reason: listOf(value).map(reference => ({ value: [{ reference }] })) },
      }),
      participant: value => ({
        set: {
          participant: listOf(value).map(item => {
            const { individual, ...rest } = fields(item);
            return { ...rest, ...(individual !== undefined && { actor: individual }) };
          }),
        },
      }),
    },
  },
};

/** R5 renamed some states of an encounter. Source: FHIR R5, EncounterStatus, differences to R4. */
const STATUSES: Readonly<Record<string, string>> = {
  arrived: 'in-progress',
  triaged: 'in-progress',
  onleave: 'on-hold',
  finished: 'completed',
};
