import { describe, expect, test } from 'vitest';
import { parsePath } from '../../../src/conformance/check/discriminator-path.js';
import { trimStructure } from '../../../src/conformance/definitions/trim.js';
import { createValidator, shelfOf, withSnapshot } from '../../../src/conformance/index.js';
import { document } from '../bases.js';
import type { Loose } from '../validators.js';
import { errors, published, shipped } from '../validators.js';

const CORE = 'http://hl7.org/fhir/StructureDefinition/';
const BASE = 'http://example.org/fhir/StructureDefinition/';
const profile = (id: string, type: string, element: Loose[], base = CORE + type): Loose => ({
  resourceType: 'StructureDefinition',
  url: BASE + id,
  version: '1',
  name: id,
  kind: 'resource',
  abstract: false,
  type,
  baseDefinition: base,
  derivation: 'constraint',
  differential: { element },
});

const check = (profiles: Loose[], url: string, resource: Loose) => {
  const validator = createValidator(shipped().with(shelfOf({ name: 't', version: '1' }, profiles)));
  return errors(validator.validateResource(resource, { profiles: [BASE + url] }));
};

const patient = (identifier: Loose[]): Loose => ({ resourceType: 'Patient', identifier });

describe('slices within slices', () => {
  const profiles = [
    profile('outer', 'Patient', [
      {
        id: 'Patient.identifier',
        path: 'Patient.identifier',
        slicing: { discriminator: [{ type: 'value', path: 'system' }], rules: 'open' },
      },
      {
        id: 'Patient.identifier:local',
        path: 'Patient.identifier',
        sliceName: 'local',
        min: 1,
        slicing: { discriminator: [{ type: 'value', path: 'use' }], rules: 'closed' },
      },
      {
        id: 'Patient.identifier:local.system',
        path: 'Patient.identifier.system',
        min: 1,
        fixedUri: 'urn:oid:1.2.3',
      },
      { id: 'Patient.identifier:local/old', path: 'Patient.identifier', sliceName: 'local/old', max: '1' },
      { id: 'Patient.identifier:local/old.use', path: 'Patient.identifier.use', min: 1, fixedCode: 'old' },
    ]),
    profile(
      'derived',
      'Patient',
      [{ id: 'Patient.identifier:local', path: 'Patient.identifier', sliceName: 'local', max: '1' }],
      `${BASE}outer`,
    ),
  ];
  const local = (use: string) => ({ system: 'urn:oid:1.2.3', use, value: '1' });
  test.each([
    ['one of the inner slice', [local('old')], []],
    ['none of the outer slice', [{ system: 'urn:oid:1.9', value: '1' }], ['min Patient']],
    ['one outside the closed inner slicing', [local('usual')], ['slice-closed Patient.identifier[0]']],
    ['two of the inner slice', [local('old'), local('old')], ['max Patient']],
  ])('%s', (_what, identifiers, expected) => {
    expect(check(profiles, 'outer', patient(identifiers))).toEqual(expected);
  });
  test('a derived profile constrains the slice of its base', () => {
    expect(check(profiles, 'derived', patient([local('old')]))).toEqual([]);
    expect(check(profiles, 'derived', patient([local('old'), local('old')]))).toEqual([
      'max Patient',
      'max Patient',
    ]);
  });
});

