import type { Param } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import { convert, type Quantity } from '../../record/quantity.js';
import { type Input, inputOf } from '../calculation.js';

/**
 * The number of a quantity in a unit, for calculating: undefined when it is missing, negative, of another dimension,
 * or only a bound (`< 5 mL`).
 */
export function amount(quantity: Quantity | undefined, code: string): Decimal | undefined {
  if (!quantity || quantity.comparator) return undefined;
  const value = convert(quantity, code);
  return value?.isNegative() ? undefined : value;
}

/** Milligrams of a dose, whichever unit of mass it was written in. */
export function milligrams(dose: Quantity): Decimal | undefined {
  return amount(dose, 'mg') ?? amount(dose, 'g')?.times(1000);
}

/** A quantity of the record as an input of a calculation. */
export function input(name: Param, quantity: Quantity, path: string): Input {
  return inputOf(name, { quantity }, path);
}

/**
 * Whether a quantity is above a limit, or below it: undefined when its comparator leaves that open (`> 1.5` against a
 * limit of 1.8), or when it has another dimension.
 * @param side `over` above the limit, `from` at it or above, `under` below it
 */
export function beyond(
  quantity: Quantity,
  code: string,
  side: 'over' | 'from' | 'under',
  limit: string,
): boolean | undefined {
  const value = convert(quantity, code);
  if (!value) return undefined;
  const compared = value.comparedTo(limit);
  switch (quantity.comparator) {
    case undefined:
      return side === 'over' ? compared > 0 : side === 'from' ? compared >= 0 : compared < 0;
    case '>':
      return compared >= 0 ? side !== 'under' : undefined;
    case '>=':
      if (compared > 0) return side !== 'under';
      if (compared < 0 || side === 'over') return undefined;
      return side === 'from';
    case '<':
      return compared <= 0 ? side === 'under' : undefined;
    case '<=':
      if (compared < 0) return side === 'under';
      if (compared > 0 || side === 'from') return undefined;
      return side === 'under' ? undefined : false;
  }
}
