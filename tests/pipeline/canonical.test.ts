import { gunzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { createValidator } from '../../src/conformance/index.js';
import { shelfOf } from '../../src/conformance/packages/shelf.js';
import { readTar } from '../../src/conformance/packages/tar.js';
import { OWN_BASE } from '../../src/fhir/profiles.js';
import { checkCase } from '../../src/pipeline/check.js';
import { definitionsUnder } from '../../src/pipeline/definitions.js';
import { submissionFor } from '../../src/pipeline/in-version.js';
import { ownPackage, publishedPackage } from '../../src/pipeline/own-package.js';
import type { PreparedCase } from '../../src/pipeline/prepare.js';
import { prepareCase } from '../../src/pipeline/prepare.js';
import { loadTools } from '../../src/pipeline/tools.js';
import { registryEntries } from '../../src/registry/entry/entries.js';
import { registrySchema } from '../../src/registry/options.js';
import { siteSchema, unconfiguredSite } from '../../src/site/site.js';
import { destination } from '../delivery/samples.js';
import { exampleText } from '../support/examples.js';

// The site of the tests stands for a hospital with an address of its own.
const canonical = 'https://fhir.tidewater-bay.internal/casetally';
const site = { ...unconfiguredSite, fhir: { ...unconfiguredSite.fhir, canonical } };
const { record, assessment } = checkCase(exampleText('nephrostomy-exchange-transplant.yaml'), site);
if (!record || !assessment) throw new Error('the example is not whole');
const errors = (found: readonly { readonly severity: string }[]) =>
  found.filter(({ severity }) => severity === 'error' || severity === 'fatal');

describe('profiles under the address of the site', () => {
  let prepared: PreparedCase;
  beforeAll(() => {
    prepared = prepareCase(record, assessment, site, loadTools('0.1.0', { canonical }));
  });

  it('are what document and submission claim and are checked by, and nothing else changes', () => {
    const plain = prepareCase(record, assessment, unconfiguredSite, loadTools('0.1.0'));
    for (const key of ['document', 'submission'] as const) {
      expect(prepared[key]).not.toContain(OWN_BASE);
      expect(prepared[key]).toContain(`"${canonical}/StructureDefinition/`);
      expect(prepared[key].replaceAll(canonical, OWN_BASE)).toBe(plain[key]);
    }
    expect(prepared.findings.map(f => f.code)).toEqual(plain.findings.map(f => f.code));
  });

  it('still ask what they ask', () => {
    const validator = createValidator(definitionsUnder(canonical));
    const broken = prepared.document.replaceAll(/"focalDevice": \[/g, '"usedDevice": [');
    const { profiles } = validator.validateText(prepared.document).evaluated;
    expect(profiles.some(one => one.startsWith(`${canonical}/StructureDefinition/procedure-report`))).toBe(
      true,
    );
    expect(errors(validator.validateText(prepared.document).issues)).toEqual([]);
    expect(errors(validator.validateText(broken).issues)).not.toEqual([]);
    const task = {
      resourceType: 'Task',
      meta: { profile: [`${canonical}/StructureDefinition/aftercare-task`] },
    };
    const rules = validator.validateResource({ ...task, status: 'requested', intent: 'order' }).issues;
    expect(errors(rules).length).toBeGreaterThan(3);
  });

  it('are dropped for a server that takes the published ones alone', () => {
    const at = destination('http://127.0.0.1:1/fhir', { profiles: 'base' });
    const { submission } = submissionFor(prepared, at);
    expect(submission).not.toContain(`${canonical}/StructureDefinition/`);
    expect(submission).toContain('http://hl7.org/fhir/uv/ips/StructureDefinition/');
  });

  it('stand in registry entries too', () => {
    const options = registrySchema.parse({ name: 'Registry' });
    const key = { id: 'k1', secret: new TextEncoder().encode('a secret for trying out') };
    const { entries } = registryEntries(record, assessment, { ...options, canonical }, key);
    expect(entries.length).toBeGreaterThan(0);
    const text = JSON.stringify(entries.map(({ resource }) => resource));
    expect(text).toContain(`${canonical}/CodeSystem/device-action`);
    expect(text).not.toContain(OWN_BASE);
  });

  it('are what is pushed and written, with everything that they refer to', () => {
    const pushed = JSON.stringify(ownPackage('0.1.0', canonical));
    expect(pushed).not.toContain(OWN_BASE);
    expect(pushed).toContain(`${canonical}/ValueSet/`);
    const files = readTar(gunzipSync(publishedPackage(canonical)));
    const texts = files.map(({ name, bytes }) => [name, Buffer.from(bytes).toString('utf8')] as const);
    for (const [name, text] of texts) expect([name, text.includes(OWN_BASE)]).toEqual([name, false]);
    // Whoever loads the package without ours built in can check a case by it.
    const resources = texts.flatMap(([name, text]) =>
      /^package\/[A-Z].*\.json$/.test(name) ? [JSON.parse(text) as object] : [],
    );
    const definitions = definitionsUnder('https://nowhere.invalid').with(
      shelfOf({ name: 'casetally.profiles', version: '0.1.0' }, resources),
    );
    expect(errors(createValidator(definitions).validateText(prepared.document).issues)).toEqual([]);
  });
});

describe('the setting', () => {
  const parse = (value: string) =>
    siteSchema.safeParse({
      casetallySite: 1,
      name: 'site',
      namespace: '7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a01',
      organization: { name: 'Site' },
      fhir: { canonical: value },
    });
  it('takes an address, whatever stands at its end', () =>
    expect(parse('https://fhir.hospital.org/casetally//').data?.fhir.canonical).toBe(
      'https://fhir.hospital.org/casetally',
    ));
  it.each([
    'hospital',
    'urn:oid:1.2.3',
    'ftp://fhir.hospital.org',
    'https://a.org/x?y=1',
    'https://a.org/x|1',
    'https://a.org/#x',
  ])('refuses %s', value => expect(parse(value).success).toBe(false));
});
