import { Temporal } from 'temporal-polyfill';
import { conditionConcept } from '../../fhir/concepts.js';
import type { CodeOptions } from '../../fhir/options.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { caseKindNamed } from '../../trade/cases/table.js';
import type { PseudonymKey, RegistryOptions } from '../options.js';
import { pseudonym } from '../pseudonym.js';
import { codesOf } from './codes.js';
import type { AskedElement, EntryElements } from './elements.js';

/** The grades of each published scale; anything else in that field is not sent. */
const scaleGrades: Readonly<Record<string, RegExp>> = {
  'CIRSE 2017': /^[1-6]$/,
  'CIRSE 2025': /^(?:1[ab]|2|3[ab]|[4-6])$/,
  'SIR 2017': /^[1-5]$/,
  'Clavien-Dindo': /^(?:I|II|IIIa|IIIb|IVa|IVb|V)d?$/,
};

/** What the elements of a case are made with. */
export interface CaseContext {
  readonly options: RegistryOptions;
  readonly key: PseudonymKey;
  /** What a definition asks for beyond the narrowest entry. */
  readonly asked: ReadonlySet<AskedElement>;
  /** Which codes may be sent; none are without. */
  readonly codes?: CodeOptions | undefined;
  /** Name or number of the unit, of which its pseudonym is made. */
  readonly unit?: string | undefined;
  /** Kinds that the registry hears of. */
  readonly kinds: readonly string[];
  /** Pseudonym of the patient. */
  readonly patient: string;
}

type CaseElements = Pick<
  EntryElements,
  | 'patient'
  | 'sex'
  | 'ageGroup'
  | 'case'
  | 'caseKind'
  | 'caseStatus'
  | 'date'
  | 'outcome'
  | 'complications'
  | 'grades'
  | 'indication'
  | 'unit'
  | 'operator'
>;

const STATUS = { completed: 'completed', 'stopped early': 'stopped', 'not done': 'not-done' } as const;

/** What all entries of a case say. */
export function caseElements(record: CaseRecord, context: CaseContext): CaseElements {
  const { options, key, asked, kinds, patient, unit } = context;
  const age = ageOn(record);
  const group = age === undefined || options.ages === 'leave out' ? undefined : ageGroup(age, options.ages);
  const indication = asked.has('indication') ? indicationOf(record, context) : [];
  const operator = asked.has('operator') ? operatorOf(record) : undefined;
  return {
    patient,
    ...(record.patient.sex && { sex: record.patient.sex }),
    ...(group !== undefined && { ageGroup: group }),
    case: casePseudonym(record, key),
    caseKind: kinds,
    caseStatus: record.report.status === 'withdrawn' ? 'entered-in-error' : STATUS[record.case.status],
    date: cut(record.case.date, options.dates),
    ...(record.outcome && { outcome: record.outcome.overall }),
    ...complicationsOf(record),
    ...(indication.length > 0 && { indication }),
    ...(asked.has('unit') && unit !== undefined && { unit: pseudonym(key, 'unit', unit) }),
    ...(operator !== undefined && { operator: pseudonym(key, 'operator', operator) }),
  };
}

/** The number that a case goes by at a registry, which the site alone can lead back to its own. */
export const casePseudonym = (record: CaseRecord, key: PseudonymKey): string =>
  pseudonym(key, 'case', record.case.id);

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

/** The kinds that a registry hears of a case as it is written, the first named first; empty where none is known. */
export function registeredKinds(kind: string): string[] {
  return [...new Set((caseKindNamed(kind)?.rows ?? []).map(({ registry }) => registry))];
}

function complicationsOf({ complications }: CaseRecord): Pick<EntryElements, 'complications' | 'grades'> {
  const all = entriesOf(complications);
  const grades = all.flatMap(({ grade }) =>
    grade && scaleGrades[grade.scale]?.test(grade.grade) ? [`${grade.scale} ${grade.grade}`] : [],
  );
  if (complications === undefined) return { complications: 'not recorded', grades };
  if (all.length === 0) return { complications: 'none', grades };
  return { complications: grades.length === all.length ? 'graded' : 'ungraded', grades };
}

function indicationOf(record: CaseRecord, { codes }: CaseContext): string[] {
  const { conditions = [] } = record.indication;
  if (!codes) return [];
  return [...new Set(conditions.flatMap(one => codesOf(conditionConcept(codes, one))))];
}

/** Who answers for the report where that is an operator, else the first: by number where the team has one. */
function operatorOf({ team, report }: CaseRecord): string | undefined {
  const operators = team.filter(({ role }) => role === 'operator');
  const one = operators.find(({ key }) => key === report.author) ?? operators[0];
  return one && (one.identifier ? `${one.identifier.system}|${one.identifier.value}` : one.name);
}

/** Cuts an ISO date or dateTime to the agreed precision. */
export function cut(iso: string, dates: RegistryOptions['dates']): string {
  return iso.slice(0, { year: 4, month: 7, day: 10 }[dates]);
}
