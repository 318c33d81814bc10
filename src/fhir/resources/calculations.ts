import type { Calculation } from '../../clinical/calculation.js';
import type { MappingContext } from '../context.js';
import { quantityOf } from '../quantity.js';
import { addObservation } from './observation.js';

/**
 * Figures that the software worked out: each names its rule, inputs and source, and the software as the device that
 * made it, so that it is never taken for a measurement.
 */
export function addCalculations(context: MappingContext): void {
  for (const calculation of context.assessment.calculations) add(context, calculation);
}

function add(context: MappingContext, { key, what, result, inputs, rule, basis }: Calculation): void {
  if (!result) return;
  addObservation(context, {
    role: `calculation/${key}`,
    category: 'procedure',
    code: { text: what },
    value: result.quantity ? { valueQuantity: quantityOf(result.quantity) } : { valueString: result.text },
    at: context.times.end,
    apart: true,
    more: {
      status: 'preliminary',
      performer: undefined,
      method: { text: `Worked out: ${rule}` },
      device: context.ref('software'),
    },
    notes: [
      ...(result.quantity ? [result.text] : []),
      ...inputs.map(input => `${input.name}: ${input.value}`),
      `Source: ${basis}`,
      'Decision support: to be checked by a person.',
    ],
    section: 'worked',
    from: inputs.find(input => input.path)?.path ?? 'case',
  });
}
