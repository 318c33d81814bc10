import type { Param } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { inBaseUnit, type Quantity } from '../../record/quantity.js';
import { needleRow } from './needles.js';

/**
 * A calibre or length in French, that is in thirds of a millimetre: exact for Fr, mm, cm and inches alike,
 * where millimetres would not be (1 Fr = 1/3 mm). Needle gauge goes by the outer diameter of the chart.
 * Undefined for a gauge that is not in the chart, and for other dimensions.
 */
export function inFrench(quantity: Quantity): Decimal | undefined {
  if (quantity.code === '[Ch]') return new Decimal(quantity.value);
  if (quantity.code === '{gauge}') {
    const row = needleRow(quantity.value);
    return row && new Decimal(row.outer).times(3);
  }
  const mm = inBaseUnit(quantity);
  return mm?.times(3);
}

/** Inches (decimal text) in French, exact. */
export function inchesInFrench(inches: string): Decimal {
  return new Decimal(inches).times('76.2');
}

/** Millimetres (decimal text) in French, exact. */
export function mmInFrench(mm: string): Decimal {
  return new Decimal(mm).times(3);
}

/** `2.33 mm` from French, for messages. */
export function printMm(french: Decimal): Param {
  const value = french.div(3).toDecimalPlaces(3).toString();
  return { quantity: { value, unit: 'mm', code: 'mm' } };
}

/** `97.5 cm` from French, for messages. */
export function printCm(french: Decimal): Param {
  const value = french.div(30).toDecimalPlaces(1).toString();
  return { quantity: { value, unit: 'cm', code: 'cm' } };
}
