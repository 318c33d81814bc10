import type { RuleId } from '../../src/conformance/index.js';
import { document, observation, patient, procedure, transaction } from './bases.js';
import type { Loose } from './validators.js';

/** A valid resource made wrong in one way, and the place where that must be found. */
export interface KnownBad {
  readonly base: () => Loose;
  /** Changes the resource, or gives the JSON text itself. */
  readonly spoil: (resource: Loose) => Loose;
  readonly path: string;
  readonly profile?: string;
  /** Key of the invariant. */
  readonly key?: string;
}

const own = (id: string) => `http://example.org/fhir/StructureDefinition/${id}`;
const narrative = (div: string) => (r: Loose) => {
  r.text.div = div;
};
const XHTML = 'xmlns="http://www.w3.org/1999/xhtml"';
const inNarrative = (inner: string) => narrative(`<div ${XHTML}>${inner}</div>`);

/** At least one example a rule; the test asks that none is missing. */
export const knownBad: Readonly<
  Record<Exclude<RuleId, 'waiver-expired' | 'waiver-unused'>, readonly KnownBad[]>
> = {
  'json-syntax': [
    { base: procedure, spoil: r => `${JSON.stringify(r).slice(0, -1)},}`, path: '' },
    { base: procedure, spoil: () => '{"resourceType": "Procedure", "id": 01}', path: '' },
    { base: procedure, spoil: r => `${JSON.stringify(r)} x`, path: '' },
  ],
  'json-too-deep': [{ base: procedure, spoil: () => '['.repeat(300), path: '' }],
  'json-duplicate-key': [
    { base: procedure, spoil: r => JSON.stringify(r).replace('{', '{"id":"p2",'), path: '' },
  ],
  'not-a-resource': [
    { base: procedure, spoil: () => '[]', path: 'Resource' },
    { base: procedure, spoil: () => '{"id":"p1"}', path: 'Resource' },
    {
      base: document,
      spoil: r => void delete r.entry[2].resource.resourceType,
      path: 'Bundle.entry[2].resource',
    },
  ],
  'unknown-type': [
    {
      base: procedure,
      spoil: r => {
        r.resourceType = 'Procedur';
      },
      path: 'Procedur',
    },
  ],
  'abstract-type': [
    { base: procedure, spoil: () => '{"resourceType":"DomainResource"}', path: 'DomainResource' },
  ],
  'unknown-element': [
    {
      base: procedure,
      spoil: r => {
        r.performedOn = '2024';
      },
      path: 'Procedure',
    },
    {
      base: procedure,
      spoil: r => {
        r.code.coding = [{ sytem: 'http://loinc.org' }];
      },
      path: 'Procedure.code.coding[0]',
    },
    {
      base: procedure,
      spoil: r => {
        r._code = { id: 'a' };
      },
      path: 'Procedure',
    },
    {
      base: procedure,
      spoil: r => {
        r.code.resourceType = 'CodeableConcept';
      },
      path: 'Procedure.code',
    },
  ],
  'json-type': [
    {
      base: procedure,
      spoil: r => {
        r.note = r.note[0];
      },
      path: 'Procedure.note',
    },
    {
      base: procedure,
      spoil: r => {
        r.code = [r.code];
      },
      path: 'Procedure.code',
    },
    {
      base: procedure,
      spoil: r => {
        r.status = 5;
      },
      path: 'Procedure.status',
    },
    {
      base: procedure,
      spoil: r => {
        r.code = 'drainage';
      },
      path: 'Procedure.code',
    },
    {
      base: observation,
      spoil: r => {
        r.valueQuantity.value = '4.2';
      },
      path: 'Observation.value.value',
    },
  ],
  empty: [
    {
      base: procedure,
      spoil: r => {
        r.code = {};
      },
      path: 'Procedure.code',
    },
    {
      base: procedure,
      spoil: r => {
        r.code = { id: 'only' };
      },
      path: 'Procedure.code',
    },
    {
      base: procedure,
      spoil: r => {
        r.note = [];
      },
      path: 'Procedure.note',
    },
    {
      base: procedure,
      spoil: r => {
        r.code.text = '';
      },
      path: 'Procedure.code.text',
    },
    {
      base: procedure,
      spoil: r => {
        r.code.text = null;
      },
      path: 'Procedure.code.text',
    },
    {
      base: procedure,
      spoil: r => {
        r._status = {};
      },
      path: 'Procedure.status',
    },
  ],
  'null-padding': [
    {
      base: patient,
      spoil: r => {
        r.name[0].given = ['Vela', null];
      },
      path: 'Patient.name[0].given[1]',
    },
    {
      base: patient,
      spoil: r => {
        r.name[0]._given = [{ id: 'a' }];
      },
      path: 'Patient.name[0].given',
    },
  ],
  min: [
    { base: procedure, spoil: r => void delete r.status, path: 'Procedure' },
    { base: procedure, spoil: r => void delete r.performedPeriod, path: 'Procedure' },
    {
      base: procedure,
      spoil: r => {
        r.subject = { display: 'Vela' };
      },
      path: 'Procedure.subject',
    },
    {
      base: procedure,
      spoil: r => {
        r.performer = [{ function: { text: 'operator' } }];
      },
      path: 'Procedure.performer[0]',
    },
  ],
  max: [
    {
      base: patient,
      profile: own('closed'),
      spoil: () => ({
        ...procedure(),
        note: [
          { time: '2024-03-14', text: 'a' },
          { time: '2024-03-14', text: 'b' },
        ],
      }),
      path: 'Procedure',
    },
  ],
  'choice-type': [
    {
      base: procedure,
      spoil: r => {
        r.performedInteger = r.performedPeriod && 5;
      },
      path: 'Procedure',
    },
    {
      base: procedure,
      profile: 'http://hl7.org/fhir/uv/ips/StructureDefinition/DeviceUseStatement-uv-ips',
      spoil: () => ({
        resourceType: 'DeviceUseStatement',
        status: 'active',
        subject: { reference: 'Patient/x1' },
        device: { reference: 'Device/d1' },
        timingTiming: { event: ['2024-03-14'] },
      }),
      path: 'DeviceUseStatement',
    },
  ],
  'choice-twice': [
    {
      base: procedure,
      spoil: r => {
        r.performedDateTime = '2024-03-14';
      },
      path: 'Procedure',
    },
  ],
  'primitive-format': [
    {
      base: procedure,
      spoil: r => {
        r.performedPeriod.start = '2024-02-30T09:00:00Z';
      },
      path: 'Procedure.performed.start',
    },
    {
      base: procedure,
      spoil: r => {
        r.performedPeriod.start = '2024-03-14T09:00:00';
      },
      path: 'Procedure.performed.start',
    },
    {
      base: patient,
      spoil: r => {
        r.birthDate = '57-08-02';
      },
      path: 'Patient.birthDate',
    },
    {
      base: patient,
      spoil: r => {
        r.birthDate = '2023-02-29';
      },
      path: 'Patient.birthDate',
    },
    {
      base: procedure,
      spoil: r => {
        r.id = 'a b';
      },
      path: 'Procedure.id',
    },
    {
      base: procedure,
      spoil: r => {
        r.status = 'completed ';
      },
      path: 'Procedure.status',
    },
    {
      base: patient,
      spoil: r => {
        r.multipleBirthInteger = 1.5;
      },
      path: 'Patient.multipleBirth',
    },
    {
      base: patient,
      spoil: r => JSON.stringify(r).replace('"gender"', '"multipleBirthInteger":2.0,"gender"'),
      path: 'Patient.multipleBirth',
    },
    {
      base: procedure,
      spoil: r => {
        r.instantiatesUri = ['http://a b'];
      },
      path: 'Procedure.instantiatesUri[0]',
    },
    {
      base: patient,
      spoil: r => {
        r.photo = [{ contentType: 'image/png', data: 'abc' }];
      },
      path: 'Patient.photo[0].data',
    },
    {
      base: procedure,
      spoil: r => {
        r.code.text = 'a\u0001b';
      },
      path: 'Procedure.code.text',
    },
    {
      base: procedure,
      spoil: r => {
        r.code.text = '  ';
      },
      path: 'Procedure.code.text',
    },
  ],
  length: [{ base: procedure, profile: own('short'), spoil: r => r, path: 'Procedure.note[0].text' }],
  range: [
    {
      base: observation,
      profile: own('range'),
      spoil: r => {
        r.valueQuantity.value = -1;
      },
      path: 'Observation.value.value',
    },
    {
      base: observation,
      profile: own('range'),
      spoil: r => {
        r.valueQuantity.value = 101;
      },
      path: 'Observation.value.value',
    },
  ],
  fixed: [
    {
      base: procedure,
      profile: own('fixed'),
      spoil: r => {
        r.status = 'stopped';
      },
      path: 'Procedure.status',
    },
  ],
  pattern: [
    {
      base: procedure,
      profile: own('fixed'),
      spoil: r => {
        r.code.text = 'other';
      },
      path: 'Procedure.code',
    },
  ],
  'slice-closed': [{ base: procedure, profile: own('closed'), spoil: r => r, path: 'Procedure.note[0]' }],
  'slice-order': [
    {
      base: patient,
      profile: own('ordered'),
      spoil: r => {
        r.name = [
          { use: 'usual', text: 'b' },
          { use: 'official', text: 'a' },
        ];
      },
      path: 'Patient.name[1]',
    },
  ],
  'slice-end': [
    {
      base: patient,
      profile: own('open-at-end'),
      spoil: r => {
        r.name = [
          { use: 'old', text: 'b' },
          { use: 'official', text: 'a' },
        ];
      },
      path: 'Patient.name[0]',
    },
  ],
  'slice-not-checked': [{ base: patient, profile: own('undecidable'), spoil: r => r, path: 'Patient' }],
  'profile-not-loaded': [
    { base: procedure, spoil: r => void r.meta.profile.push(own('nowhere')), path: 'Procedure' },
    {
      base: procedure,
      spoil: r => {
        r.meta.profile = [`${own('fixed')}|9.9.9`];
      },
      path: 'Procedure',
    },
    { base: procedure, profile: own('absent-profile'), spoil: r => r, path: 'Procedure.code' },
  ],
  'profile-type': [{ base: patient, profile: own('fixed'), spoil: r => r, path: 'Patient' }],
  'profile-none': [{ base: procedure, profile: own('either-code'), spoil: r => r, path: 'Procedure.code' }],
  'extension-unknown': [
    {
      base: procedure,
      spoil: r => {
        r.extension = [{ url: own('nowhere'), valueString: 'a' }];
      },
      path: 'Procedure.extension[0]',
    },
  ],
  'extension-modifier-unknown': [
    {
      base: procedure,
      spoil: r => {
        r.modifierExtension = [{ url: own('nowhere'), valueString: 'a' }];
      },
      path: 'Procedure.modifierExtension[0]',
    },
  ],
  'extension-modifier': [
    {
      base: procedure,
      spoil: r => {
        r.modifierExtension = [
          {
            url: 'http://hl7.org/fhir/StructureDefinition/procedure-incisionDateTime',
            valueDateTime: '2024-03-14',
          },
        ];
      },
      path: 'Procedure.modifierExtension[0]',
    },
  ],
  'extension-context': [
    {
      base: patient,
      spoil: r => {
        r.extension = [
          {
            url: 'http://hl7.org/fhir/StructureDefinition/procedure-incisionDateTime',
            valueDateTime: '2024-03-14',
          },
        ];
      },
      path: 'Patient.extension[0]',
    },
  ],
  'extension-part': [
    {
      base: patient,
      spoil: r => {
        r.extension = [
          {
            url: 'http://hl7.org/fhir/StructureDefinition/patient-nationality',
            extension: [{ url: 'colour', valueString: 'a' }],
          },
        ];
      },
      path: 'Patient.extension[0].extension[0]',
    },
  ],
  'extension-url': [
    {
      base: procedure,
      spoil: r => {
        r.extension = [{ url: 'short', valueString: 'a' }];
      },
      path: 'Procedure.extension[0]',
    },
  ],
  'binding-required': [
    {
      base: procedure,
      spoil: r => {
        r.status = 'done';
      },
      path: 'Procedure.status',
    },
    {
      base: patient,
      spoil: r => {
        r.gender = 'f';
      },
      path: 'Patient.gender',
    },
    {
      base: procedure,
      spoil: r => {
        r.text.status = 'made';
      },
      path: 'Procedure.text.status',
    },
    {
      base: observation,
      spoil: () => ({
        resourceType: 'Condition',
        subject: { reference: 'Patient/x1' },
        clinicalStatus: { text: 'active' },
      }),
      path: 'Condition.clinicalStatus',
    },
  ],
  'binding-extensible': [
    {
      base: patient,
      spoil: r => {
        r.contact = [
          {
            relationship: [{ coding: [{ system: 'http://example.org/x', code: 'aunt' }] }],
            name: { text: 'A' },
          },
        ];
      },
      path: 'Patient.contact[0].relationship[0]',
    },
  ],
  'binding-preferred': [
    {
      base: observation,
      spoil: r => {
        r.category[0].coding[0] = { system: 'http://example.org/x', code: 'dose' };
      },
      path: 'Observation.category[0]',
    },
  ],
  'binding-max': [
    {
      base: patient,
      spoil: r => {
        r.language = 'not_a_language';
      },
      path: 'Patient.language',
    },
  ],
  'binding-not-checked': [
    {
      base: procedure,
      spoil: r => {
        r.code.coding = [{ system: 'http://snomed.info/sct', code: '387713003' }];
      },
      path: 'Procedure.code',
    },
  ],
  'code-unknown': [
    {
      base: observation,
      spoil: r => {
        r.category[0].coding[0].code = 'images';
      },
      path: 'Observation.category[0].coding[0]',
    },
  ],
  'code-display': [
    {
      base: observation,
      spoil: r => {
        r.category[0].coding[0].display = 'Pictures';
      },
      path: 'Observation.category[0].coding[0]',
    },
  ],
  'code-system-value-set': [
    {
      base: observation,
      spoil: r => {
        r.category[0].coding[0].system = 'http://hl7.org/fhir/ValueSet/observation-category';
      },
      path: 'Observation.category[0].coding[0]',
    },
  ],
  'code-system-relative': [
    {
      base: observation,
      spoil: r => {
        r.category[0].coding[0].system = 'observation-category';
      },
      path: 'Observation.category[0].coding[0]',
    },
  ],
  'identifier-system': [
    {
      base: patient,
      spoil: r => {
        r.identifier[0].system = 'hospital';
      },
      path: 'Patient.identifier[0]',
    },
  ],
  'identifier-value': [
    {
      base: patient,
      spoil: r => {
        r.identifier[0].system = 'urn:ietf:rfc:3986';
      },
      path: 'Patient.identifier[0]',
    },
  ],
  'canonical-relative': [
    {
      base: procedure,
      spoil: r => {
        r.instantiatesCanonical = ['PlanDefinition/x'];
      },
      path: 'Procedure.instantiatesCanonical[0]',
    },
  ],
  'attachment-hash': [
    {
      base: patient,
      spoil: r => {
        r.photo = [{ contentType: 'image/png', data: 'YWJj', hash: 'YWJj' }];
      },
      path: 'Patient.photo[0]',
    },
  ],
  'attachment-size': [
    {
      base: patient,
      spoil: r => {
        r.photo = [{ contentType: 'image/png', data: 'YWJj', size: 4 }];
      },
      path: 'Patient.photo[0]',
    },
  ],
  'code-check-digit': [
    {
      base: observation,
      spoil: r => {
        r.code = { coding: [{ system: 'http://loinc.org', code: '2610-0' }] };
      },
      path: 'Observation.code.coding[0]',
    },
    {
      base: observation,
      spoil: r => {
        r.bodySite = { coding: [{ system: 'http://snomed.info/sct', code: '73211090' }] };
      },
      path: 'Observation.bodySite.coding[0]',
    },
  ],
  'unit-invalid': [
    {
      base: observation,
      spoil: r => {
        r.valueQuantity.code = 'Gy*cm2';
      },
      path: 'Observation.value',
    },
    {
      base: observation,
      spoil: r => {
        r.valueQuantity.code = 'Fr gauge';
      },
      path: 'Observation.value',
    },
  ],
  invariant: [
    {
      base: observation,
      key: 'obs-6',
      spoil: r => {
        r.dataAbsentReason = { text: 'unknown' };
      },
      path: 'Observation',
    },
    {
      base: procedure,
      key: 'per-1',
      spoil: r => {
        r.performedPeriod.end = '2024-03-13';
      },
      path: 'Procedure.performed',
    },
    {
      base: observation,
      key: 'qty-3',
      spoil: r => void delete r.valueQuantity.system,
      path: 'Observation.value',
    },
    {
      base: patient,
      key: 'pat-1',
      spoil: r => {
        r.contact = [{ gender: 'male' }];
      },
      path: 'Patient.contact[0]',
    },
    { base: procedure, key: 'dom-3', spoil: r => void delete r.performer, path: 'Procedure' },
    { base: procedure, key: 'dom-6', spoil: r => void delete r.text, path: 'Procedure' },
    {
      base: procedure,
      key: 'dom-4',
      spoil: r => {
        r.contained[0].meta = { versionId: '1' };
      },
      path: 'Procedure',
    },
    { base: document, key: 'bdl-9', spoil: r => void delete r.identifier, path: 'Bundle' },
    { base: document, key: 'bdl-10', spoil: r => void delete r.timestamp, path: 'Bundle' },
    { base: document, key: 'bdl-11', spoil: r => void r.entry.reverse(), path: 'Bundle' },
    { base: document, key: 'bdl-7', spoil: r => void r.entry.push(r.entry[1]), path: 'Bundle' },
    {
      base: document,
      key: 'bdl-8',
      spoil: r => {
        r.entry[1].fullUrl = 'http://example.org/Patient/1/_history/2';
      },
      path: 'Bundle.entry[1]',
    },
    { base: transaction, key: 'bdl-3', spoil: r => void delete r.entry[0].request, path: 'Bundle' },
    {
      base: document,
      key: 'bdl-1',
      spoil: r => {
        r.total = 4;
      },
      path: 'Bundle',
    },
    {
      base: document,
      key: 'cmp-1',
      spoil: r => void delete r.entry[0].resource.section[0].entry,
      path: 'Bundle.entry[0].resource.section[0]',
    },
    {
      base: procedure,
      key: 'ext-1',
      spoil: r => {
        r.extension = [{ url: own('nowhere') }];
      },
      path: 'Procedure.extension[0]',
    },
  ],
  'invariant-not-checked': [
    { base: procedure, profile: own('bad-invariant'), key: 'bad-1', spoil: r => r, path: 'Procedure' },
  ],
  'reference-format': [
    {
      base: procedure,
      spoil: r => {
        r.subject.reference = 'Patient x1';
      },
      path: 'Procedure.subject',
    },
    {
      base: procedure,
      spoil: r => {
        r.subject.reference = 'x1';
      },
      path: 'Procedure.subject',
    },
    ...['Patient?', 'Patient?identifier', 'Patient?identifier='].map(reference => ({
      base: transaction,
      spoil: (r: Loose) => {
        r.entry.at(-1).resource.subject = { reference };
      },
      path: 'Bundle.entry[2].resource.subject',
    })),
  ],
  'reference-type': [
    {
      base: procedure,
      spoil: r => {
        r.subject.reference = 'Device/d1';
      },
      path: 'Procedure.subject',
    },
    {
      base: procedure,
      spoil: r => {
        r.subject = { reference: 'http://example.org/x', type: 'Device' };
      },
      path: 'Procedure.subject',
    },
    {
      base: document,
      spoil: r => {
        r.entry[3].resource.subject.reference = r.entry[2].fullUrl;
      },
      path: 'Bundle.entry[3].resource.subject',
    },
  ],
  'reference-type-mismatch': [
    {
      base: procedure,
      spoil: r => {
        r.subject.type = 'Group';
      },
      path: 'Procedure.subject',
    },
  ],
  'reference-profile': [
    {
      base: procedure,
      profile: own('performer-profile'),
      spoil: r => r,
      path: 'Procedure.performer[0].actor',
    },
  ],
  'reference-contained': [
    {
      base: procedure,
      spoil: r => {
        r.performer[0].actor.reference = '#other';
      },
      path: 'Procedure.performer[0].actor',
    },
  ],
  'reference-aggregation': [
    {
      base: procedure,
      profile: own('contained-performer'),
      spoil: r => r,
      path: 'Procedure.performer[0].actor',
    },
  ],
  'reference-urn': [
    {
      base: document,
      spoil: r => {
        r.entry[3].resource.subject.reference = 'urn:uuid:00000000-0000-4000-8000-0000000000ff';
      },
      path: 'Bundle.entry[3].resource.subject',
    },
  ],
  'contained-id': [
    {
      base: procedure,
      spoil: r => void r.contained.push({ ...r.contained[0] }),
      path: 'Procedure.contained[1]',
    },
    { base: procedure, spoil: r => void delete r.contained[0].id, path: 'Procedure.contained[0]' },
  ],
  'bundle-full-url': [
    {
      base: document,
      spoil: r => {
        r.entry[2].fullUrl = 'Practitioner/1';
      },
      path: 'Bundle.entry[2]',
    },
  ],
  'bundle-full-url-missing': [
    { base: document, spoil: r => void delete r.entry[2].fullUrl, path: 'Bundle.entry[2]' },
  ],
  'bundle-id-mismatch': [
    {
      base: document,
      spoil: r => {
        r.entry[2].fullUrl = 'http://example.org/Practitioner/1';
        r.entry[2].resource.id = '2';
      },
      path: 'Bundle.entry[2]',
    },
  ],
  'bundle-unreachable': [
    {
      base: document,
      spoil: r =>
        void r.entry.push({
          fullUrl: 'urn:uuid:00000000-0000-4000-8000-0000000000aa',
          resource: { resourceType: 'Organization', name: 'Elsewhere' },
        }),
      path: 'Bundle.entry[4]',
    },
  ],
  'bundle-missing-entry': [
    {
      base: document,
      spoil: r => {
        r.entry[0].resource.author[0].reference = 'Practitioner/zz';
      },
      path: 'Bundle.entry[0]',
    },
  ],
  'bundle-request': [
    {
      base: transaction,
      spoil: r => {
        r.entry[0].request.url = 'Practitioner';
      },
      path: 'Bundle.entry[0]',
    },
    {
      base: transaction,
      spoil: r => {
        r.entry[0].request.url = 'Patient/1';
      },
      path: 'Bundle.entry[0]',
    },
    {
      base: transaction,
      spoil: r => {
        r.entry[0].request = { method: 'PUT', url: 'Patient' };
      },
      path: 'Bundle.entry[0]',
    },
    {
      base: transaction,
      spoil: r => {
        r.entry[0].request.ifNoneExist = '?identifier=a|b';
      },
      path: 'Bundle.entry[0]',
    },
    {
      base: transaction,
      spoil: r => {
        r.entry[0].request = { method: 'DELETE', url: 'Patient/1' };
      },
      path: 'Bundle.entry[0]',
    },
  ],
  'bundle-identity-twice': [
    {
      base: transaction,
      spoil: r =>
        void r.entry.push(
          { request: { method: 'DELETE', url: 'Patient/9' } },
          { request: { method: 'DELETE', url: 'Patient/9' } },
        ),
      path: 'Bundle.entry[4]',
    },
    {
      base: transaction,
      spoil: r => {
        const request = { method: 'DELETE', url: 'Patient?identifier=a|1' };
        r.entry.push({ request }, { request });
      },
      path: 'Bundle.entry[4]',
    },
  ],
  'bundle-create-twice': [
    {
      base: transaction,
      spoil: r => {
        const request = { method: 'POST', url: 'Patient', ifNoneExist: 'identifier=a|1' };
        const fullUrl = (n: number) => `urn:uuid:00000000-0000-4000-8000-00000000000${n}`;
        for (const n of [1, 2])
          r.entry.push({ fullUrl: fullUrl(n), resource: { ...patient(), id: `p${n}` }, request });
      },
      path: 'Bundle.entry[4]',
    },
  ],
  'udi-issuer-relative': [
    {
      base: () => ({ resourceType: 'Device', udiCarrier: [{ deviceIdentifier: '1', issuer: 'gs1' }] }),
      spoil: () => undefined,
      path: 'Device.udiCarrier[0]',
    },
  ],
  'bundle-batch-reference': [
    {
      base: transaction,
      spoil: r => {
        r.type = 'batch';
      },
      path: 'Bundle.entry[2]',
    },
  ],
  'conditional-reference': [
    {
      base: procedure,
      spoil: r => {
        r.subject.reference = 'Patient?identifier=a|b';
      },
      path: 'Procedure.subject',
    },
  ],
  'narrative-xml': [
    { base: procedure, spoil: inNarrative('<p>a'), path: 'Procedure.text.div' },
    { base: procedure, spoil: inNarrative('a &nbsp; b'), path: 'Procedure.text.div' },
    { base: procedure, spoil: narrative(`<!DOCTYPE html><div ${XHTML}>a</div>`), path: 'Procedure.text.div' },
  ],
  'narrative-root': [
    { base: procedure, spoil: narrative('<div>a</div>'), path: 'Procedure.text.div' },
    { base: procedure, spoil: narrative(`<p ${XHTML}>a</p>`), path: 'Procedure.text.div' },
  ],
  'narrative-element': [
    { base: procedure, spoil: inNarrative('a<script>b()</script>'), path: 'Procedure.text.div' },
    { base: procedure, spoil: inNarrative('<form>a</form>'), path: 'Procedure.text.div' },
  ],
  'narrative-attribute': [
    { base: procedure, spoil: inNarrative('<p onclick="b()">a</p>'), path: 'Procedure.text.div' },
    { base: procedure, spoil: inNarrative('<p href="a">a</p>'), path: 'Procedure.text.div' },
  ],
  'narrative-empty': [{ base: procedure, spoil: inNarrative('<p> </p>'), path: 'Procedure.text.div' }],
  'narrative-link': [
    { base: procedure, spoil: inNarrative('<a href="#nowhere">a</a>'), path: 'Procedure.text.div' },
    { base: procedure, spoil: inNarrative('<a href="javascript:b()">a</a>'), path: 'Procedure.text.div' },
  ],
  'narrative-id': [
    { base: procedure, spoil: inNarrative('<p id="a">a</p><p id="a">b</p>'), path: 'Procedure.text.div' },
  ],
};
