import ucumLhc from '@lhncbc/ucum-lhc';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, inBaseUnit, type Quantity, readQuantity } from '../../src/record/quantity.js';
import { type Dimension, type Unit, unitNamed, unitOfCode, units } from '../../src/record/units.js';

// Source of codes and factors: the UCUM definitions inside @lhncbc/ucum-lhc (National Library of Medicine).
const ucum = ucumLhc.UcumLhcUtils.getInstance();

const of = (unit: Unit, value: string): Quantity => ({ value, unit: unit.display, code: unit.code });
const withFactor = units.filter(unit => unit.factor !== undefined);
const lengths: readonly Dimension[] = ['length', 'calibre'];
const sameMeasure = (a: Unit, b: Unit) =>
  a.dimension === b.dimension || (lengths.includes(a.dimension) && lengths.includes(b.dimension));
// International units are arbitrary in UCUM: no conversion leads out of them.
const pairs = withFactor
  .filter(unit => unit.code !== '[iU]')
  .flatMap(from =>
    withFactor.filter(to => to !== from && sameMeasure(from, to)).map(to => [from, to] as const),
  );

describe('unit table', () => {
  it.each(units.map(unit => [unit.code]))('%s is a UCUM code', code => {
    expect(ucum.validateUnitString(code)).toMatchObject({ status: 'valid', ucumCode: code });
  });

  it.each(pairs.map(([a, b]) => [a.code, b.code, a, b] as const))(
    '%s to %s as UCUM has it',
    (_a, _b, from, to) => {
      const theirs = ucum.convertUnitTo(from.code, 7.25, to.code);
      const ours = convert(of(from, '7.25'), to.code)?.toNumber() ?? Number.NaN;
      expect(theirs.status).toBe('succeeded');
      // UCUM rounds the millimetre of mercury to 0.133322 kPa; the conventional one has 0.133322387415.
      const slack = `${from.code}${to.code}`.includes('mm[Hg]') ? 3e-6 : 1e-12;
      expect(Math.abs(ours / Number(theirs.toVal) - 1)).toBeLessThan(slack);
    },
  );

  it('converts nothing across dimensions, and nothing that has no factor', () => {
    for (const from of units)
      for (const to of units)
        if (!sameMeasure(from, to) || !from.factor || !to.factor)
          expect(convert(of(from, '1'), to.code)).toBeUndefined();
  });

  it('comes back exactly from every unit and back', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        fc.bigInt({ min: 1n, max: 10n ** 12n }),
        fc.integer({ min: 0, max: 6 }),
        ([from, to], digits, places) => {
          const text = digits.toString().padStart(places + 1, '0');
          const value = places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`;
          const there = convert(of(from, value), to.code);
          const back = there && convert({ value: there.toFixed(), unit: '', code: to.code }, from.code);
          expect(back?.toSignificantDigits(25).equals(value)).toBe(true);
        },
      ),
    );
  });

  it('has each spelling once', () => {
    const seen = new Map<string, string>();
    for (const unit of units)
      for (const spelling of unit.spellings) {
        expect(seen.get(spelling) ?? unit.code, spelling).toBe(unit.code);
        seen.set(spelling, unit.code);
      }
  });

  it.each(units.flatMap(unit => unit.spellings.map(spelling => [spelling, unit.code, unit] as const)))(
    "reads '7.50 %s' as %s",
    (spelling, code, unit) => {
      expect(readQuantity(`7.50 ${spelling}`, [unit.dimension])).toEqual({
        ok: true,
        value: { value: '7.50', unit: unit.display, code },
      });
    },
  );

  it('takes its own printed unit and its code back', () => {
    for (const unit of units) {
      expect(unitNamed(unit.display), unit.display).toBe(unit);
      expect(unitOfCode(unit.code)).toBe(unit);
    }
  });

  it('never mixes up units that differ in case', () => {
    for (const text of ['MGy', 'mgy', 'ML', 'Mg', 'MM', 'KPA', 'fR', 'gy', 'Mmol', 'MIN/ML']) {
      expect(unitNamed(text), text).toBeUndefined();
    }
    expect(unitNamed('FRENCH')?.code).toBe('[Ch]');
    expect(unitNamed('Minutes')?.code).toBe('min');
  });

  it('reads both micro signs and composed text alike', () => {
    // U+00B5 micro sign, U+03BC Greek mu; Unicode names them as look-alikes (UnicodeData.txt).
    expect(unitNamed('\u03bcmol/L')).toBe(unitNamed('\u00b5mol/L'));
    expect(unitNamed('Charrie\u0300re')?.code).toBe('[Ch]');
  });
});

describe('sizes of the trade', () => {
  // 1 Fr is a third of a millimetre of outer diameter by definition; 1 in is 25.4 mm by definition.
  it.each([
    ['4', '1.333'],
    ['5', '1.667'],
    ['6', '2.000'],
    ['7', '2.333'],
    ['8.5', '2.833'],
    ['10.2', '3.400'],
    ['12', '4.000'],
    ['14', '4.667'],
  ])('%s Fr is %s mm', (french, mm) => {
    expect(convert({ value: french, unit: 'Fr', code: '[Ch]' }, 'mm')?.toFixed(3)).toBe(mm);
  });

  it.each([
    ['0.014', '0.3556'],
    ['0.018', '0.4572'],
    ['0.021', '0.5334'],
    ['0.025', '0.6350'],
    ['0.035', '0.8890'],
    ['0.038', '0.9652'],
  ])('%s in is %s mm', (inch, mm) => {
    expect(convert({ value: inch, unit: 'in', code: '[in_i]' }, 'mm')?.toFixed(4)).toBe(mm);
  });

  // 1 µGy·m² = 0.01 Gy·cm² and 1 dGy·cm² = 0.1 Gy·cm²: arithmetic of the prefixes. 13639 mGy·cm² is the figure of the
  // HL7 radiation dose summary example 545.
  it.each([
    ['100', 'uGy.m2', '1'],
    ['10', 'dGy.cm2', '1'],
    ['100', 'cGy.cm2', '1'],
    ['13639', 'mGy.cm2', '13.639'],
    ['0.0001', 'Gy.m2', '1'],
  ])('%s %s is %s Gy·cm²', (value, code, expected) => {
    expect(inBaseUnit({ value, unit: '', code })?.toFixed()).toBe(expected);
  });
});
