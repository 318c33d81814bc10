import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { errors, standard } from './validators.js';

const modules = new URL('../../node_modules/', import.meta.url);

function examples(folder: string, types: RegExp): string[] {
  return readdirSync(new URL(folder, modules))
    .filter(f => f.endsWith('.json') && types.test(f))
    .sort();
}

/** Published examples: each has no error, save the errors of R4 examples that are truly wrong. */
const r4Types =
  /^(AllergyIntolerance|Binary|Bundle|CarePlan|Composition|Condition|Consent|Device|DeviceUseStatement|DiagnosticReport|DocumentReference|Encounter|Flag|ImagingStudy|List|Location|Media|Medication|MedicationAdministration|Observation|OperationOutcome|Organization|Patient|Practitioner|PractitionerRole|Procedure|Provenance|ServiceRequest|Specimen|Substance|Task)-/;

/** Why an R4 example is wrong, by file: the errors it must give. */
const wrong: Readonly<Record<string, { readonly why: string; readonly errors: readonly string[] }>> =
  JSON.parse(readFileSync(new URL('r4-examples-with-errors.json', import.meta.url), 'utf8'));

describe('the 44 examples of hl7.fhir.uv.ips 2.0.0 have no error', () => {
  const files = examples('hl7.fhir.uv.ips/example', /./);
  test('all 44 are here', () => expect(files).toHaveLength(44));
  test.each(files)('%s', file => {
    const text = readFileSync(new URL(`hl7.fhir.uv.ips/example/${file}`, modules), 'utf8');
    expect(errors(standard().validateText(text))).toEqual([]);
  });
});

describe('the examples of hl7.fhir.r4.examples 4.0.1 have no error but those listed', () => {
  test.each(examples('hl7.fhir.r4.examples', r4Types))('%s', file => {
    const text = readFileSync(new URL(`hl7.fhir.r4.examples/${file}`, modules), 'utf8');
    // Bundles of definitions, several megabytes each, are not resources of the kinds that are used here.
    if (text.length > 1_000_000) return;
    expect([...new Set(errors(standard().validateText(text)))].sort()).toEqual(
      [...(wrong[file]?.errors ?? [])].sort(),
    );
  });
});
