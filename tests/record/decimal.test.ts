import { Decimal as Library } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { say } from '../../src/findings/say.js';
import { exactQuantity, writeFhirJson } from '../../src/json/write.js';
import { treeOf } from '../../src/record/data.js';
import { Decimal } from '../../src/record/decimal.js';
import { convert, inBaseUnit, printQuantity, readQuantity } from '../../src/record/quantity.js';
import { type Unit, units } from '../../src/record/units.js';
import { decimalOf } from '../support/decimals.js';

const unit = fc.constantFrom(...units);
/** Needle gauge is a name, not an amount; it is read like any other number. */
const written = (digits: string, { display }: Unit) => (display === '' ? digits : `${digits} ${display}`);

describe('a quantity of any magnitude, in any unit', () => {
  it('keeps its digits through reading, printing and FHIR JSON', () => {
    fc.assert(
      fc.property(decimalOf(-12, 12), unit, (digits, one) => {
        const read = readQuantity(written(digits, one), [one.dimension]);
        if (!read.ok) throw new Error(say(read.why));
        const printed = printQuantity(read.value);
        const again = readQuantity(printed, [one.dimension]);
        const text = writeFhirJson(exactQuantity(read.value.value, { code: read.value.code }), 0);
        expect(printed.split(' ')[0]?.replace('%', '')).toBe(digits);
        expect(again).toEqual(read);
        expect(text).toContain(`{"value":${digits},`);
      }),
    );
  });

  it('converts without an exponent, to what the decimal library gives at more digits (decimal.js)', () => {
    const Precise = Library.clone({ precision: 120 });
    fc.assert(
      fc.property(decimalOf(-12, 12), unit, unit, (digits, one, other) => {
        const read = readQuantity(written(digits, one), [one.dimension]);
        const found = read.ok ? convert(read.value, other.code) : undefined;
        if (!found || !one.factor || !other.factor) return;
        expect(found.toString()).toMatch(/^-?\d+(?:\.\d+)?$/);
        const expected = new Precise(digits)
          .times(one.factor.num)
          .times(other.factor.den)
          .div(one.factor.den)
          .div(other.factor.num);
        // Two divisions, each right to 40 digits.
        expect(expected.minus(found.toString()).abs().lte(expected.abs().times('1e-38'))).toBe(true);
      }),
    );
  });
});

it('calculates on the one decimal without an exponent', () => {
  expect(new Decimal('0.0000001').plus('0.0000002').toString()).toBe('0.0000003');
  expect(new Decimal('1000000000000').times('1000000000000').toString()).toBe('1000000000000000000000000');
  expect(inBaseUnit({ value: '0.000000000001', unit: 'µm', code: 'um' })?.toString()).toBe(
    '0.000000000000001',
  );
});

it('a number in the data of a caller is written out: JavaScript itself would write 1e-7', () => {
  const read = (amount: number) => treeOf({ amount }).tree;
  expect(read(0.0000001)).toEqual({ amount: '0.0000001' });
  expect(read(1e21)).toEqual({ amount: '1000000000000000000000' });
  expect(read(-2.5)).toEqual({ amount: '-2.5' });
});
