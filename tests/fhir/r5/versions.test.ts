import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/clinical/assess.js';
import { Definitions } from '../../../src/conformance/definitions/definitions.js';
import { readPackage } from '../../../src/conformance/packages/read.js';
import { createValidator } from '../../../src/conformance/validator.js';
import { submissionBundle } from '../../../src/fhir/bundles/submission.js';
import { mapCase } from '../../../src/fhir/map-case.js';
import { bundleInVersion } from '../../../src/fhir/r5/bundle.js';
import { toR4B, toR5 } from '../../../src/fhir/r5/versions.js';
import { writeFhirJson } from '../../../src/json/write.js';
import { submissionFor } from '../../../src/pipeline/in-version.js';
import { parseCaseData } from '../../../src/record/parse.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { destination } from '../../delivery/samples.js';
import { exampleFiles, knownExample, preparedExample } from '../../support/examples.js';
import { sampled } from '../../support/sampled.js';
import { narrative, options } from '../cases.js';
import { fullCase } from '../full-case.js';

const require = createRequire(import.meta.url);
/** Structure definitions of a release. Source: the npm packages hl7.fhir.r5.core 5.0.0 and hl7.fhir.r4b.core 4.3.0. */
const validatorOf = (name: string) =>
  createValidator(new Definitions([readPackage(dirname(require.resolve(`${name}/package.json`))).shelf]));
const releases = { '5.0.0': validatorOf('hl7.fhir.r5.core'), '4.3.0': validatorOf('hl7.fhir.r4b.core') };

const everything = {
  ...options.references,
  patient: 'include',
  encounter: 'include',
  order: 'include',
} as const;

function fullSet() {
  const { record, findings } = parseCaseData(fullCase);
  if (!record) throw new Error(JSON.stringify(findings));
  return mapCase(record, assess(record), narrative, options);
}

const files = sampled('examples in other versions', exampleFiles, 5);
const bundles = [
  ...files.map(file => {
    const { resources } = knownExample(file);
    return [file, submissionBundle(resources, { references: everything })] as const;
  }),
  ['every field', submissionBundle(fullSet(), { references: everything })] as const,
];

describe.each(['5.0.0', '4.3.0'] as const)('a submission as FHIR %s', version => {
  it.each(bundles)('%s agrees with the structure definitions of the release', (_name, bundle) => {
    const { bundle: written, refused } = bundleInVersion(bundle, version);
    expect(refused).toEqual([]);
    const { issues } = releases[version].validateText(writeFhirJson(written));
    const faults = issues
      .filter(({ severity }) => severity === 'error' || severity === 'fatal')
      // R4B words ref-1 so that a reference by identifier alone gives neither true nor false; R5 mended that.
      .filter(({ message }) => !(version === '4.3.0' && message.startsWith('ref-1:')));
    expect(faults.map(({ path, rule, message }) => `${path} ${rule} ${message}`)).toEqual([]);
  });

  it('keeps the digits of quantities', () => {
    const quantity = /"value": (\d+\.\d*0)\b/g;
    const [, bundle] = bundles.at(-1) ?? [];
    if (!bundle) throw new Error('no bundle');
    const digits = (value: object) => [...writeFhirJson(value).matchAll(quantity)].map(m => m[1]).sort();
    expect(digits(bundle).length).toBeGreaterThan(0);
    expect(digits(bundleInVersion(bundle, version).bundle)).toEqual(digits(bundle));
  });
});

