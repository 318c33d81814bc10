import type { Shelf } from '../../src/conformance/index.js';
import { shelfOf } from '../../src/conformance/index.js';
import type { Loose } from './validators.js';

const BASE = 'http://example.org/fhir/StructureDefinition/';

/** Invented profiles, differential only, one for each rule that R4 and IPS do not exercise. */
export const testProfiles: Shelf = shelfOf({ name: 'example.profiles', version: '1.0.0' }, [
  profile('closed', 'Procedure', [
    {
      id: 'Procedure.note',
      path: 'Procedure.note',
      slicing: { discriminator: [{ type: 'exists', path: 'time' }], rules: 'closed' },
    },
    { id: 'Procedure.note:timed', path: 'Procedure.note', sliceName: 'timed', max: '1' },
    { id: 'Procedure.note:timed.time', path: 'Procedure.note.time', min: 1 },
  ]),
  profile('ordered', 'Patient', named({ ordered: true, rules: 'open' })),
  profile('open-at-end', 'Patient', named({ rules: 'openAtEnd' })),
  profile('undecidable', 'Patient', [
    { id: 'Patient.name', path: 'Patient.name', slicing: { rules: 'open' } },
    { id: 'Patient.name:one', path: 'Patient.name', sliceName: 'one', min: 1 },
  ]),
  profile('fixed', 'Procedure', [
    { id: 'Procedure.status', path: 'Procedure.status', fixedCode: 'completed' },
    { id: 'Procedure.code', path: 'Procedure.code', patternCodeableConcept: { text: 'Biliary drainage' } },
  ]),
  profile('short', 'Procedure', [{ id: 'Procedure.note.text', path: 'Procedure.note.text', maxLength: 10 }]),
  profile('range', 'Observation', [
    { id: 'Observation.value[x]', path: 'Observation.value[x]', type: [{ code: 'Quantity' }] },
    {
      id: 'Observation.value[x].value',
      path: 'Observation.value[x].value',
      minValueDecimal: 0,
      maxValueDecimal: 100,
    },
  ]),
  profile('contained-performer', 'Procedure', [
    {
      id: 'Procedure.performer.actor',
      path: 'Procedure.performer.actor',
      type: [{ code: 'Reference', targetProfile: [`${CORE()}Practitioner`], aggregation: ['bundled'] }],
    },
  ]),
  profile('named-practitioner', 'Practitioner', [
    { id: 'Practitioner.identifier', path: 'Practitioner.identifier', min: 1 },
  ]),
  profile('performer-profile', 'Procedure', [
    {
      id: 'Procedure.performer.actor',
      path: 'Procedure.performer.actor',
      type: [{ code: 'Reference', targetProfile: [`${BASE}named-practitioner`] }],
    },
  ]),
  profile(
    'code-a',
    'CodeableConcept',
    [{ id: 'CodeableConcept.text', path: 'CodeableConcept.text', fixedString: 'a' }],
    'complex-type',
  ),
  profile(
    'code-b',
    'CodeableConcept',
    [{ id: 'CodeableConcept.text', path: 'CodeableConcept.text', fixedString: 'b' }],
    'complex-type',
  ),
  profile('either-code', 'Procedure', [
    {
      id: 'Procedure.code',
      path: 'Procedure.code',
      type: [{ code: 'CodeableConcept', profile: [`${BASE}code-a`, `${BASE}code-b`] }],
    },
  ]),
  profile('bad-invariant', 'Procedure', [
    {
      id: 'Procedure',
      path: 'Procedure',
      constraint: [{ key: 'bad-1', severity: 'error', human: 'cannot be read', expression: 'status.(' }],
    },
  ]),
  profile('absent-profile', 'Procedure', [
    {
      id: 'Procedure.code',
      path: 'Procedure.code',
      type: [{ code: 'CodeableConcept', profile: [`${BASE}nowhere`] }],
    },
  ]),
]);

function CORE(): string {
  return 'http://hl7.org/fhir/StructureDefinition/';
}

function profile(id: string, type: string, element: Loose[], kind = 'resource'): Loose {
  return {
    resourceType: 'StructureDefinition',
    id,
    url: BASE + id,
    version: '1.0.0',
    name: id,
    status: 'active',
    kind,
    abstract: false,
    type,
    baseDefinition: CORE() + type,
    derivation: 'constraint',
    differential: { element },
  };
}

/** Names sliced by use: official, then usual. */
function named(rules: Loose): Loose[] {
  const slice = (use: string): Loose[] => [
    { id: `Patient.name:${use}`, path: 'Patient.name', sliceName: use },
    { id: `Patient.name:${use}.use`, path: 'Patient.name.use', min: 1, fixedCode: use },
  ];
  return [
    {
      id: 'Patient.name',
      path: 'Patient.name',
      slicing: { discriminator: [{ type: 'value', path: 'use' }], ...rules },
    },
    ...slice('official'),
    ...slice('usual'),
  ];
}
