import type { CodeableConcept } from 'fhir/r4.js';

/**
 * Codes of published systems as `SYSTEM|CODE`. What else a coding says may have been typed: neither its display nor a
 * local system is sent.
 */
export function codesOf({ coding = [] }: CodeableConcept): string[] {
  return coding.flatMap(({ system, code }) =>
    system !== undefined && code !== undefined && PUBLISHED.has(system) && /^[A-Za-z\d.-]{1,20}$/.test(code)
      ? [`${system}|${code}`]
      : [],
  );
}

/** Addresses of the code systems, as HL7 lists them (from memory). */
const PUBLISHED: ReadonlySet<string> = new Set([
  'http://snomed.info/sct',
  'http://hl7.org/fhir/sid/icd-10',
  'http://hl7.org/fhir/sid/icd-10-cm',
  'http://id.who.int/icd/release/11/mms',
  'http://www.radlex.org',
]);

/** The two halves of `SYSTEM|CODE`. */
export function codingOf(text: string): { readonly system: string; readonly code: string } {
  const bar = text.lastIndexOf('|');
  return { system: text.slice(0, bar), code: text.slice(bar + 1) };
}
