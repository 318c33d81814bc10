import type { CodeableConcept, Coding } from 'fhir/r4.js';
import type { Code, Coded } from '../record/schema/fields.js';
import { outcomeCodes, ownOutcome } from './codes/procedures.js';
import { procedureNote } from './codes/sections.js';
import { codingOf, type KnownCode } from './codes/types.js';
import type { MappingOptions } from './options.js';
import { some } from './tidy.js';

/**
 * A concept with its text always, the record's codes, the site's local codes for that text, and a published code
 * where one is known and the record names none of that code system.
 */
export function concept(options: MappingOptions, coded: Coded | string, known?: KnownCode): CodeableConcept {
  const { text, codes } = typeof coded === 'string' ? { text: coded, codes: [] } : coded;
  const coding: Coding[] = [...codes, ...localCodes(options, text)].map(codingFrom);
  if (known && mayBeSent(options, known) && !coding.some(item => item.system === known.system))
    coding.push(codingOf(known));
  return { coding: some(coding), text };
}

/** False for a code whose licence the site does not have. */
export function mayBeSent({ snomedLicence }: MappingOptions, { licensed }: KnownCode): boolean {
  return !licensed || snomedLicence === true;
}

/** How a case or a target turned out: in our own code system, and in SNOMED CT where the site has a licence. */
export function outcomeConcept(
  options: MappingOptions,
  outcome: keyof typeof outcomeCodes,
  text: string = outcome,
): CodeableConcept {
  const known = outcomeCodes[outcome];
  const coding = [
    ownOutcome(outcome, options.canonical),
    ...(mayBeSent(options, known) ? [codingOf(known)] : []),
  ];
  return { coding, text };
}

/** A concept of a code table alone, by its text where the site has no licence for the code. */
export function licensedConcept(
  options: MappingOptions,
  known: KnownCode,
  text: string = known.display,
): CodeableConcept {
  return mayBeSent(options, known) ? knownConcept(known, text) : { text };
}

/** A concept of a code table alone. */
export function knownConcept(known: KnownCode, text: string = known.display): CodeableConcept {
  return { coding: [codingOf(known)], text };
}

/** The entry of a code table under a name, compared without case. */
export function knownBy<T>(table: Readonly<Record<string, T>>, text: string | undefined): T | undefined {
  const wanted = text?.trim().toLowerCase();
  return Object.entries(table).find(([key]) => key.toLowerCase() === wanted)?.[1];
}

function localCodes(options: MappingOptions, text: string): readonly Code[] {
  const wanted = text.trim().toLowerCase();
  return Object.entries(options.localCodes ?? {}).flatMap(([name, codes]) =>
    name.trim().toLowerCase() === wanted ? codes : [],
  );
}

function codingFrom(code: Code): Coding {
  return { system: code.system, version: code.version, code: code.code, display: code.display };
}

/** What kind of document the report is: the site's type, or LOINC's procedure note. */
export function documentType(options: MappingOptions, title: string): CodeableConcept {
  return {
    coding: [options.documentType ? { ...options.documentType } : codingOf(procedureNote)],
    text: title,
  };
}
