import type { Def } from '../schema/definition.js';
import type { Slot } from '../schema/plan.js';
import { maxOf, minOf } from '../schema/slot.js';
import type { Place } from './place.js';
import type { Run } from './run.js';

/** Compares how often an element occurs with what its definitions ask. */
export function checkCount(run: Run, slot: Slot, count: number, parent: Place, element: string): void {
  if (count < slot.min) reportMin(run, slot.minDef, count, parent, element);
  if (count > slot.max) reportMax(run, slot.maxDef, count, parent, element);
}

/** The same for the items of one slice. */
export function checkSliceCount(run: Run, slice: Def, count: number, parent: Place, element: string): void {
  if (count < minOf(slice)) reportMin(run, slice, count, parent, element);
  if (count > maxOf(slice)) reportMax(run, slice, count, parent, element);
}

function reportMin(run: Run, def: Def, count: number, parent: Place, element: string): void {
  const min = minOf(def);
  const params = { element, min: String(min), found: String(count) };
  run.report('conformance.min', parent, params, { def, expected: `${min}..${def.element.max ?? '*'}` });
}

function reportMax(run: Run, def: Def, count: number, parent: Place, element: string): void {
  const max = def.element.max ?? '*';
  run.report(
    'conformance.max',
    parent,
    { element, max, found: String(count) },
    { def, expected: `${minOf(def)}..${max}` },
  );
}
