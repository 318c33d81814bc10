import { grouped } from '../../record/grouped.js';
import type { DrugGiven } from '../../record/schema/record.js';

/** A drug given, with its place in the record. */
export interface Given {
  readonly drug: DrugGiven;
  readonly path: string;
}

/** Doses by drug (or drug and purpose), in the order in which they first come. */
export const byDrug = (given: readonly Given[], key: (drug: DrugGiven) => string): Given[][] => [
  ...grouped(given, ({ drug }) => key(drug)).values(),
];
