import type { Quantity } from '../record/quantity.js';

export type CalculationGroup =
  | 'radiation'
  | 'contrast'
  | 'kidney'
  | 'bleeding'
  | 'drugs'
  | 'outcome'
  | 'times'
  | 'adverse events';

/** One input of a calculation, so that a reader can check it. */
export interface Input {
  readonly name: string;
  /** As printed: `138 µmol/L`. */
  readonly value: string;
  /** Where it stands in the record. */
  readonly path?: string;
}

/**
 * One thing worked out from the record: what, from which inputs, by which published rule. Decision support: a value
 * to be checked by a person, never an order. Either `result` or `notAssessed` is present.
 */
export interface Calculation {
  /** Stable within a case: `egfr`, `iodine-intravascular`, `narrowing-after/ureter`. */
  readonly key: string;
  readonly group: CalculationGroup;
  readonly what: string;
  readonly result?: { readonly text: string; readonly quantity?: Quantity };
  /** Why nothing was worked out. */
  readonly notAssessed?: string;
  readonly inputs: readonly Input[];
  /** The formula or rule, in one line. */
  readonly rule: string;
  /** Published source, or 'common practice, no source'; 'from memory' stands beside a value that was not looked up. */
  readonly basis: string;
}

/** A calculation without the parts that every one of a function shares. */
export function notAssessed(
  base: Omit<Calculation, 'result' | 'notAssessed' | 'inputs'>,
  why: string,
  inputs: readonly Input[] = [],
): Calculation {
  return { ...base, inputs, notAssessed: why };
}
