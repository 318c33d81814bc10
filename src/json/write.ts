import type { Quantity } from 'fhir/r4.js';
import { type ExactJson, ExactNumber } from './parse.js';

/** Where a quantity keeps the digits that its number would lose: `5.0`, `0.700`. Not seen by JSON.stringify. */
const DIGITS = Symbol('digits');

/** A quantity whose value is written with its own digits. */
export interface ExactQuantity extends Quantity {
  value: number;
  [DIGITS]?: string;
}

const DECIMAL = /^-?(?:0|[1-9]\d*)(?:\.\d+)?$/;

/**
 * A FHIR Quantity that keeps the digits of its decimal text when written by `writeFhirJson`.
 * @param digits decimal text without exponent
 * @throws RangeError for text outside FHIR's decimal grammar
 */
export function exactQuantity(digits: string, rest: Omit<Quantity, 'value'> = {}): ExactQuantity {
  if (!DECIMAL.test(digits)) throw new RangeError(`'${digits}' is not a FHIR decimal`);
  return { value: Number(digits), ...rest, [DIGITS]: digits };
}

/** The digits a quantity was made from, if any. */
export function digitsOf(quantity: object): string | undefined {
  const digits: unknown = Reflect.get(quantity, DIGITS);
  return typeof digits === 'string' ? digits : undefined;
}

/** Gives a copy of a quantity the digits that the quantity was made from, if any. */
export function withDigitsOf<T extends object>(quantity: object, copy: T): T {
  const digits = digitsOf(quantity);
  return digits === undefined ? copy : Object.assign(copy, { [DIGITS]: digits });
}

/**
 * Writes a resource as FHIR JSON: the same object gives the same text, digits of exact quantities and numbers are kept, absent
 * (undefined) elements are left out, keys stay in the order they were set.
 * @param indent spaces for each level; 0 writes one line
 */
export function writeFhirJson(value: object | ExactJson, indent: 0 | 2 = 2): string {
  return write(value, indent, 0) ?? '{}';
}

function write(value: unknown, indent: number, depth: number): string | undefined {
  if (value === undefined || typeof value === 'function' || typeof value === 'symbol') return undefined;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const inside = indent === 0 ? '' : `\n${' '.repeat(indent * (depth + 1))}`;
  const end = indent === 0 ? '' : `\n${' '.repeat(indent * depth)}`;
  if (value instanceof ExactNumber) return value.value;
  if (Array.isArray(value)) {
    let items = '';
    for (const item of value)
      items += `${items === '' ? '' : ','}${inside}${write(item, indent, depth + 1) ?? 'null'}`;
    return items === '' ? '[]' : `[${items}${end}]`;
  }
  const colon = indent === 0 ? ':' : ': ';
  let fields = '';
  for (const [key, field] of Object.entries(value)) {
    const digits = key === 'value' ? digitsOf(value) : undefined;
    const text = digits ?? write(field, indent, depth + 1);
    if (text !== undefined)
      fields += `${fields === '' ? '' : ','}${inside}${JSON.stringify(key)}${colon}${text}`;
  }
  return fields === '' ? '{}' : `{${fields}${end}}`;
}
