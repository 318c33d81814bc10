import type { Quantity } from '../../record/quantity.js';
import type { Coded } from '../../record/schema/fields.js';
import type { When } from '../../record/time.js';
import { concept } from '../concept.js';
import { labConcept } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { quantityOf } from '../quantity.js';
import { addObservation } from './observation.js';

interface Lab {
  readonly what: Coded;
  readonly value: Quantity;
  readonly at: When;
}

/** Laboratory values before and after the case, and urine measured after it. */
export function addLabs(context: MappingContext): void {
  const { before, after } = context.record;
  for (const [index, lab] of (before?.labs ?? []).entries()) addLab(context, 'before', lab, index);
  for (const [index, lab] of (after?.labs ?? []).entries()) addLab(context, 'after', lab, index);
  for (const [index, urine] of (after?.urine ?? []).entries())
    addObservation(context, {
      role: `observation/urine-${index + 1}`,
      category: 'exam',
      code: concept(context.options, 'Urine output'),
      value: { valueQuantity: quantityOf(urine.volume) },
      more: {
        effectiveDateTime: undefined,
        effectivePeriod: { start: urine.from.iso, end: urine.to.iso },
      },
      apart: true,
      section: 'after',
      from: `after.urine[${index}]`,
    });
}

function addLab(context: MappingContext, when: 'before' | 'after', lab: Lab, index: number): void {
  const from = `${when}.labs[${index}]`;
  addObservation(context, {
    role: `observation/lab/${when}-${index + 1}`,
    category: 'laboratory',
    code: labConcept(context.options, lab),
    value: { valueQuantity: quantityOf(lab.value) },
    at: lab.at.iso,
    apart: true,
    section: when === 'before' ? 'labs' : 'after',
    from,
    sources: { code: `${from}.what`, valueQuantity: `${from}.value`, effectiveDateTime: `${from}.at` },
  });
}
