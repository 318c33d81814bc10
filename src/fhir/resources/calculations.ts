import type { Coding, Reference } from 'fhir/r4.js';
import { type Calculation, calculationKinds } from '../../clinical/calculation.js';
import type { Param } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import type { MappingContext } from '../context.js';
import { ownCodeSystem } from '../profiles.js';
import { quantityOf } from '../quantity.js';
import { some } from '../tidy.js';
import { addObservation } from './observation.js';

/**
 * Figures that the software worked out: each names its rule, inputs and source, and the software as the device that
 * made it, so that it is never taken for a measurement.
 */
export function addCalculations(context: MappingContext): void {
  for (const calculation of context.assessment.calculations) add(context, calculation);
}

function add(context: MappingContext, { key, group, what, result, inputs, rule, basis }: Calculation): void {
  if (!result) return;
  addObservation(context, {
    role: `calculation/${key}`,
    // An estimate from laboratory values stands among them; nobody answers for it as for a measurement.
    category: group === 'kidney' ? 'laboratory' : 'procedure',
    code: { coding: kindOf(key, context.options.canonical), text: say(what) },
    value: result.quantity
      ? { valueQuantity: quantityOf(result.quantity) }
      : { valueString: say(result.text) },
    at: latestOf(inputs) ?? context.times.end,
    apart: true,
    more: {
      status: 'preliminary',
      performer: undefined,
      method: { text: `Worked out: ${say(rule)}` },
      device: context.ref('software'),
      derivedFrom: some(observationsOf(context, inputs)),
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

/** What kind of figure it is, in our own code system. */
function kindOf(key: string, canonical: string | undefined): Coding[] | undefined {
  const kind = calculationKinds.find(one => key === one || key.startsWith(`${one}/`));
  return kind && [{ system: ownCodeSystem('calculation', canonical), code: kind }];
}

/** The latest moment among inputs whose time is known. */
function latestOf(inputs: Calculation['inputs']): string | undefined {
  const moments = inputs.flatMap(({ name, value }) => [...momentsIn(name), ...momentsIn(value)]);
  return moments.toSorted((a, b) => Date.parse(a) - Date.parse(b)).at(-1);
}

function momentsIn(param: Param): string[] {
  if (typeof param === 'string') return [];
  if ('key' in param) return Object.values(param.params).flatMap(momentsIn);
  if ('list' in param) return param.list.flatMap(momentsIn);
  if ('moment' in param) return [param.moment.iso];
  return 'when' in param && param.when.moment ? [param.when.moment.iso] : [];
}

/** The Observations that stand for the places of the record that inputs were read from. */
function observationsOf(context: MappingContext, inputs: Calculation['inputs']): Reference[] {
  const paths = inputs.flatMap(({ path }) => path ?? []);
  return context.entries.flatMap(({ resource, fullUrl, sources }) => {
    const from = resource.resourceType === 'Observation' ? sources['Observation'] : undefined;
    const is = from !== undefined && paths.some(path => path === from || path.startsWith(`${from}.`));
    return is ? [{ reference: fullUrl }] : [];
  });
}
