import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/clinical/assess.js';
import { documentBundle } from '../../../src/fhir/bundles/document.js';
import { submissionBundle } from '../../../src/fhir/bundles/submission.js';
import { mapCase } from '../../../src/fhir/map-case.js';
import type { ResourceSet } from '../../../src/fhir/set.js';
import { parseCase, parseCaseData } from '../../../src/record/parse.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { caseText, danglingReferences, narrative, options, resourceOf } from '../cases.js';
import { fullCase } from '../full-case.js';

function map(text: string, ...earlier: readonly ResourceSet[]): ResourceSet {
  const { record, findings } = parseCase(text);
  if (!record) throw new Error(JSON.stringify(findings));
  return mapCase(record, assess(record), narrative, options, earlier);
}

function recordOf(data: unknown): CaseRecord {
  const { record, findings } = parseCaseData(data);
  if (!record) throw new Error(JSON.stringify(findings));
  return record;
}

const later = (text: string, status: string, version = 2) =>
  text.replace(
    'status: final, author: op, signedAt: "10:30"',
    `status: ${status}, version: ${version}, author: op, signedAt: "12:30", change: { of: "${version - 1}", by: op, at: "12:20", why: Put right }`,
  );

const withDrain = caseText(
  'devices: { drain: { kind: drainage catheter } }\nevents: [{ at: "09:10", do: insert, device: drain }]\nleft: [{ device: drain, latest: 2 weeks }]',
);
const without = caseText();

const stateOf = (resource: object): unknown => Reflect.get(resource, 'status');
const retired = (set: ResourceSet) => set.entries.filter(entry => entry.earlier);

describe('what a later version retires', () => {
  const first = map(withDrain);
  const second = map(later(without, 'amended'), first);

  it('is the document of the version before, and each resource that is gone', () => {
    const gone = first.entries
      .map(entry => entry.role)
      .filter(role => !second.entries.some(entry => entry.role === role && !entry.earlier));
    expect(gone).toEqual(expect.arrayContaining(['device/drain', 'use/drain']));
    expect(
      retired(second)
        .map(entry => entry.role)
        .sort(),
    ).toEqual([...gone, 'document-reference/v1'].sort());
    expect(stateOf(resourceOf(second, 'use/drain', 'DeviceUseStatement'))).toBe('entered-in-error');
    expect(stateOf(resourceOf(second, 'document-reference/v1', 'DocumentReference'))).toBe('superseded');
  });

  it('is no part of the document, and leaves no reference open', () => {
    const addresses = documentBundle(second).entry?.map(entry => entry.fullUrl) ?? [];
    for (const entry of retired(second)) expect(addresses).not.toContain(entry.fullUrl);
    const submission = submissionBundle(second, options);
    expect(danglingReferences(submission, reference => reference.startsWith('Patient?'))).toEqual([]);
    expect(new Set(submission.entry?.map(entry => entry.fullUrl)).size).toBe(submission.entry?.length);
  });

  it('keeps the identifiers under which it was sent', () => {
    const known = new Set(first.entries.map(({ identifier }) => JSON.stringify(identifier)));
    for (const { identifier } of retired(second)) expect(known).toContain(JSON.stringify(identifier));
  });

  it('says in words that it is in error, and why, before what it said', () => {
    const { text } = resourceOf(second, 'device/drain', 'Device');
    expect(text?.div).toMatch(
      /^<div xmlns="http:\/\/www.w3.org\/1999\/xhtml"><p>Entered in error<\/p><p>Put right<\/p>/,
    );
  });

  it('comes back when a third version has it again', () => {
    const third = map(later(withDrain, 'amended', 3), first, second);
    expect(stateOf(resourceOf(third, 'use/drain', 'DeviceUseStatement'))).toBe('active');
    expect(retired(third).map(entry => entry.role)).toEqual([
      'document-reference/v2',
      'document-reference/v1',
    ]);
  });

  it('keeps pointing at the people whom it was about, when a key has passed to another person', () => {
    const numbered = (text: string, value: string) =>
      text.replace(
        'name: Dr Invented',
        `name: Dr ${value}, identifier: { system: "https://ids.example.org/staff", value: ${value} }`,
      );
    const old = map(numbered(withDrain, 'S1'));
    const fresh = map(later(numbered(withDrain, 'S2'), 'amended'), old);
    const document = resourceOf(fresh, 'document-reference/v1', 'DocumentReference');
    const author = fresh.entries.find(entry => entry.fullUrl === document.author?.[0]?.reference);
    expect(author?.identifier?.value).toBe('S1');
    const current = resourceOf(fresh, 'document-reference', 'DocumentReference');
    const now = fresh.entries.find(entry => entry.fullUrl === current.author?.[0]?.reference);
    expect(now?.identifier?.value).toBe('S2');
  });

  it('is nothing at all with an addendum that has everything', () => {
    expect(retired(map(later(withDrain, 'appended'), first))).toEqual([]);
  });
});

describe('a withdrawn report of a case that has everything', () => {
  const record = recordOf({ ...fullCase, report: { ...fullCase.report, status: 'withdrawn' } });
  const set = mapCase(record, assess(record), narrative, options);
  const own = set.entries.filter(
    ({ shared, role, resource }) => !shared && role !== 'software' && resource.resourceType !== 'Provenance',
  );

  it.each([...new Set(own.map(({ resource }) => resource.resourceType))])('%s says so', type => {
    for (const { resource } of own.filter(entry => entry.resource.resourceType === type)) {
      const { resourceType } = resource;
      if (resourceType === 'BodyStructure' || resourceType === 'PractitionerRole')
        expect(resource.active).toBe(false);
      else if (resourceType === 'Condition' || resourceType === 'AllergyIntolerance') {
        expect(resource.verificationStatus?.coding?.[0]?.code).toBe('entered-in-error');
        // FHIR R4 con-5 and ait-2.
        expect(resource.clinicalStatus).toBeUndefined();
      } else if (resourceType === 'AdverseEvent') {
        // FHIR R4 has no status for it: its narrative says so.
        expect(JSON.stringify(resource.text)).toMatch(/entered in error/i);
      } else expect(stateOf(resource)).toBe('entered-in-error');
    }
  });

  it('covers the types that the mapping knows', () => {
    const types = new Set(own.map(({ resource }) => resource.resourceType));
    for (const type of [
      'AllergyIntolerance',
      'BodyStructure',
      'CarePlan',
      'Condition',
      'Consent',
      'Specimen',
      'Task',
    ])
      expect([...types]).toContain(type);
  });

  it('leaves what other systems keep as it is', () => {
    const before = mapCase(recordOf(fullCase), assess(recordOf(fullCase)), narrative, options);
    for (const entry of set.entries.filter(({ shared }) => shared))
      expect(entry.resource).toEqual(before.entries.find(({ role }) => role === entry.role)?.resource);
  });
});
