import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../src/devices/labels/decode.js';
import { mappingIssuerUris } from '../../src/devices/labels/issuers.js';
import type { DeviceDetails } from '../../src/devices/types.js';
import { documentBundle } from '../../src/fhir/bundles/document.js';
import { submissionBundle } from '../../src/fhir/bundles/submission.js';
import { udiCarrierOf } from '../../src/fhir/resources/udi.js';
import { caseText, mapped, options, resourceOf } from './cases.js';

/*
 * Traps of FHIR R4, each read in the definitions of the package hl7.fhir.r4.examples 4.0.1
 * (StructureDefinition-*.json, ValueSet-*.json, CodeSystem-*.json).
 */
interface Node {
  readonly [key: string]: unknown;
}
const definition = (file: string): Node =>
  JSON.parse(
    readFileSync(new URL(`../../node_modules/hl7.fhir.r4.examples/${file}.json`, import.meta.url), 'utf8'),
  );
const text = (file: string) => JSON.stringify(definition(file));
const codesOf = (file: string): string[] =>
  [...text(file).matchAll(/"code":"([^"]+)"/g)].map(found => found[1] ?? '');

const DRAIN = `
targets: { duct: { what: common bile duct } }
devices:
  needle: { kind: access needle, size: 21 G }
  drain: { kind: drainage catheter, size: 8.5 Fr, label: "(01)09506000117843(17)261231(10)1234AB" }
  spare: { kind: drainage catheter, size: 8.5 Fr, label: "(01)09506000117843(17)261231(10)1234AB", use: opened unused }
  second: { kind: drainage catheter, size: 8.5 Fr, label: "(01)09506000117843(17)261231(10)1234AB" }
  old: { kind: drainage catheter, size: 8 Fr, carried: { date: 2024-01 } }
events:
  - { at: "09:04", do: puncture, device: needle }
  - { at: "09:05", do: remove, device: needle }
  - { at: "09:06", do: insert, device: drain, across: duct }
  - { at: "09:07", do: remove, device: old }
  - { at: "09:08", do: insert, device: second }
  - { at: "09:09", do: remove, device: second, result: would not lie well }
left: [{ device: drain, purpose: temporary, latest: 12 weeks }]
aftercare: [{ do: Flush, device: drain, by: ward, due: 2 days }]
`;

describe('issuer addresses (two spellings in R4)', () => {
  it('are both in the Device definition', () => {
    const found = text('StructureDefinition-Device');
    expect(found).toContain('http://hl7.org/fhir/NamingSystem/gs1-di');
    expect(found).toMatch(/http:\/\/hl7\.org\/fhir\/NamingSystem\/gs1[^-]/);
  });

  const device = (over: object) => resourceOf(mapped(caseText(DRAIN), over).set, 'device/drain', 'Device');

  it('are written in the spelling of the element definition, or that of the mapping where the site says so', () => {
    expect(device({}).udiCarrier?.[0]?.issuer).toBe('http://hl7.org/fhir/NamingSystem/gs1-di');
    expect(device({ issuerUris: mappingIssuerUris }).udiCarrier?.[0]?.issuer).toBe(
      'http://hl7.org/fhir/NamingSystem/gs1',
    );
  });
});

describe('udiCarrier', () => {
  const details = (label: string, entry: 'scan' | 'typed'): DeviceDetails => {
    const decoded = decodeLabel(label, { today: '2024-03-14', entry });
    return {
      key: 'x',
      entry: { kind: 'stent', label },
      kind: 'stent',
      traits: new Set(),
      family: 'stent',
      name: 'stent',
      said: { device: 'stent' },
      called: { device: 'stent' },
      ...(decoded.di !== undefined && { di: decoded.di }),
      label: decoded,
      implant: true,
      count: 1,
      carried: false,
    };
  };

  it('has the identifier alone in deviceIdentifier, and the readable form', () => {
    const carrier = udiCarrierOf(details('(01)09506000117843(17)261231(10)1234AB', 'typed'), options);
    expect(carrier).toMatchObject({
      deviceIdentifier: '09506000117843',
      carrierHRF: '(01)09506000117843(17)261231(10)1234AB',
      entryType: 'manual',
    });
    expect(carrier?.carrierAIDC).toBeUndefined();
  });

  it('has the scanned bytes in base64, separators and all, when the label came from a scanner', () => {
    const scan = ']d2010950600011784310A213B1\u001d211234';
    const carrier = udiCarrierOf(details(scan, 'scan'), options);
    expect(Buffer.from(carrier?.carrierAIDC ?? '', 'base64').toString('latin1')).toContain('\u001d');
    expect(carrier?.entryType).toBe('barcode');
  });

  it('says the jurisdiction only when the site does', () => {
    const label = details('(01)09506000117843(10)A', 'typed');
    expect(udiCarrierOf(label, options)?.jurisdiction).toBeUndefined();
    expect(udiCarrierOf(label, { ...options, jurisdiction: 'urn:x' })?.jurisdiction).toBe('urn:x');
  });
});

