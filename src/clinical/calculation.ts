import { COMMON_PRACTICE } from '../findings/define.js';
import { type Message, message, type Param } from '../findings/message.js';
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
  'egfr-bedside',
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
  readonly name: Param;
  readonly value: Param;
  /** Where it stands in the record. */
  readonly path?: string;
}

/** What a calculation is, before it is known whether it can be made. */
export interface CalculationBase {
  /** Stable and unique within a case: the kind, and what it is about: `egfr`, `narrowing-after/ureter`. */
  readonly key: CalculationKind | `${CalculationKind}/${string}`;
  readonly group: CalculationGroup;
  readonly what: Message;
  /** The formula or rule, in one line. */
  readonly rule: Message;
  /** Published source, or 'common practice, no source'; 'from memory' stands beside a value that was not looked up. */
  readonly basis: Param;
}

/**
 * One thing worked out from the record: what, from which inputs, by which published rule. Decision support: a value
 * to be checked by a person, never an order. Either `result` or `notAssessed` is present.
 */
export interface Calculation extends CalculationBase {
  readonly result?: { readonly text: Param; readonly quantity?: Quantity };
  /** Why nothing was worked out. */
  readonly notAssessed?: Message;
  readonly inputs: readonly Input[];
}

/** One input, said by its name and value. */
export function inputOf(name: Param, value: Param, path?: string): Input {
  return { name, value, ...(path !== undefined && { path }) };
}

/** A calculation that could not be made, with the reason. */
export function notAssessed(base: CalculationBase, why: Message, inputs: readonly Input[] = []): Calculation {
  return { ...base, inputs, notAssessed: why };
}

/** A calculation whose result is words. */
export function told(base: CalculationBase, text: Param, inputs: readonly Input[]): Calculation {
  return { ...base, inputs, result: { text } };
}

/** A calculation with a number in a unit. */
export function assessed(
  base: CalculationBase,
  quantity: Quantity,
  inputs: readonly Input[],
  text: Param = { quantity, spaced: true },
): Calculation {
  return { ...base, inputs, result: { text, quantity } };
}

/** A source as it is; where there is none, that is said in the reader's language. */
export function source(name: string | undefined): Param {
  if (name === undefined || name === COMMON_PRACTICE) return message('basis.practice');
  if (name === 'product information') return message('basis.label');
  const key = (Object.keys(asides) as (keyof typeof asides)[]).find(one => name.endsWith(asides[one]));
  return key === undefined ? name : message(key, { source: source(name.slice(0, -asides[key].length)) });
}

/** What limits say after the name of their source. */
const asides = {
  'basis.recalled': '; from memory, confirm against local policy',
  'basis.transcription': ', read in a transcription',
  'basis.liver': ', chronic liver disease',
  'basis.drugTable': ', table of drugs',
} as const;
