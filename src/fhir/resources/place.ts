import type { Encounter, Location, Organization, ServiceRequest } from 'fhir/r4.js';
import { notRecorded } from '../absent.js';
import { identifierTypes } from '../codes/document.js';
import { concept, knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { present } from '../tidy.js';

/** The department, the room, the encounter and the order, as far as the case names them. */
export function addPlace(context: MappingContext): void {
  addOrganization(context);
  addLocation(context);
  addEncounter(context);
  addOrder(context);
}

function addOrganization(context: MappingContext): void {
  const { record, options } = context;
  const named = record.case.organization;
  const organization = named ?? options.organization;
  const resource: Organization = {
    resourceType: 'Organization',
    identifier: [organization.identifier ?? context.identifier('organization')],
    name: organization.name,
    telecom: organization.phone === undefined ? undefined : [{ system: 'phone', value: organization.phone }],
  };
  context.add('organization', resource, {
    from: named ? 'case.organization' : 'case',
    summary: [organization.name],
    shared: 'organization',
  });
}

function addLocation(context: MappingContext): void {
  const { location } = context.record.case;
  if (!location) return;
  const resource: Location = {
    resourceType: 'Location',
    identifier: [location.identifier ?? context.identifier('location')],
    name: location.name,
    managingOrganization: context.ref('organization'),
  };
  context.add('location', resource, { from: 'case.location', summary: [location.name], shared: 'location' });
}

function addEncounter(context: MappingContext): void {
  const { encounter } = context.record.case;
  if (!encounter) return;
  // The case knows the number of the encounter and nothing else of it.
  const resource: Encounter = {
    resourceType: 'Encounter',
    identifier: [encounter],
    status: 'unknown',
    class: notRecorded(),
    subject: context.ref('patient'),
  };
  context.add('encounter', resource, {
    from: 'case.encounter',
    summary: [`Encounter ${encounter.value}`],
    shared: 'encounter',
  });
}

/** The referrer's order, whose number the case carries. It is theirs: nothing worked out here is an order. */
function addOrder(context: MappingContext): void {
  const { record, options } = context;
  const { order, accession, urgency } = record.case;
  if (!order) return;
  const referrer = record.team.find(member => member.role === 'referrer');
  const accessions = options.identifiers.accession;
  const resource: ServiceRequest = {
    resourceType: 'ServiceRequest',
    identifier: [
      { ...order, type: knownConcept(identifierTypes.order) },
      ...(accession !== undefined && accessions !== undefined
        ? [{ system: accessions, value: accession, type: knownConcept(identifierTypes.accession) }]
        : []),
    ],
    status: 'unknown',
    intent: 'order',
    priority: urgency && ({ elective: 'routine', urgent: 'urgent', emergency: 'stat' } as const)[urgency],
    code: concept(options, record.planned ?? record.case.procedure ?? record.case.kind, undefined, 'case'),
    subject: context.ref('patient'),
    encounter: record.case.encounter && context.ref('encounter'),
    requester: referrer && context.ref(`person/${referrer.key}`, referrer.name),
    reasonCode: [{ text: record.indication.text }],
    note: record.indication.question === undefined ? undefined : [{ text: record.indication.question }],
  };
  context.add('order', resource, {
    from: 'case.order',
    summary: present(`Order ${order.value}`, record.indication.text),
    shared: 'order',
  });
}
