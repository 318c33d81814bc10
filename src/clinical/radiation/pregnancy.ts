import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { agesOn } from '../age.js';

/** Ages at which the question is asked. Common practice, no source. */
const AGES = { least: 12, most: 55 } as const;

/** The question is asked of everyone who could be pregnant before radiation is used; not knowing is an answer too. */
export function pregnancy(record: CaseRecord): Finding[] {
  const { sex, pregnant, birthDate } = record.patient;
  const path = 'patient.pregnant';
  if (pregnant === 'yes') return [finding('clinical.pregnant', path, {})];
  if (pregnant === 'no' || pregnant === 'not applicable' || sex === 'male') return [];
  const ages = agesOn(birthDate, record.case.date);
  if (ages && (ages.most < AGES.least || ages.least > AGES.most)) return [];
  return [
    finding(pregnant === 'unknown' ? 'clinical.pregnancy-unknown' : 'clinical.pregnancy-not-asked', path, {}),
  ];
}