describe('discriminators', () => {
  const slices = (discriminator: Loose, ...rest: Loose[]) => [
    {
      id: 'Composition.section.entry',
      path: 'Composition.section.entry',
      slicing: { discriminator: [discriminator], rules: 'closed' },
    },
    ...rest,
  ];
  const composition = (): Loose => document();
  const procedureOnly = {
    id: 'Composition.section.entry:p',
    path: 'Composition.section.entry',
    sliceName: 'p',
    type: [{ code: 'Reference', targetProfile: [`${CORE}Procedure`] }],
  };
  const bundleProfile = profile('bundle', 'Bundle', [
    {
      id: 'Bundle.entry',
      path: 'Bundle.entry',
      slicing: { discriminator: [{ type: 'type', path: 'resource' }], rules: 'open' },
    },
    { id: 'Bundle.entry:report', path: 'Bundle.entry', sliceName: 'report', min: 1, max: '1' },
    {
      id: 'Bundle.entry:report.resource',
      path: 'Bundle.entry.resource',
      min: 1,
      type: [{ code: 'Composition', profile: [`${BASE}report`] }],
    },
  ]);
  test.each(['type', 'profile'])('%s through resolve()', kind => {
    const report = profile('report', 'Composition', slices({ type: kind, path: 'resolve()' }, procedureOnly));
    expect(check([bundleProfile, report], 'bundle', composition())).toEqual([]);
    const other = composition();
    other.entry[0].resource.section[0].entry[0].reference = other.entry[1].fullUrl;
    expect(check([bundleProfile, report], 'bundle', other)).toContain(
      'slice-closed Bundle.entry[0].resource.section[0].entry[0]',
    );
  });
  test('value through resolve()', () => {
    const report = profile(
      'report',
      'Composition',
      slices({ type: 'value', path: 'resolve().status' }, procedureOnly),
    );
    const target = profile('done', 'Procedure', [
      { id: 'Procedure.status', path: 'Procedure.status', min: 1, fixedCode: 'completed' },
    ]);
    report.differential.element[1].type[0].targetProfile = [`${BASE}done`];
    expect(check([bundleProfile, report, target], 'bundle', composition())).toEqual([]);
    const stopped = composition();
    stopped.entry[3].resource.status = 'stopped';
    expect(check([bundleProfile, report, target], 'bundle', stopped)).toContain(
      'slice-closed Bundle.entry[0].resource.section[0].entry[0]',
    );
  });
  test('value in an extension', () => {
    const EXTENSION = 'http://hl7.org/fhir/StructureDefinition/patient-genderIdentity';
    const path = `extension('${EXTENSION}').value.text`;
    expect(parsePath(path)).toEqual([
      { kind: 'extension', name: EXTENSION },
      { kind: 'child', name: 'value' },
      { kind: 'child', name: 'text' },
    ]);
    const gender = profile('gender', 'Patient', [
      {
        id: 'Patient.name',
        path: 'Patient.name',
        slicing: {
          discriminator: [{ type: 'value', path: `extension('${BASE}note').value` }],
          rules: 'closed',
        },
      },
      { id: 'Patient.name:noted', path: 'Patient.name', sliceName: 'noted' },
      {
        id: 'Patient.name:noted.extension:note',
        path: 'Patient.name.extension',
        sliceName: 'note',
        type: [{ code: 'Extension', profile: [`${BASE}note`] }],
      },
      {
        id: 'Patient.name:noted.extension:note.value[x]',
        path: 'Patient.name.extension.value[x]',
        fixedString: 'a',
      },
    ]);
    const note = {
      ...profile('note', 'Extension', [
        { id: 'Extension.url', path: 'Extension.url', fixedUri: `${BASE}note` },
      ]),
      kind: 'complex-type',
      context: [{ type: 'element', expression: 'HumanName' }],
    };
    const named = (valueString: string) => ({
      resourceType: 'Patient',
      name: [{ text: 'n', extension: [{ url: `${BASE}note`, valueString }] }],
    });
    expect(check([gender, note], 'gender', named('a'))).toEqual([]);
    expect(check([gender, note], 'gender', named('b'))).toEqual(['slice-closed Patient.name[0]']);
  });
});

describe('snapshots of differentials', () => {
  // Outside source: the snapshots that the publisher of IPS 2.0.0 generated.
  const profiles = [
    'Procedure',
    'Device',
    'DeviceUseStatement',
    'Patient',
    'Organization',
    'Practitioner',
    'Condition',
    'Specimen',
    'Observation-results-radiology',
    'Observation-results-laboratory-pathology',
    'Composition',
    'AllergyIntolerance',
    'ImagingStudy',
    'MedicationStatement',
    'Flag-alert',
  ];
  test.each(profiles)('%s-uv-ips has the elements and cardinalities that were published', name => {
    const raw = published(`hl7.fhir.uv.ips/StructureDefinition-${name}-uv-ips.json`);
    const { snapshot: _left, ...differential } = raw;
    const made = withSnapshot(trimStructure(differential), shipped());
    const byId = new Map(made?.snapshot.map(e => [e.id, e]));
    for (const element of trimStructure(raw).snapshot) {
      const own = byId.get(element.id);
      // Children of slices that the differential leaves alone may be written out or not.
      if (!own) {
        const plain = element.id.replace(/:[^.]+/g, '');
        expect(
          raw.differential.element.some((e: Loose) => e.id === element.id),
          element.id,
        ).toBe(false);
        expect(element.id === plain && !byId.has(plain), element.id).toBe(false);
        continue;
      }
      expect({ id: own.id, min: own.min, max: own.max }).toEqual({
        id: element.id,
        min: element.min,
        max: element.max,
      });
    }
  });
});