describe('focalDevice', () => {
  const { set } = mapped(caseText(DRAIN), { snomedLicence: true });
  const procedure = resourceOf(set, 'procedure', 'Procedure');
  const url = (role: string) => set.entries.find(entry => entry.role === role)?.fullUrl;
  const actions = new Map(
    (procedure.focalDevice ?? []).map(focal => [
      focal.manipulated.reference,
      (focal.action?.coding ?? []).map(({ system, code }) => `${system}|${code}`),
    ]),
  );

  it('is coded twice: SNOMED CT of the preferred value set beside the code system of the standard', () => {
    expect(text('ValueSet-device-action')).toContain('http://snomed.info/sct');
    expect(text('ValueSet-device-action')).not.toContain('"implanted"');
    expect(actions.get(url('device/drain'))).toEqual([
      'http://snomed.info/sct|257867005',
      'http://hl7.org/fhir/device-action|implanted',
    ]);
    expect(actions.get(url('device/old'))).toEqual([
      'http://snomed.info/sct|129303008',
      'http://hl7.org/fhir/device-action|explanted',
    ]);
  });

  it('holds what was implanted or explanted; usedReference what was used; neither what was wasted', () => {
    expect([...actions.keys()]).toEqual([url('device/drain'), url('device/old')]);
    expect((procedure.usedReference ?? []).map(({ reference }) => reference)).toEqual([
      url('device/needle'),
      url('device/second'),
    ]);
  });

  it('is reached from the DeviceUseStatement too, since focalDevice has no search parameter', () => {
    const use = resourceOf(set, 'use/drain', 'DeviceUseStatement');
    expect(use.derivedFrom?.map(({ reference }) => reference)).toEqual([
      url('procedure'),
      url('procedure/placement/drain'),
    ]);
    expect(use.device.reference).toBe(url('device/drain'));
  });
});

describe('statuses', () => {
  it('Device.status is of its own code system and never says implanted', () => {
    const allowed = codesOf('CodeSystem-device-status');
    expect(allowed).not.toContain('implanted');
    const { set } = mapped(caseText(DRAIN));
    const status = (key: string) => resourceOf(set, `device/${key}`, 'Device').status;
    expect(['drain', 'old', 'spare', 'second', 'needle'].map(status)).toEqual([
      'active',
      'inactive',
      'inactive',
      'inactive',
      'inactive',
    ]);
    for (const key of ['drain', 'old']) expect(allowed).toContain(status(key));
  });

  it('DeviceUseStatement is active for what is inside and completed for what came out', () => {
    const { set } = mapped(caseText(DRAIN));
    expect(resourceOf(set, 'use/drain', 'DeviceUseStatement')).toMatchObject({
      status: 'active',
      timingPeriod: { start: '2024-03-14T09:06:00+00:00' },
    });
    expect(resourceOf(set, 'use/old', 'DeviceUseStatement')).toMatchObject({
      status: 'completed',
      timingPeriod: { start: '2024-01', end: '2024-03-14T09:07:00+00:00' },
    });
    expect(set.entries.some(entry => entry.role === 'use/spare')).toBe(false);
  });

  it.each([
    ['completed', 'completed'],
    ['stopped early, reason: { text: pain }', 'stopped'],
    ['not done, reason: { text: no access }', 'not-done'],
  ])('Procedure of a case that was %s is %s', (said, status) => {
    const { set } = mapped(caseText('', said));
    const procedure = resourceOf(set, 'procedure', 'Procedure');
    expect(procedure.status).toBe(status);
    expect(codesOf('CodeSystem-event-status')).toContain(status);
    expect(procedure.statusReason !== undefined).toBe(status !== 'completed');
  });

  it.each([
    ['preliminary', 'preliminary', 'current'],
    ['final', 'final', 'current'],
    ['amended', 'amended', 'current'],
    ['appended', 'amended', 'current'],
    ['withdrawn', 'entered-in-error', 'entered-in-error'],
  ])('Composition and DocumentReference of a report that is %s are %s', (said, status, reference) => {
    expect(codesOf('CodeSystem-composition-status')).toContain(status);
    const { set } = mapped(caseText().replace('status: final', `status: ${said}`));
    expect(resourceOf(set, 'composition', 'Composition').status).toBe(status);
    const document = resourceOf(set, 'document-reference', 'DocumentReference');
    expect([document.status, document.docStatus]).toEqual([reference, status]);
  });
});

