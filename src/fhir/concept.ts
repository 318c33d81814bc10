import type { CodeableConcept, Coding } from 'fhir/r4.js';
import { rememberedOf } from '../record/remembered.js';
import type { Code, Coded } from '../record/schema/fields.js';
import { procedureNote } from './codes/document.js';
import { outcomeCodes } from './codes/procedures.js';
import { codingOf, type KnownCode } from './codes/types.js';
import type { CodeOptions, LocalCode, MappingOptions, Subject } from './options.js';
import { ownCodeSystem } from './profiles.js';
import { some } from './tidy.js';

/**
 * A concept with its text always, the record's codes, the site's local codes for that text, and a published code
 * where one is known and the record names none of that code system.
 */
export function concept(
  options: CodeOptions,
  coded: Coded | string,
  known?: KnownCode,
  what?: Subject,
): CodeableConcept {
  const { text, codes } = typeof coded === 'string' ? { text: coded, codes: [] } : coded;
  const coding: Coding[] = [...codes, ...localCodes(options, text, what)].map(codingFrom);
  if (known && mayBeSent(options, known) && !coding.some(item => item.system === known.system))
    coding.push(codingOf(known));
  return { coding: some(coding), text };
}

/** False for a code whose licence the site does not have, and for one from memory that it does not want. */
export function mayBeSent({ snomedLicence, codesFromMemory }: CodeOptions, { only }: KnownCode): boolean {
  if (only === undefined) return true;
  return (only === 'licensed' ? snomedLicence : codesFromMemory) === true;
}

/** The first of some codes, the closest first, that the site may send. */
export function firstToSend(
  options: CodeOptions,
  ...codes: readonly (KnownCode | undefined)[]
): KnownCode | undefined {
  return codes.find(code => code !== undefined && mayBeSent(options, code));
}

/** The code of our own code system for each outcome: the one that needs no licence. */
const ownOutcome = (outcome: keyof typeof outcomeCodes, base?: string): Coding => ({
  system: ownCodeSystem('outcome', base),
  code: outcome.replaceAll(' ', '-'),
  display: outcome,
});

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
  const key = text === undefined ? undefined : keysOf(table).get(text.trim().toLowerCase());
  return key === undefined ? undefined : table[key];
}

/** The keys of a code table by their small letters; the first of two that are the same. */
const keysOf = rememberedOf(
  (table: object) =>
    new Map(
      Object.keys(table)
        .toReversed()
        .map(key => [key.toLowerCase(), key]),
    ),
);

const isSame = (a: LocalCode, b: LocalCode) =>
  a.system === b.system && a.code === b.code && a.what === b.what;

const byWords = new WeakMap<object, ReadonlyMap<string, readonly LocalCode[]>>();

/** The site's codes for a text, compared without case; those for names of another kind of thing left out. */
function localCodes({ localCodes: local }: CodeOptions, text: string, what?: Subject): readonly Code[] {
  if (!local) return [];
  let known = byWords.get(local);
  if (!known) {
    const words = new Map<string, readonly LocalCode[]>();
    for (const [name, codes] of Object.entries(local)) {
      const key = name.trim().toLowerCase();
      const known = words.get(key) ?? [];
      words.set(key, [...known, ...codes.filter(code => !known.some(one => isSame(one, code)))]);
    }
    byWords.set(local, words);
    known = words;
  }
  const codes = known.get(text.trim().toLowerCase()) ?? [];
  return codes.filter(code => code.what === undefined || code.what === what);
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
