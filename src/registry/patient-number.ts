import type { CaseRecord } from '../record/schema/record.js';
import type { RegistryOptions } from './options.js';

/** A number of a patient, as pseudonyms are made of it. */
export interface PatientNumber {
  readonly system: string;
  readonly value: string;
}

/**
 * The number that stands for the patient: the one of the system that the registry's settings name, or the only one. A
 * number is never chosen by its place in the record. Undefined when the settings leave it open.
 */
export function patientNumber(
  { patient: { identifiers } }: CaseRecord,
  { patientSystem }: Pick<RegistryOptions, 'patientSystem'>,
): PatientNumber | undefined {
  const numbers = distinctNumbers(
    identifiers.filter(({ system }) => patientSystem === undefined || system === patientSystem),
  );
  return numbers.length === 1 ? numbers[0] : undefined;
}

/** One number however it was spaced; small and capital letters stay apart, as a system may tell them apart. */
export function normalNumber({ system, value }: PatientNumber): PatientNumber {
  return { system, value: value.normalize('NFKC').replace(/[\s\u200b-\u200d\u2060\ufeff]+/gu, '') };
}

/** Each number once, as `normalNumber` writes it. */
export const distinctNumbers = (numbers: readonly PatientNumber[]): PatientNumber[] => [
  ...new Map(numbers.map(normalNumber).map(one => [JSON.stringify([one.system, one.value]), one])).values(),
];
