import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { say } from '../../src/findings/say.js';
import {
  printQuantity,
  readConsoleTime,
  readDecimal,
  readQuantity,
  readSize,
} from '../../src/record/quantity.js';
import type { Dimension } from '../../src/record/units.js';

const all: Dimension[] = [
  'length',
  'calibre',
  'volume',
  'mass',
  'pressure',
  'duration',
  'molarConcentration',
  'massConcentration',
  'cellCount',
  'kermaArea',
  'kerma',
  'ratio',
  'temperature',
];

describe('quantities as people write them', () => {
  it.each([
    ['7 Fr', '7', 'Fr', '[Ch]'],
    ['7Fr', '7', 'Fr', '[Ch]'],
    ['0.018 in', '0.018', 'in', '[in_i]'],
    ['0.035"', '0.035', 'in', '[in_i]'],
    ['20 mL', '20', 'mL', 'mL'],
    ['20 ml', '20', 'mL', 'mL'],
    ['120 µmol/L', '120', 'µmol/L', 'umol/L'],
    ['120 umol/L', '120', 'µmol/L', 'umol/L'],
    ['4.2 Gy·cm2', '4.2', 'Gy·cm²', 'Gy.cm2'],
    ['4.20 Gy.cm2', '4.20', 'Gy·cm²', 'Gy.cm2'],
    ['12 atm', '12', 'atm', 'atm'],
    ['5.5 min', '5.5', 'min', 'min'],
    ['262 x10^9/L', '262', '×10⁹/L', '10*9/L'],
    ['  95 %  ', '95', '%', '%'],
    ['95%', '95', '%', '%'],
    ['38.0 °C', '38.0', '°C', 'Cel'],
    ['−3 mmHg', '-3', 'mmHg', 'mm[Hg]'],
    ['+3 mmHg', '3', 'mmHg', 'mm[Hg]'],
  ])('%s', (text, value, unit, code) => {
    expect(readQuantity(text, all)).toEqual({ ok: true, value: { value, unit, code } });
  });

  it.each([
    ['< 5 mL', '<'],
    ['<5 mL', '<'],
    ['≤ 5 mL', '<='],
    ['<= 5 mL', '<='],
    ['>= 5 mL', '>='],
    ['≥5 mL', '>='],
    ['> 5 mL', '>'],
  ])('%s keeps its comparator', (text, comparator) => {
    expect(readQuantity(text, ['volume'])).toMatchObject({ ok: true, value: { comparator, value: '5' } });
  });

  it.each(['5.0', '0.700', '120', '123456789012345678', '0.000000000000000001', '1.10'])(
    'keeps the digits of %s',
    digits => {
      expect(readDecimal(digits)).toEqual({ ok: true, value: digits });
      expect(readQuantity(`${digits} mL`, ['volume'])).toMatchObject({ value: { value: digits } });
    },
  );

  it.each([
    ['1,2 mL', /comma: write a decimal point/],
    ['1.200,5 mL', /is not a number/],
    ['.5 mL', /zero before the point: '0\.5'/],
    ['1e3 mL', /exponent: write the number out/],
    ['05 mL', /is not a number/],
    ['five mL', /does not start with a number/],
    ['', /does not start with a number/],
    ['12', /has no unit: write one of mL, L, µL after the number/],
    ['12 mm', /'mm' is not a unit for this: write one of mL, L, µL/],
    ['12 mLL', /'mLL' is not known: mL may be meant/],
    ['12 drops', /'drops' is not known: write one of mL, L, µL/],
    ['1 2 mL', /'2 mL' is not known/],
  ])('%s is refused with a reason', (text, why) => {
    const read = readQuantity(text, ['volume']);
    expect(read.ok ? 'read' : say(read.why)).toMatch(why);
  });

  it('names every unit that is one slip away and chooses none', () => {
    const read = readQuantity('180 mol/L', ['molarConcentration']);
    expect(read.ok ? '' : say(read.why)).toBe(
      "The unit 'mol/L' is not known: µmol/L or mmol/L or nmol/L or pmol/L may be meant",
    );
  });

  it('refuses a bare number that is no number of FHIR', () => {
    for (const text of ['1.', 'NaN', 'Infinity', '0x10', '1_000', '٣', '1 ', '--1']) {
      const read = readDecimal(text);
      if (text === '1 ') expect(read).toEqual({ ok: true, value: '1' });
      else expect(read.ok, text).toBe(false);
    }
  });

  it('reads what it prints', () => {
    const quantity = fc.record({
      text: fc.tuple(fc.nat(), fc.nat({ max: 999 })).map(([whole, part]) => `${whole}.${part}`),
      sign: fc.constantFrom('', '< ', '>= '),
      unit: fc.constantFrom('mm', 'Fr', 'µmol/L', 'Gy·cm²', '%', '×10⁹/L', '°C', 'kPa', 'days'),
    });
    fc.assert(
      fc.property(quantity, ({ text, sign, unit }) => {
        const first = readQuantity(`${sign}${text} ${unit}`, all);
        if (!first.ok) throw new Error(say(first.why));
        expect(readQuantity(printQuantity(first.value), all)).toEqual(first);
      }),
    );
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), text => typeof readQuantity(text, all).ok === 'boolean'),
    );
    fc.assert(fc.property(fc.string({ unit: 'binary' }), text => typeof readSize(text).ok === 'boolean'));
  });
});

