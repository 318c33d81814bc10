import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { modules, type Site, sitesOf } from './definitions.js';
import { itemsAt, type JsonObject } from './json.js';

/** One unbroken resource of the corpus. */
export interface Example {
  /** `ips/Device-eumfh-70-275-1`: package and file. */
  readonly id: string;
  readonly type: string;
  readonly text: string;
  readonly json: JsonObject;
  /** Profiles the resource claims in `meta.profile`, anywhere inside for a Bundle. */
  readonly profiles: readonly string[];
  readonly sites: readonly Site[];
}

/** Resource types a procedure submission carries or touches. */
const types = new Set(
  `AdverseEvent AllergyIntolerance Appointment Basic BodyStructure Bundle CarePlan CareTeam ClinicalImpression
  Communication Composition Condition Consent Coverage Device DeviceRequest DeviceUseStatement DiagnosticReport
  DocumentReference Encounter Endpoint Flag Goal Group ImagingStudy Immunization List Location Media Medication
  MedicationAdministration MedicationRequest MedicationStatement Observation OperationOutcome Organization Patient
  Practitioner PractitionerRole Procedure Provenance QuestionnaireResponse RelatedPerson Schedule ServiceRequest
  Slot Specimen Substance Task`.split(/\s+/),
);

/** Above this the examples are definition collections and whole genomes, which teach nothing more about rules. */
const largest = 120_000;

/** Examples of the published IPS and R4 examples packages. */
export function publishedExamples(): Example[] {
  return [
    ...fromFolder('ips', join(modules, 'hl7.fhir.uv.ips/example')),
    ...fromFolder('r4', join(modules, 'hl7.fhir.r4.examples')),
  ];
}

function fromFolder(source: string, folder: string): Example[] {
  return readdirSync(folder)
    .filter(name => name.endsWith('.json') && types.has(name.slice(0, name.indexOf('-'))))
    .sort()
    .flatMap(name => load(`${source}/${name.slice(0, -5)}`, join(folder, name)));
}

function load(id: string, file: string): Example[] {
  const text = readFileSync(file, 'utf8');
  return text.length > largest ? [] : [example(id, text)];
}

export function example(id: string, text: string): Example {
  const json = JSON.parse(text) as JsonObject;
  const resources = [json, ...itemsAt(json, 'entry').map(entry => (entry as JsonObject)['resource'] ?? null)];
  return {
    id,
    type: String(json['resourceType']),
    text,
    json,
    profiles: [
      ...new Set(resources.flatMap(r => itemsAt((r as JsonObject | null)?.['meta'], 'profile')).map(String)),
    ],
    sites: sitesOf(json),
  };
}
