import type { Loose } from './validators.js';

const SCT = 'http://snomed.info/sct';
const XHTML = 'http://www.w3.org/1999/xhtml';

/** Valid resources, invented, from which the known-bad examples are made. */
export function procedure(): Loose {
  return {
    resourceType: 'Procedure',
    id: 'p1',
    meta: { profile: ['http://hl7.org/fhir/uv/ips/StructureDefinition/Procedure-uv-ips'] },
    text: { status: 'generated', div: `<div xmlns="${XHTML}"><p id="a">Drain placed</p></div>` },
    contained: [{ resourceType: 'Practitioner', id: 'op', name: [{ text: 'Dr Ilse Branquinho' }] }],
    status: 'completed',
    category: { coding: [{ system: SCT, code: '387713003' }] },
    code: { text: 'Biliary drainage' },
    subject: { reference: 'Patient/x1' },
    performedPeriod: { start: '2024-03-14T09:04:00Z', end: '2024-03-14T09:49:00Z' },
    performer: [{ actor: { reference: '#op' } }],
    note: [{ text: 'No complication seen.' }],
  };
}

export function observation(): Loose {
  return {
    resourceType: 'Observation',
    id: 'o1',
    text: { status: 'generated', div: `<div xmlns="${XHTML}">Dose-area product</div>` },
    status: 'final',
    category: [
      { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/observation-category', code: 'imaging' }] },
    ],
    code: { coding: [{ system: 'http://loinc.org', code: '18748-4' }], text: 'Dose-area product' },
    subject: { reference: 'Patient/x1' },
    effectiveDateTime: '2024-03-14T09:49:00Z',
    valueQuantity: { value: 4.2, unit: 'Gy·cm2', system: 'http://unitsofmeasure.org', code: 'Gy.cm2' },
  };
}

export function patient(): Loose {
  return {
    resourceType: 'Patient',
    id: 'x1',
    text: { status: 'generated', div: `<div xmlns="${XHTML}">Vela Quintanar</div>` },
    identifier: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '00481516' }],
    name: [{ family: 'Quintanar', given: ['Vela', 'Maria'] }],
    gender: 'female',
    birthDate: '1957-08-02',
  };
}

export function document(): Loose {
  const urn = (n: number) => `urn:uuid:00000000-0000-4000-8000-00000000000${n}`;
  return {
    resourceType: 'Bundle',
    type: 'document',
    identifier: { system: 'urn:ietf:rfc:3986', value: urn(9) },
    timestamp: '2024-03-14T10:00:00Z',
    entry: [
      {
        fullUrl: urn(1),
        resource: {
          resourceType: 'Composition',
          text: { status: 'generated', div: `<div xmlns="${XHTML}">Report</div>` },
          status: 'final',
          type: { text: 'Procedure report' },
          subject: { reference: urn(2) },
          date: '2024-03-14T10:00:00Z',
          author: [{ reference: urn(3) }],
          title: 'Procedure report',
          section: [{ title: 'Procedure', entry: [{ reference: urn(4) }] }],
        },
      },
      { fullUrl: urn(2), resource: without(patient(), 'id') },
      {
        fullUrl: urn(3),
        resource: {
          resourceType: 'Practitioner',
          text: { status: 'generated', div: `<div xmlns="${XHTML}">Dr Ilse Branquinho</div>` },
          name: [{ text: 'Dr Ilse Branquinho' }],
        },
      },
      { fullUrl: urn(4), resource: { ...without(procedure(), 'id'), subject: { reference: urn(2) } } },
    ],
  };
}

export function transaction(): Loose {
  const { entry } = document();
  return {
    resourceType: 'Bundle',
    type: 'transaction',
    entry: entry
      .slice(1)
      .map((e: Loose) => ({ ...e, request: { method: 'POST', url: e.resource.resourceType } })),
  };
}

function without(resource: Loose, name: string): Loose {
  const { [name]: _left, ...rest } = resource;
  return rest;
}