describe('code currency', () => {
  it('placement of a stent is not the code that left the international edition', () => {
    // 103716009 is in the Global Patient Set of 2020; current DICOM code lists have 1296925008 in its place.
    const { set } = mapped(
      caseText(`
devices: { stent: { kind: biliary stent, size: 10 mm x 60 mm } }
events: [{ at: "09:10", do: deploy, device: stent }]
left: [{ device: stent, purpose: intended }]`),
      { snomedLicence: true, codesFromMemory: true },
    );
    const codes = resourceOf(set, 'procedure/placement/stent', 'Procedure').code?.coding?.map(
      ({ code }) => code,
    );
    expect(codes).toEqual(['1296925008']);
  });
});

describe('instances', () => {
  it('two devices with the same identifier and lot stay two', () => {
    const { set } = mapped(caseText(DRAIN));
    const first = resourceOf(set, 'device/drain', 'Device');
    const second = resourceOf(set, 'device/second', 'Device');
    expect(first.lotNumber).toBe(second.lotNumber);
    expect(first.identifier?.[0]?.value).not.toBe(second.identifier?.[0]?.value);
  });
});

describe('computed values', () => {
  it('are proposals, what a person wrote is a plan, and neither is an order', () => {
    const { set } = mapped(caseText(DRAIN));
    const intents = set.entries.flatMap(({ role, resource }) =>
      resource.resourceType === 'ServiceRequest' || resource.resourceType === 'CarePlan'
        ? [[role, resource.intent]]
        : [],
    );
    expect(intents).toEqual([
      ['aftercare/aftercare-1', 'plan'],
      ['aftercare/left-1', 'proposal'],
      ['aftercare', 'proposal'],
    ]);
  });

  it('give a due date that was counted as a date, and say how it was counted', () => {
    const item = resourceOf(mapped(caseText(DRAIN)).set, 'aftercare/left-1', 'ServiceRequest');
    expect(item.occurrencePeriod).toEqual({ start: undefined, end: '2024-06-06' });
    expect(item.note?.map(note => note.text).join()).toContain('12 weeks, counted from the day of the case');
  });
});

describe('dates', () => {
  it('stay as partial as they were written', () => {
    const { set } = mapped(caseText(DRAIN));
    expect(resourceOf(set, 'patient', 'Patient').birthDate).toBe('1960');
    expect(resourceOf(set, 'use/old', 'DeviceUseStatement').timingPeriod?.start).toBe('2024-01');
  });

  it('with a time carry seconds and an offset', () => {
    const whole = JSON.stringify(documentBundle(mapped(caseText(DRAIN)).set));
    const times = [...whole.matchAll(/"(\d{4}-\d{2}-\d{2}T[^"]*)"/g)].map(found => found[1] ?? '');
    expect(times.length).toBeGreaterThan(10);
    for (const time of times) expect(time).toMatch(/T\d{2}:\d{2}:\d{2}([+-]\d{2}:\d{2}|Z)$/);
  });
});

describe('a changed report', () => {
  const first = mapped(caseText()).set;
  const second = mapped(
    caseText()
      .replace('status: final', 'status: amended, version: 2')
      .replace(
        'signedAt: "10:30"',
        'signedAt: "12:30", change: { of: "1", by: op, at: "12:20", why: Side corrected }',
      ),
  ).set;

  it('keeps the identifier of the Composition and takes a new one for document and DocumentReference', () => {
    const composition = (set: typeof first) => resourceOf(set, 'composition', 'Composition');
    expect(composition(second).identifier).toEqual(composition(first).identifier);
    expect(composition(second).relatesTo).toEqual([
      { code: 'replaces', targetIdentifier: documentBundle(first).identifier },
    ]);
    expect(documentBundle(second).identifier).not.toEqual(documentBundle(first).identifier);
    const before = resourceOf(first, 'document-reference', 'DocumentReference');
    const after = resourceOf(second, 'document-reference', 'DocumentReference');
    expect(after.relatesTo?.[0]?.target.identifier).toEqual(before.identifier?.[0]);
    expect(after.masterIdentifier).toEqual(documentBundle(second).identifier);
  });

  it('is sent as updates by identifier; the first one as creates', () => {
    const methods = (set: typeof first) =>
      new Set(submissionBundle(set, options).entry?.map(entry => `${entry.request?.method}`));
    expect([...methods(first)]).toEqual(['POST']);
    const requests = submissionBundle(second, options).entry?.map(entry => entry.request) ?? [];
    expect(requests.filter(request => request?.method === 'PUT').length).toBeGreaterThan(3);
    for (const request of requests)
      if (request?.method === 'PUT') expect(request.url).toMatch(/^\w+\?(identifier|_tag)=[^|&]+\|[^|&]+$/);
  });
});
