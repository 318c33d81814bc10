import type { Observation } from 'fhir/r4.js';
import { convert, printQuantity, type Quantity } from '../../record/quantity.js';
import { absentReasons, pregnancyAnswers, pregnancyStatus, vitalCodes } from '../codes/clinical.js';
import { knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { quantityOf } from '../quantity.js';
import { addObservation } from './observation.js';

/** Weight, height and the answer to the pregnancy question, as of the day of the case. */
export function addVitals(context: MappingContext): void {
  const { patient, case: about } = context.record;
  if (patient.weight)
    addObservation(context, {
      role: 'observation/weight',
      category: 'vitals',
      code: knownConcept(vitalCodes.weight),
      value: { valueQuantity: quantityOf(patient.weight) },
      at: about.date,
      apart: true,
      section: 'before',
      from: 'patient.weight',
    });
  if (patient.height) {
    const height = inCentimetres(patient.height);
    addObservation(context, {
      role: 'observation/height',
      category: 'vitals',
      code: knownConcept(vitalCodes.height),
      value: { valueQuantity: quantityOf(height) },
      at: about.date,
      apart: true,
      notes: height === patient.height ? [] : [`Written as ${printQuantity(patient.height)}`],
      section: 'before',
      from: 'patient.height',
    });
  }
  if (patient.pregnant)
    addObservation(context, {
      role: 'observation/pregnancy',
      category: 'exam',
      code: knownConcept(pregnancyStatus),
      value: pregnancy(patient.pregnant),
      at: about.date,
      apart: true,
      more: pregnancy(patient.pregnant),
      section: 'before',
      from: 'patient.pregnant',
    });
}

function pregnancy(
  answer: NonNullable<MappingContext['record']['patient']['pregnant']>,
): Pick<Observation, 'valueCodeableConcept' | 'dataAbsentReason'> {
  return answer === 'yes' || answer === 'no'
    ? { valueCodeableConcept: knownConcept(pregnancyAnswers[answer]) }
    : { dataAbsentReason: knownConcept(absentReasons[answer], answer) };
}

/** FHIR's body height profile takes centimetres or inches; no digit is lost by moving the point. */
function inCentimetres(height: Quantity): Quantity {
  if (height.code === 'cm' || height.code === '[in_i]') return height;
  const value = convert(height, 'cm');
  if (!value) return height;
  const places = decimals(height.value) + ({ m: -2, mm: 1, um: 4 }[height.code] ?? 0);
  return { value: value.toFixed(Math.max(0, places)), unit: 'cm', code: 'cm' };
}

const decimals = (value: string) => value.split('.')[1]?.length ?? 0;
