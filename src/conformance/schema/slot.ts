import type { Def } from './definition.js';
import type { PlanBranch, Slot } from './plan.js';

/** The child element that `defs` describe together. */
export function slotOf(name: string, defs: readonly Def[]): Slot {
  const [first] = defs;
  if (!first) throw new RangeError(`No definition of ${name}`);
  let minDef = first;
  let maxDef = first;
  let repeats = false;
  for (const def of defs) {
    if (minOf(def) > minOf(minDef)) minDef = def;
    if (maxOf(def) < maxOf(maxDef)) maxDef = def;
    // An element without max, out of a differential, says nothing of the JSON form.
    if (def.element.max !== undefined && maxOf(def) > 1) repeats = true;
  }
  const choice = defs.some(d => d.choice);
  const sliced = defs.filter(d => d.slices.length > 0);
  return {
    name,
    choice,
    repeats,
    min: minOf(minDef),
    minDef,
    max: maxOf(maxDef),
    maxDef,
    defs,
    sliced,
    watched: choice || minOf(minDef) > 0 || sliced.length > 0,
    plans: new Map(),
  };
}

/** The branch at `key`, made where it is missing. */
export function branch<K>(branches: Map<K, PlanBranch>, key: K): PlanBranch {
  let found = branches.get(key);
  if (!found) {
    found = { plan: undefined, next: new Map() };
    branches.set(key, found);
  }
  return found;
}

/** Smallest number of occurrences. */
export function minOf(def: Def): number {
  return def.element.min ?? 0;
}

/** Largest number of occurrences; Infinity for `*`. */
export function maxOf(def: Def): number {
  const max = def.element.max;
  return max === undefined || max === '*' ? Number.POSITIVE_INFINITY : Number(max);
}