describe('FHIR R5', () => {
  it.each(bundles)(
    '%s has no word of DeviceUseStatement, and a DeviceUsage for each one',
    (_name, bundle) => {
      const text = writeFhirJson(bundleInVersion(bundle, '5.0.0').bundle);
      const uses = (of: string, type: string) => of.split(`"resourceType": "${type}"`).length - 1;
      expect(text).not.toContain('DeviceUseStatement');
      expect(uses(text, 'DeviceUsage')).toBe(uses(writeFhirJson(bundle), 'DeviceUseStatement'));
    },
  );

  it('tells what it has no place for', () => {
    const [, bundle] = bundles.at(-1) ?? [];
    const losses = bundle && bundleInVersion(bundle, '5.0.0').losses;
    expect(losses).toMatchInlineSnapshot(`
      [
        "AdverseEvent.severity: the severity, which R5 keeps with the effect",
        "CarePlan.meta: claims of R4 profiles",
        "CareTeam.encounter: R5 has no encounter of a care team",
        "Composition.meta: claims of R4 profiles",
        "Consent.dateTime: the time of day, for R5 keeps the day alone",
        "Device.meta: claims of R4 profiles",
        "Device.patient: R5 ties devices to patients by their use; the DeviceUsage names the patient",
        "Device.status: the status unknown, written as absent data",
        "DeviceUseStatement.meta: claims of R4 profiles",
        "DocumentReference.meta: claims of R4 profiles",
        "MedicationAdministration.meta: claims of R4 profiles",
        "Observation.meta: claims of R4 profiles",
        "Procedure.meta: claims of R4 profiles",
        "ServiceRequest.meta: claims of R4 profiles",
        "Task.meta: claims of R4 profiles",
      ]
    `);
  });

  // FHIR R5, JSON: integer64 is written as text. What is sent comes from text whose numbers keep their digits.
  it('writes the sizes of attachments as digits, from a text as from a set of resources', () => {
    const at = destination('http://127.0.0.1:1/fhir', { fhirVersion: '5.0.0' });
    for (const file of files) {
      const { submission = '' } = submissionFor(knownExample(file), at);
      const sizes = [...submission.matchAll(/"size":\s*([^,}\n]+)/g)].map(([, size]) => size);
      expect(sizes.length, file).toBeGreaterThan(0);
      for (const size of sizes) expect(size).toMatch(/^"\d+"$/);
      const { issues } = releases['5.0.0'].validateText(submission);
      expect(issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
    }
  });

  it('keeps every text of the case but those it tells of', () => {
    const [, bundle] = bundles.at(-1) ?? [];
    if (!bundle) throw new Error('no bundle');
    const words = (value: object) => new Set(writeFhirJson(value).match(/zq[\w-]*(?: [\w-]+)*/g));
    const after = words(bundleInVersion(bundle, '5.0.0').bundle);
    expect([...words(bundle)].filter(word => !after.has(word))).toEqual([]);
  });

  it('renames references by address, query and type', () => {
    const built = toR5({
      resourceType: 'Observation',
      status: 'final',
      code: { text: 'x' },
      focus: [
        { reference: 'DeviceUseStatement?identifier=a|b' },
        { reference: 'DeviceUseStatement/12' },
        { type: 'DeviceUseStatement', identifier: { value: '1' } },
        { reference: 'urn:uuid:12' },
      ],
    });
    expect(built?.resource['focus']).toEqual([
      { reference: 'DeviceUsage?identifier=a|b' },
      { reference: 'DeviceUsage/12' },
      { type: 'DeviceUsage', identifier: { value: '1' } },
      { reference: 'urn:uuid:12' },
    ]);
  });

  it.each([
    [
      {
        resourceType: 'Procedure',
        status: 'completed',
        reasonCode: [{ text: 'a' }],
        reasonReference: [{ reference: 'Condition/1' }],
      },
      'reason',
      [{ concept: { text: 'a' } }, { reference: { reference: 'Condition/1' } }],
    ],
    [
      { resourceType: 'Device', udiCarrier: [{ deviceIdentifier: '1' }] },
      'udiCarrier',
      [
        {
          deviceIdentifier: '1',
          _issuer: {
            extension: [
              { url: 'http://hl7.org/fhir/StructureDefinition/data-absent-reason', valueCode: 'unknown' },
            ],
          },
        },
      ],
    ],
    [{ resourceType: 'Device', distinctIdentifier: 'W1234' }, 'biologicalSourceEvent', { value: 'W1234' }],
    [
      { resourceType: 'Condition', subject: { reference: 'Patient/1' } },
      'clinicalStatus',
      { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/condition-clinical', code: 'unknown' }] },
    ],
    [
      { resourceType: 'DocumentReference', status: 'current', content: [{ attachment: { size: 12 } }] },
      'content',
      [{ attachment: { size: '12' } }],
    ],
  ])('%j: %s', (resource, element, expected) => {
    expect(toR5(resource)?.resource[element]).toEqual(expected);
  });
});

describe('what nobody has written down', () => {
  it('a type is refused', () => {
    expect(toR5({ resourceType: 'MolecularSequence' })).toBeUndefined();
    expect(toR4B({ resourceType: 'MolecularSequence' })).toBeUndefined();
  });

  it('an element is named', () => {
    expect(toR5({ resourceType: 'Procedure', invented: 1 })?.unknown).toEqual(['Procedure.invented']);
  });

  it('refuses the bundle', () => {
    const bundle = {
      resourceType: 'Bundle',
      type: 'transaction',
      entry: [{ resource: { resourceType: 'MolecularSequence' } }],
    } as const;
    expect(bundleInVersion({ ...bundle, entry: [...bundle.entry] } as never, '5.0.0').refused).toEqual([
      'MolecularSequence',
    ]);
  });
});

describe.each(['5.0.0', '4.3.0'] as const)('aftercare as tasks alone, as FHIR %s', version => {
  it.each(files)('%s agrees with the structure definitions of the release', file => {
    const groups = { tasks: true, requests: false };
    const site = { ...unconfiguredSite, fhir: { ...unconfiguredSite.fhir, groups } };
    const at = destination('http://127.0.0.1:1/fhir', { fhirVersion: version });
    const { submission = '' } = submissionFor(preparedExample(file, site), at);
    const faults = releases[version]
      .validateText(submission)
      .issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')
      // R4B words ref-1 so that a reference by identifier alone gives neither true nor false; R5 mended that.
      .filter(({ message }) => !(version === '4.3.0' && message.startsWith('ref-1:')));
    expect(faults.map(({ path, message }) => `${path} ${message}`)).toEqual([]);
  });
});
