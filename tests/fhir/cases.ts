import { readdirSync, readFileSync } from 'node:fs';
import type { Bundle, DomainResource, Resource } from 'fhir/r4.js';
import { assess } from '../../src/clinical/assess.js';
import type { Assessment } from '../../src/clinical/assessment.js';
import { sectionOrder, sectionRow } from '../../src/fhir/codes/sections.js';
import { mapCase } from '../../src/fhir/map-case.js';
import type { Narrative } from '../../src/fhir/narrative.js';
import type { MappingOptions } from '../../src/fhir/options.js';
import type { CaseResource, ResourceSet } from '../../src/fhir/set.js';
import { parseCase } from '../../src/record/parse.js';
import type { CaseRecord } from '../../src/record/schema/record.js';

export const options: MappingOptions = {
  namespace: '5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11',
  identifiers: {
    case: 'https://ids.example.org/cases',
    accession: 'https://ids.example.org/accessions',
    resource: 'https://ids.example.org/casetally',
  },
  references: {
    patient: 'match',
    encounter: 'match',
    order: 'match',
    practitioner: 'include',
    organization: 'include',
    location: 'include',
  },
  organization: { name: 'Unnamed Hospital' },
  language: 'en-GB',
  softwareVersion: '0.1.0',
};

const div = (text: string) =>
  `<div xmlns="http://www.w3.org/1999/xhtml" lang="en-GB" xml:lang="en-GB"><p>${text}</p></div>`;

/** A report with a few words in each section that the table knows outside another. */
export const narrative: Narrative = {
  title: 'Procedure report',
  div: div('Whole report'),
  sections: sectionOrder
    .filter(key => sectionRow(key)?.within === undefined && key !== 'after' && key !== 'worked')
    .map(key => ({ key, div: div(key) })),
  attachments: [
    { contentType: 'text/html', title: 'Procedure report', data: '<!DOCTYPE html><p>Größe 5 µm</p>' },
    { contentType: 'application/pdf', title: 'Procedure report', data: new Uint8Array([37, 80, 68, 70]) },
  ],
};

export interface MappedCase {
  readonly record: CaseRecord;
  readonly assessment: Assessment;
  readonly set: ResourceSet;
}

/** Reads, assesses and maps a case text. */
export function mapped(text: string, over: Partial<MappingOptions> = {}): MappedCase {
  const { record, findings } = parseCase(text, { timeZone: 'Europe/Lisbon' });
  if (!record) throw new Error(JSON.stringify(findings, null, 1));
  const assessment = assess(record);
  return { record, assessment, set: mapCase(record, assessment, narrative, { ...options, ...over }) };
}

const EXAMPLES = new URL('../../examples/', import.meta.url);

/** The example cases that are free of faults. */
export const exampleNames = readdirSync(EXAMPLES)
  .filter(name => /\.(yaml|json)$/.test(name) && !/^(site|mistaken)/.test(name))
  .sort();

export const exampleText = (name: string): string => readFileSync(new URL(name, EXAMPLES), 'utf8');

/** A short case to which tests add what they are about. */
export function caseText(more = '', status = 'completed'): string {
  return `
casetally: 1
case: { id: T-1, status: ${status}, date: 2024-03-14, timeZone: Europe/Lisbon, kind: biliary drainage, started: "09:00", ended: "09:50" }
patient: { identifiers: [{ system: "urn:oid:1.2.3", value: "7" }], name: Pat Invented, birthDate: 1960 }
team: [{ key: op, role: operator, name: Dr Invented }]
indication: { text: Jaundice }
report: { status: final, author: op, signedAt: "10:30" }
${more}`;
}

/** The resource of a role, of a type. */
export function resourceOf<T extends CaseResource['resourceType']>(
  set: ResourceSet,
  role: string,
  type: T,
): Extract<CaseResource, { resourceType: T }> {
  const found = set.entries.find(entry => entry.role === role)?.resource;
  if (!found || !isOf(found, type))
    throw new Error(`no ${type} under ${role}: ${set.entries.map(e => e.role).join(' ')}`);
  return found;
}

function isOf<T extends CaseResource['resourceType']>(
  resource: CaseResource,
  type: T,
): resource is Extract<CaseResource, { resourceType: T }> {
  return resource.resourceType === type;
}

/** References of a bundle that neither resolve in it nor are of an allowed form. */
export function danglingReferences(
  bundle: Bundle,
  allowed: (reference: string) => boolean = () => false,
): string[] {
  const known = new Set((bundle.entry ?? []).map(entry => entry.fullUrl));
  const inside = new Set(
    (bundle.entry ?? []).flatMap(({ resource }) =>
      ((resource as DomainResource | undefined)?.contained ?? []).map(({ id }) => `#${id}`),
    ),
  );
  return referencesOf(bundle).filter(
    reference => !known.has(reference) && !inside.has(reference) && !allowed(reference),
  );
}

function referencesOf(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) return value.flatMap(referencesOf);
  return Object.entries(value).flatMap(([key, field]: [string, unknown]) =>
    key === 'reference' && typeof field === 'string' ? [field] : referencesOf(field),
  );
}

/** All resources of a bundle. */
export function resourcesOf(bundle: Bundle): Resource[] {
  return (bundle.entry ?? []).flatMap(entry => (entry.resource ? [entry.resource] : []));
}