describe('sizes', () => {
  const mm = (value: string) => ({ value, unit: 'mm', code: 'mm' });
  it.each([
    ['3 mm x 40 mm', { diameter: mm('3'), length: mm('40') }],
    ['3 x 40 mm', { diameter: mm('3'), length: mm('40') }],
    ['3mm×40mm', { diameter: mm('3'), length: mm('40') }],
    ['3 mm X 40 mm', { diameter: mm('3'), length: mm('40') }],
    ['7 Fr', { diameter: { value: '7', unit: 'Fr', code: '[Ch]' } }],
    [
      '8.5 Fr x 35 cm',
      {
        diameter: { value: '8.5', unit: 'Fr', code: '[Ch]' },
        length: { value: '35', unit: 'cm', code: 'cm' },
      },
    ],
    ['21 G', { diameter: { value: '21', unit: 'G', code: '{gauge}' } }],
    [
      '21 G x 15 cm',
      {
        diameter: { value: '21', unit: 'G', code: '{gauge}' },
        length: { value: '15', unit: 'cm', code: 'cm' },
      },
    ],
    ['0.035 in', { diameter: { value: '0.035', unit: 'in', code: '[in_i]' } }],
    [
      '500-700 µm',
      { diameter: { value: '500', unit: 'µm', code: 'um' }, upTo: { value: '700', unit: 'µm', code: 'um' } },
    ],
    [
      '500–700 µm',
      { diameter: { value: '500', unit: 'µm', code: 'um' }, upTo: { value: '700', unit: 'µm', code: 'um' } },
    ],
  ])('%s', (text, parts) => {
    expect(readSize(text)).toEqual({ ok: true, value: { text, ...parts } });
  });

  it.each([
    ['3 x 40 x 2 mm', /3 parts: write diameter x length/],
    ['3 mm x', /does not start with a number/],
    ['3 mm x 40 mL', /'mL' is not a unit for this/],
    ['3 mm x 7 Fr', /'Fr' is not a unit for this/],
    ['3', /has no unit/],
    ['eight French', /does not start with a number/],
    ['3,5 mm', /comma/],
  ])('%s is refused with a reason', (text, why) => {
    const read = readSize(text);
    expect(read.ok ? 'read' : say(read.why)).toMatch(why);
  });
});

describe('times as consoles show them', () => {
  it.each([
    ['5:30', '330', 's'],
    ['05:09', '309', 's'],
    ['0:07', '7', 's'],
    ['75:00', '4500', 's'],
    ['1:05:30', '3930', 's'],
    ['5.5 min', '5.5', 'min'],
    ['72 s', '72', 's'],
  ])('%s', (written, value, code) => {
    const read = readConsoleTime(written);
    expect(read.ok && [read.value.value, read.value.code]).toEqual([value, code]);
  });

  it.each(['5:60', '1:60:00', '5:3', ':30', '5:30 min', '-5:30'])('refuses %s', written => {
    expect(readConsoleTime(written).ok).toBe(false);
  });
});
