import { describe, expect, it } from 'vitest';
import { scopesMissing } from '../../../src/delivery/auth/scopes.js';
import { typesWanted } from '../../../src/fhir/contents.js';
import { needsOf } from '../../../src/pipeline/scopes.js';
import { siteSchema, unconfiguredSite } from '../../../src/site/site.js';
import { exampleFiles, fullSite, preparedExample } from '../../support/examples.js';

const needs = new Map([
  ['Device', 'crus'],
  ['Patient', 'rs'],
]);

// Source of the spellings: SMART App Launch 2.2, scopes and launch context.
describe('scopes that were granted', () => {
  it.each([
    ['system/*.cruds', []],
    ['system/*.*', []],
    ['openid system/*.read system/*.write', []],
    ['system/Device.cruds system/Patient.rs', []],
    ['system/Device.write system/Device.read system/Patient.read', []],
    ['system/Device.cud system/Patient.rs', ['system/Device.rs']],
    ['system/*.read', ['system/Device.cu']],
    ['system/Device.crus', ['system/Patient.rs']],
    ['system/*.rs?status=active system/Device.cruds', ['system/Patient.rs']],
    ['patient/*.cruds', ['system/Device.crus', 'system/Patient.rs']],
    ['', ['system/Device.crus', 'system/Patient.rs']],
  ])('%s', (granted, missing) => {
    expect(scopesMissing(granted, needs)).toEqual(missing);
  });
});

describe('what the contents need', () => {
  it('has every type that an example sends', () => {
    const site = { ...fullSite, report: { ...fullSite.report, diagnosticReport: true } };
    const wanted = needsOf(site, 'anywhere');
    const sent = new Set(
      exampleFiles.flatMap(file =>
        JSON.parse(preparedExample(file, site).submission).entry.map(
          ({ resource }: { resource: { resourceType: string } }) => resource.resourceType,
        ),
      ),
    );
    expect(sent.size).toBeGreaterThan(15);
    expect([...sent].filter(type => wanted.get(type as string) !== 'crus')).toEqual([]);
  });

  it('is less for core, and looks up what is matched', () => {
    const matching = siteSchema.parse({
      ...{ casetallySite: 1, name: 'x', namespace: unconfiguredSite.namespace, organization: { name: 'x' } },
      references: { patient: 'match', encounter: 'identifier' },
    });
    const core = needsOf(matching, 'anywhere');
    expect([
      core.get('Patient'),
      core.get('Encounter'),
      core.get('Consent'),
      core.get('DiagnosticReport'),
    ]).toEqual(['rs', undefined, undefined, undefined]);
    expect(typesWanted({ contents: 'core', groups: { consent: true } }).has('Consent')).toBe(true);
    // What has no day goes as a request even where aftercare is kept as tasks alone.
    const alone = typesWanted({ contents: 'core', groups: { tasks: true, requests: false } });
    expect([alone.has('Task'), alone.has('ServiceRequest')]).toEqual([true, true]);
    expect(typesWanted({ contents: 'core', groups: { requests: false } }).has('ServiceRequest')).toBe(false);
  });
});
