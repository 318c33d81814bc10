import type { CodeableConcept } from 'fhir/r4.js';
import type { VitalSign } from '../../record/schema/record.js';
import { analyteNamed } from '../../trade/analytes.js';
import { vitalNamed } from '../../trade/vitals.js';
import { bloodPressureCodes, vitalSignCodes } from '../codes/clinical.js';
import { concept, knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { quantityOf } from '../quantity.js';
import { addObservation, component } from './observation.js';

/** Vital signs and bedside values during the case: one Observation each. */
export function addVitalSeries(context: MappingContext): void {
  for (const [index, entry] of (context.record.vitals ?? []).entries()) {
    const { what, value, at } = entry;
    addObservation(context, {
      role: `observation/vital-${index + 1}`,
      category: vitalNamed(what.text) ? 'vitals' : analyteNamed(what.text) ? 'laboratory' : 'exam',
      code: codeOf(context, entry),
      ...('systolic' in value
        ? {
            components: (['systolic', 'diastolic'] as const).map(part =>
              component(
                value[part].code === 'mm[Hg]'
                  ? knownConcept(bloodPressureCodes[part])
                  : bloodPressureCodes[part].display,
                { valueQuantity: quantityOf(value[part]) },
              ),
            ),
          }
        : { value: { valueQuantity: quantityOf(value) } }),
      at: at.iso,
      section: 'technique',
      from: `vitals[${index}]`,
      sources: { effectiveDateTime: `vitals[${index}].at` },
    });
  }
}

/** A code stands for its profile, so that it is given only with a unit that the profile accepts. */
function codeOf({ options }: MappingContext, { what, value }: VitalSign): CodeableConcept {
  const name = vitalNamed(what.text);
  if ('systolic' in value)
    return concept(
      options,
      what,
      name === 'blood pressure' && value.systolic.code === 'mm[Hg]' ? bloodPressureCodes.panel : undefined,
    );
  const row = Object.entries(vitalSignCodes).find(([key]) => key === name)?.[1];
  const fits = row?.units.some(unit => unit === value.code) && value.comparator === undefined;
  return concept(options, what, fits ? row?.code : undefined);
}
