import type { ObservationComponent } from 'fhir/r4.js';
import type { Target } from '../../record/schema/record.js';
import { concept, outcomeConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { sided } from '../events.js';
import { quantityOf } from '../quantity.js';
import { present } from '../tidy.js';
import { siteConcept } from './body-sites.js';
import { addObservation, component } from './observation.js';

/** What each target was like before and after: one Observation each, with a component for each measure. */
export function addTargets(context: MappingContext): void {
  for (const [key, target] of Object.entries(context.record.targets ?? {})) {
    add(context, key, target, 'before', [
      ...(target.lesion
        ? [component('Lesion', { valueCodeableConcept: concept(context.options, target.lesion) })]
        : []),
      ...quantity('Length', target.length),
      ...quantity('Reference diameter', target.diameter),
      ...measures(context, target, 'Before'),
    ]);
    add(context, key, target, 'after', [
      ...measures(context, target, 'After'),
      ...(target.success
        ? [
            component('Technical success', {
              valueCodeableConcept: outcomeConcept(context.options, target.success, target.success),
            }),
          ]
        : []),
    ]);
  }
}

function add(
  context: MappingContext,
  key: string,
  target: Target,
  when: 'before' | 'after',
  components: ObservationComponent[],
): void {
  const note = when === 'before' ? present(target.note) : [];
  if (components.length + note.length === 0) return;
  addObservation(context, {
    role: `observation/target/${key}/${when}`,
    category: 'imaging',
    code: { text: `${sided(target.what.text, target.side)} ${when} treatment` },
    components,
    at: when === 'before' ? context.times.start : context.times.end,
    more: {
      bodySite: siteConcept(context, target.what, target.side),
      focus:
        target.side === undefined || target.side === 'midline'
          ? undefined
          : [context.ref(`site/target/${key}`)],
    },
    notes: note,
    section: 'findings',
    from: `targets.${key}`,
  });
}

function measures(context: MappingContext, target: Target, when: 'Before' | 'After'): ObservationComponent[] {
  const flow = target[`flow${when}`];
  return [
    ...quantity('Narrowing', target[`narrowing${when}`]),
    ...quantity('Lumen', target[`lumen${when}`]),
    ...(flow === undefined ? [] : [component('Flow', { valueString: flow })]),
    ...quantity('Pressure', target[`pressure${when}`]),
    ...(target.measures ?? []).flatMap(({ what, before, after }) => {
      const value = when === 'Before' ? before : after;
      return value ? [component(concept(context.options, what), { valueQuantity: quantityOf(value) })] : [];
    }),
  ];
}

function quantity(name: string, value: Target['length']): ObservationComponent[] {
  return value ? [component(name, { valueQuantity: quantityOf(value) })] : [];
}
