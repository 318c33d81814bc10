import type { AuditEvent, AuditEventAgent, AuditEventEntity, Coding } from 'fhir/r4.js';

/** Who did it. A name that somebody typed is never told as one that was verified. */
export type Who =
  | { readonly kind: 'person'; readonly name: string; readonly issuer: string; readonly subject: string }
  | { readonly kind: 'typed'; readonly name: string }
  | { readonly kind: 'token'; readonly name: string }
  | { readonly kind: 'nobody' };

export const auditKinds = ['sign-in', 'sign-out', 'look', 'export', 'change'] as const;
export type AuditKind = (typeof auditKinds)[number];

/** What is to be written down. Ids alone: nothing here may name a patient or quote a request. */
export interface AuditFact {
  /** UUID of the entry. */
  readonly id: string;
  readonly kind: AuditKind;
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly who: Who;
  /** Address that it was asked from. */
  readonly from?: string | undefined;
  /** `POST /outbox/:id/park`: the route, not the address. */
  readonly doing: string;
  /** `begun` before something is changed; the status of the answer otherwise. */
  readonly outcome: 'begun' | number;
  /** Id of the request, also in its answer and in the log; one change has two entries with it. */
  readonly request?: string | undefined;
  /** Ids of what it was about. */
  readonly about: readonly string[];
}

/** Where an entry stands in the chain. */
export interface Link {
  readonly n: number;
  readonly previous: string;
}

/** Codes and displays as in CodeSystem-dicom-dcim of hl7.fhir.r4.examples 4.0.1. */
const DCM = 'http://dicom.nema.org/resources/ontology/DCM';
const dcm = (code: string, display: string): Coding => ({ system: DCM, code, display });
const TYPES: Readonly<Record<AuditKind, Coding>> = {
  'sign-in': dcm('110114', 'User Authentication'),
  'sign-out': dcm('110114', 'User Authentication'),
  look: dcm('110110', 'Patient Record'),
  change: dcm('110110', 'Patient Record'),
  export: dcm('110106', 'Export'),
};
const SUBTYPES: Readonly<Partial<Record<AuditKind, Coding>>> = {
  'sign-in': dcm('110122', 'Login'),
  'sign-out': dcm('110123', 'Logout'),
};
/** CodeSystem-audit-entity-type and CodeSystem-security-source-type of hl7.terminology.r4. */
const SYSTEM_OBJECT: Coding = {
  system: 'http://terminology.hl7.org/CodeSystem/audit-entity-type',
  code: '2',
  display: 'System Object',
};
const APPLICATION_SERVER: Coding = {
  system: 'http://terminology.hl7.org/CodeSystem/security-source-type',
  code: '4',
  display: 'Application Server',
};

/** Name of the entity in which an entry carries its place in the chain. */
export const CHAIN = 'casetally audit chain';

/** The entry as a FHIR R4 AuditEvent, its place in the chain within it, so that an export can be verified by itself. */
export function auditEvent(fact: AuditFact, { n, previous }: Link): AuditEvent {
  const { kind, outcome, request, doing } = fact;
  const chain = { number: String(n), previous, ...(request !== undefined && { request }) };
  return {
    resourceType: 'AuditEvent',
    id: fact.id,
    type: TYPES[kind],
    subtype: [SUBTYPES[kind] ?? { display: doing }],
    action: actionOf(fact),
    recorded: new Date(fact.at).toISOString(),
    ...(outcome === 'begun'
      ? { outcomeDesc: 'begun; how it ended is in another entry of the same request' }
      : { outcome: outcomeOf(outcome), outcomeDesc: `answered with ${outcome}` }),
    agent: [agentOf(fact)],
    source: { observer: { display: 'Casetally' }, type: [APPLICATION_SERVER] },
    entity: [
      ...fact.about.map(
        (value): AuditEventEntity => ({ what: { identifier: { value } }, type: SYSTEM_OBJECT }),
      ),
      {
        name: CHAIN,
        detail: Object.entries(chain).map(([type, valueString]) => ({ type, valueString })),
      },
    ],
  };
}

function agentOf({ who, from }: AuditFact): AuditEventAgent {
  const network = from !== undefined && { network: { address: from, type: '2' as const } };
  return { ...identified(who), requestor: true, ...network };
}

function identified(who: Who): Pick<AuditEventAgent, 'who' | 'name' | 'type'> {
  switch (who.kind) {
    case 'person':
      return {
        type: { text: 'person, signed in at an identity provider' },
        who: { identifier: { system: who.issuer, value: who.subject }, display: who.name },
        name: who.name,
      };
    case 'typed':
      return {
        type: { text: 'person, name typed on this machine and not verified' },
        who: { display: who.name },
        name: who.name,
      };
    case 'token':
      return { type: { text: 'program, by its token' }, who: { display: who.name }, name: who.name };
    case 'nobody':
      return { type: { text: 'not known' } };
  }
}

/** R4 AuditEvent.outcome: 0 success, 4 minor failure, 8 serious failure. */
const outcomeOf = (status: number) => (status < 400 ? '0' : status < 500 ? '4' : '8');

function actionOf({ kind, doing }: AuditFact): 'C' | 'R' | 'U' | 'D' | 'E' {
  if (kind === 'sign-in' || kind === 'sign-out') return 'E';
  if (kind !== 'change') return 'R';
  if (doing.startsWith('DELETE')) return 'D';
  // What has an id in its address is there already.
  return doing.startsWith('POST') && !doing.includes('/:') ? 'C' : 'U';
}
