import type { Quantity as FhirQuantity } from 'fhir/r4.js';
import { exactQuantity } from '../json/write.js';
import type { Quantity } from '../record/quantity.js';
import { unitNamed } from '../record/units.js';

const UCUM = 'http://unitsofmeasure.org';

/** A quantity of the record as FHIR Quantity in UCUM, digits kept. */
export function quantityOf(quantity: Quantity): FhirQuantity {
  return exactQuantity(quantity.value, {
    comparator: quantity.comparator,
    unit: quantity.unit === '' ? undefined : quantity.unit,
    ...ucum(quantity.code),
  });
}

/** UCUM has no needle gauge, and an annotation in braces would read as the number 1: then the unit's words alone. */
function ucum(code: string): Pick<FhirQuantity, 'system' | 'code'> {
  return code.startsWith('{') ? {} : { system: UCUM, code };
}

/** A SimpleQuantity has no comparator; one that was written goes into the text beside it. */
export function simpleQuantityOf(quantity: Quantity): FhirQuantity {
  return quantityOf({ value: quantity.value, unit: quantity.unit, code: quantity.code });
}

/** A bare decimal with a unit in words; the UCUM code where the unit is known. */
export function measured(value: string, unit: string | undefined): FhirQuantity {
  const known = unitNamed(unit ?? '');
  return known ? exactQuantity(value, { unit, ...ucum(known.code) }) : exactQuantity(value, { unit });
}

/** A number of things. */
export function countOf(count: number): FhirQuantity {
  return exactQuantity(String(count), { system: UCUM, code: '1' });
}
