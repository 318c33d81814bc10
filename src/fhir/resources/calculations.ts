import type { Calculation } from '../../clinical/calculation.js';
import { say } from '../../findings/say.js';
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
    code: { text: say(what) },
    value: result.quantity
      ? { valueQuantity: quantityOf(result.quantity) }
      : { valueString: say(result.text) },
    at: context.times.end,
    apart: true,
    more: {
      status: 'preliminary',
      performer: undefined,
      method: { text: `Worked out: ${say(rule)}` },
      device: context.ref('software'),
    },
    notes: [
      ...(result.quantity ? [say(result.text)] : []),
      ...inputs.map(input => `${say(input.name)}: ${say(input.value)}`),
      `Source: ${say(basis)}`,
      'Decision support: to be checked by a person.',
    ],
    section: 'worked',
    from: inputs.find(input => input.path)?.path ?? 'case',
  });
}
