import { Decimal as Library } from 'decimal.js';

/**
 * The one decimal that is calculated with. 40 digits are exact for every factor of the unit table but the thirds, and
 * its text never has an exponent, which FHIR's readers, reports and people would each read in another way.
 */
export const Decimal: Library.Constructor = Library.clone({ precision: 40, toExpNeg: -9e15, toExpPos: 9e15 });
export type Decimal = Library;
