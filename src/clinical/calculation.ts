import type { Quantity } from '../record/quantity.js';
import { english, type Part, type Said } from './said.js';

export type CalculationGroup =
  | 'radiation'
  | 'contrast'
  | 'kidney'
  | 'bleeding'
  | 'drugs'
  | 'outcome'
  | 'times'
  | 'adverse events';

/** Every kind of calculation; docs/clinical.md has a row for each. */
export const calculationKinds = [
  'kerma-area-product',
  'mean-field-area',
  'scanned-length',
  'air-kerma-cumulative',
  'kerma-area-cumulative',
  'contrast-volume',
  'iodine-mass',
  'gadolinium-mass',
  'egfr',
  'egfr-cystatin',
  'kidney-injury',
  'creatinine-trend',
  'urine-output',
  'urine-stage',
  'bleeding-risk',
  'haemoglobin-change',
  'last-dose',
  'prophylaxis',
  'fasting',
  'total',
  'local-anaesthetic',
  'grade',
  'narrowing-before',
  'narrowing-after',
  'technical-success',
  'sessions',
  'door-to-access',
  'access-to-device',
  'access-to-end',
  'case-length',
  'end-to-sign-out',
] as const;

export type CalculationKind = (typeof calculationKinds)[number];

/** One input of a calculation, so that a reader can check it. */
export interface Input {
  readonly name: string;
  /** As printed: `138 µmol/L`. */
  readonly value: string;
  /** Where it stands in the record. */
  readonly path?: string;
  /** The same, to be said in any language. */
  readonly said: { readonly name: Part; readonly value: Part };
}

/** What a calculation says, to be said in any language. */
export interface Wording {
  readonly what: Part;
  readonly rule: Part;
  readonly basis: Part;
  readonly result?: Part;
  readonly notAssessed?: Said;
}

/**
 * One thing worked out from the record: what, from which inputs, by which published rule. Decision support: a value
 * to be checked by a person, never an order. Either `result` or `notAssessed` is present.
 */
export interface Calculation {
  /** Stable and unique within a case: the kind, and what it is about: `egfr`, `narrowing-after/ureter`. */
  readonly key: CalculationKind | `${CalculationKind}/${string}`;
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
  /** The same, to be said in any language; the texts above are its English. */
  readonly said: Wording;
}

/** What a calculation is, before it is known whether it can be made. */
export interface CalculationBase extends Pick<Calculation, 'key' | 'group'> {
  readonly what: Said;
  readonly rule: Said;
  readonly basis: Part;
}

/** One input, said by its name and value. */
export function inputOf(name: Part, value: Part, path?: string): Input {
  return {
    name: english(name),
    value: english(value),
    ...(path !== undefined && { path }),
    said: { name, value },
  };
}

function calculation(
  { key, group, what, rule, basis }: CalculationBase,
  inputs: readonly Input[],
  end: Pick<Wording, 'result' | 'notAssessed'>,
): Calculation {
  return {
    key,
    group,
    what: english(what),
    rule: english(rule),
    basis: english(basis),
    inputs,
    said: { what, rule, basis, ...end },
  };
}

/** A calculation that could not be made, with the reason. */
export function notAssessed(base: CalculationBase, why: Said, inputs: readonly Input[] = []): Calculation {
  return { ...calculation(base, inputs, { notAssessed: why }), notAssessed: english(why) };
}

/** A calculation whose result is words. */
export function told(base: CalculationBase, result: Part, inputs: readonly Input[]): Calculation {
  return { ...calculation(base, inputs, { result }), result: { text: english(result) } };
}

/** A calculation with a number in a unit. */
export function assessed(
  base: CalculationBase,
  quantity: Quantity,
  inputs: readonly Input[],
  result: Part = { quantity, spaced: true },
): Calculation {
  return { ...calculation(base, inputs, { result }), result: { text: english(result), quantity } };
}
