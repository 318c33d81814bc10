import type { CodeableConcept, Device, Extension, Patient, Procedure } from 'fhir/r4.js';
import { Temporal } from 'temporal-polyfill';
import type { DeviceDetails } from '../devices/types.js';
import { ownCodeSystem, ownProfile } from '../fhir/profiles.js';
import { entriesOf } from '../record/entries.js';
import type { CaseRecord } from '../record/schema/record.js';
import { caseKindNamed } from '../trade/cases/table.js';
import type { AllowedDetails } from './allowed.js';
import type { PseudonymKey, RegistryOptions } from './options.js';
import { pseudonym } from './pseudonym.js';

/** The grades of each published scale; anything else in that field is not sent. */
const scaleGrades: Readonly<Record<string, RegExp>> = {
  'CIRSE 2017': /^[1-6]$/,
  'CIRSE 2025': /^(?:1[ab]|2|3[ab]|[4-6])$/,
  'SIR 2017': /^[1-5]$/,
  'Clavien-Dindo': /^(?:I|II|IIIa|IIIb|IVa|IVb|V)d?$/,
};

/** What a case says of complications: none is another answer than no answer. */
export const complicationAnswers = ['none', 'graded', 'ungraded', 'not recorded'] as const;

/** The patient of an entry: sex and age group. */
export function patientOf(record: CaseRecord, options: RegistryOptions): Patient {
  const age = ageOn(record);
  const group = age === undefined || options.ages === 'leave out' ? undefined : ageGroup(age, options.ages);
  return {
    resourceType: 'Patient',
    id: 'patient',
    ...(record.patient.sex && { gender: record.patient.sex }),
    ...(group && {
      extension: [{ url: ownProfile('age-group', options.canonical), valueString: group }],
    }),
  };
}

/** Age in whole years on the day of the case; undefined unless the birth date is given to the day. */
function ageOn(record: CaseRecord): number | undefined {
  const birth = record.patient.birthDate;
  if (birth?.precision !== 'day') return undefined;
  return Temporal.PlainDate.from(birth.iso).until(Temporal.PlainDate.from(record.case.date), {
    largestUnit: 'years',
  }).years;
}

/** `45-49`, or the year itself where agreed; everyone over 89 is in one group, as small numbers there point at people. */
export function ageGroup(age: number, ages: 'five years' | 'years'): string {
  if (age > 89) return '90+';
  if (ages === 'years') return String(age);
  const low = Math.floor(age / 5) * 5;
  return `${low}-${low + 4}`;
}

/** The device of an entry, with what may be named of it. */
export function deviceOf(
  details: DeviceDetails,
  may: AllowedDetails,
  options: RegistryOptions,
  key: PseudonymKey,
): Device {
  const serial =
    options.serials === 'pseudonym' && details.serial !== undefined
      ? pseudonym(key, 'serial', `${details.di ?? ''}\u0000${details.serial}`)
      : may.serial;
  return {
    resourceType: 'Device',
    id: 'device',
    ...(may.di !== undefined && {
      udiCarrier: [
        { deviceIdentifier: may.di, ...(details.label?.issuerUri && { issuer: details.label.issuerUri }) },
      ],
    }),
    ...(may.maker !== undefined && { manufacturer: may.maker }),
    ...(may.lot !== undefined && { lotNumber: may.lot }),
    ...(serial !== undefined && { serialNumber: serial }),
    ...(may.model !== undefined && { modelNumber: may.model }),
    ...(may.reference !== undefined && { partNumber: may.reference }),
    type: {
      coding: [{ system: ownCodeSystem('device-family', options.canonical), code: details.family }],
    },
  };
}

const codeOf = (text: string) => text.replaceAll(' ', '-');

/** The kinds that a registry hears of a case as it is written, the first named first; empty where none is known. */
export function registeredKinds(kind: string): string[] {
  return [...new Set((caseKindNamed(kind)?.rows ?? []).map(({ registry }) => registry))];
}

const STATUS = { completed: 'completed', 'stopped early': 'stopped', 'not done': 'not-done' } as const;

/** The case of an entry: kind, date at the agreed precision, outcome and complications, all as codes. */
export function procedureOf(
  record: CaseRecord,
  kinds: readonly string[],
  options: RegistryOptions,
  key: PseudonymKey,
): Procedure {
  const kindCoding = (kind: string) => ({
    system: ownCodeSystem('case-kind', options.canonical),
    code: codeOf(kind),
    display: kind,
  });
  const [first, ...further] = kinds;
  const { answer, grades } = complicationsOf(record, options);
  const extension: Extension[] = [
    ...further.map(kind => ({
      url: ownProfile('also-done', options.canonical),
      valueCoding: kindCoding(kind),
    })),
    { url: ownProfile('complications', options.canonical), valueCode: codeOf(answer) },
  ];
  return {
    resourceType: 'Procedure',
    id: 'procedure',
    extension,
    identifier: [{ system: options.pseudonymSystem, value: casePseudonym(record, key) }],
    status: record.report.status === 'withdrawn' ? 'entered-in-error' : STATUS[record.case.status],
    ...(first !== undefined && { code: { coding: [kindCoding(first)] } }),
    subject: { reference: '#patient' },
    performedDateTime: cut(record.case.date, options.dates),
    ...(record.outcome && {
      outcome: {
        coding: [
          { system: ownCodeSystem('outcome', options.canonical), code: codeOf(record.outcome.overall) },
        ],
      },
    }),
    ...(grades.length > 0 && { complication: grades }),
  };
}

/** The number that a case goes by at a registry, which the site alone can lead back to its own. */
export const casePseudonym = (record: CaseRecord, key: PseudonymKey): string =>
  pseudonym(key, 'case', record.case.id);

function complicationsOf(
  { complications }: CaseRecord,
  options: RegistryOptions,
): { readonly answer: (typeof complicationAnswers)[number]; readonly grades: CodeableConcept[] } {
  const system = ownCodeSystem('adverse-event-scale', options.canonical);
  const all = entriesOf(complications);
  const grades = all.flatMap(({ grade }) =>
    grade && scaleGrades[grade.scale]?.test(grade.grade)
      ? [{ coding: [{ system, code: codeOf(`${grade.scale} ${grade.grade}`) }] }]
      : [],
  );
  if (complications === undefined) return { answer: 'not recorded', grades };
  if (all.length === 0) return { answer: 'none', grades };
  return { answer: grades.length === all.length ? 'graded' : 'ungraded', grades };
}

/** Cuts an ISO date or dateTime to the agreed precision. */
export function cut(iso: string, dates: RegistryOptions['dates']): string {
  return iso.slice(0, { year: 4, month: 7, day: 10 }[dates]);
}
