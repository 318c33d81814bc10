import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { assessRadiation } from '../../src/clinical/radiation.js';
import { convert, readQuantity } from '../../src/record/quantity.js';
import { caseText, recordOf } from '../support/case-text.js';

const assess = (radiation: string, patient = '  pregnant: not applicable') =>
  assessRadiation(recordOf(caseText({ more: `radiation: ${radiation}`, patient })), defaultLimits.radiation);

// SI prefixes and 1 m² = 10 000 cm²: 1 Gy·cm² = 10 dGy·cm² = 100 cGy·cm² = 1000 mGy·cm² = 100 µGy·m² = 10⁻⁴ Gy·m².
describe('unit identities of the kerma-area product', () => {
  it.each([
    ['10 dGy·cm²', '1'],
    ['100 cGy·cm²', '1'],
    ['1000 mGy·cm²', '1'],
    ['100 µGy·m²', '1'],
    ['0.0001 Gy·m²', '1'],
    ['1 µGy·m²', '0.01'],
    ['1 dGy·cm²', '0.1'],
    // HL7 Radiation Dose Summary implementation guide, example observation 545: 13639 mGy·cm².
    ['13639 mGy.cm2', '13.639'],
  ])('%s is %s Gy·cm²', (written, expected) => {
    const read = readQuantity(written, ['kermaArea']);
    expect(read.ok && convert(read.value, 'Gy.cm2')?.toString()).toBe(expected);
  });

  it('450 s is 7.5 min (same example)', () => {
    const read = readQuantity('450 s', ['duration']);
    expect(read.ok && convert(read.value, 'min')?.toString()).toBe('7.5');
  });
});

describe('plausibility', () => {
  it('the example of the guide (212 mGy, 13.639 Gy·cm², 450 s) raises nothing', () => {
    const { findings, calculations } = assess(
      '{ kermaAreaProduct: 13639 mGy.cm2, airKerma: 212 mGy, fluoroscopyTime: 450 s }',
    );
    expect(findings).toEqual([]);
    // 13.639 ÷ 0.212 = 64.3 cm²
    expect(calculations.find(c => c.key === 'mean-field-area')?.result?.text).toBe('64 cm²');
  });

  it('the same figures with the product in the wrong unit raise the slip and name its size', () => {
    const { findings } = assess(
      '{ kermaAreaProduct: 13639 cGy.cm2, airKerma: 212 mGy, fluoroscopyTime: 450 s }',
    );
    expect(findings.map(f => f.code)).toEqual(['clinical.dose-unit-slip']);
    expect(findings[0]?.params['slip']).toContain('10');
  });
});

// AAPM MPPG 12.a (2022), sections 5.3 and 5.4: notify at 3 Gy, substantial at 5 Gy of air kerma; 3 Gy of peak skin dose.
describe('levels', () => {
  it.each([
    ['2.99 Gy', []],
    ['3 Gy', ['clinical.dose-notify']],
    ['4999 mGy', ['clinical.dose-notify']],
    ['5 Gy', ['clinical.dose-substantial']],
  ])('air kerma %s', (kerma, codes) => {
    const { findings, substantial } = assess(`{ airKerma: ${kerma} }`);
    expect(findings.map(f => f.code)).toEqual(codes);
    expect(substantial).toBe(codes.includes('clinical.dose-substantial'));
    if (codes.length > 0) expect(findings[0]?.basis).toContain('AAPM MPPG 12.a');
  });

  it('adds earlier cases within the window and leaves out older ones', () => {
    const { substantial, calculations } = assess(
      '{ airKerma: 2.5 Gy, earlier: [{ date: 2024-03-01, airKerma: 2.5 Gy }, { date: 2023-01-01, airKerma: 9 Gy }] }',
    );
    expect(calculations.find(c => c.key === 'air-kerma-cumulative')?.result?.text).toBe('5 Gy');
    expect(substantial).toBe(true);
  });

  it('asks about pregnancy only where it can matter', () => {
    const codes = (patient: string) => assess('{ airKerma: 1 Gy }', patient).findings.map(f => f.code);
    expect(codes('  sex: female\n  birthDate: 1990-01-01')).toEqual(['clinical.pregnancy-not-asked']);
    expect(codes('  sex: female\n  birthDate: 1940-01-01')).toEqual([]);
    expect(codes('  sex: male')).toEqual([]);
    expect(codes('  sex: female\n  pregnant: no')).toEqual([]);
    expect(codes('  sex: female\n  pregnant: yes')).toEqual(['clinical.pregnant']);
  });
});
