import { analyteNamed } from '../../trade/analytes.js';
import { vitalNamed } from '../../trade/vitals.js';
import { bloodPressureCodes } from '../codes/clinical.js';
import { knownConcept } from '../concept.js';
import { vitalConcept } from '../concepts.js';
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
      code: vitalConcept(context.options, entry),
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
