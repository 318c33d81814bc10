import type { DrugGiven } from '../../record/schema/record.js';

/** A drug given, with its place in the record. */
export interface Given {
  readonly drug: DrugGiven;
  readonly path: string;
}

/** Doses by drug (or drug and purpose), in the order in which they first come. */
export function byDrug(given: readonly Given[], key: (drug: DrugGiven) => string): Given[][] {
  const groups = new Map<string, Given[]>();
  for (const one of given) {
    const name = key(one.drug);
    groups.set(name, [...(groups.get(name) ?? []), one]);
  }
  return [...groups.values()];
}
