import { describe, expect, it } from 'vitest';
import { assessKidney } from '../../src/clinical/kidney.js';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { caseText, recordOf } from '../support/case-text.js';

// Formula: CKD-EPI 2021, Inker et al., NEJM 2021;385:1737. The formula is published; no table of worked values was found,
// so each row was worked out from the formula apart from this code and is checked to its two decimals.
const worked = [
  [1.0, 50, 'male', 91.69],
  [1.0, 50, 'female', 68.63],
  [0.9, 40, 'male', 110.73],
  [0.7, 40, 'female', 112.05],
  [0.6, 30, 'female', 123.76],
  [0.5, 25, 'male', 145.16],
  [1.2, 60, 'male', 69.23],
  [1.2, 60, 'female', 51.82],
  [1.5, 65, 'male', 51.35],
  [2.0, 70, 'male', 35.24],
  [2.0, 70, 'female', 26.38],
  [4.0, 75, 'male', 14.87],
  [7.0, 55, 'female', 6.44],
] as const;

describe('CKD-EPI 2021', () => {
  it.each(worked)('creatinine %s mg/dL, %s years, %s gives %s', (scr, age, sex, expected) => {
    expect(egfrCreatinine(scr, age, sex)).toBeCloseTo(expected, 2);
  });

  it('takes µmol/L: 150 µmol/L at 65 years gives 44.30 (m) and 33.16 (f)', () => {
    const scr = creatinineMgDl({ value: '150', unit: 'µmol/L', code: 'umol/L' });
    expect(scr).toBeCloseTo(1.697, 3);
    // The factors 88.4 and 88.42 are both in use; they differ here by less than 0.03.
    expect(Math.abs(egfrCreatinine(scr ?? 0, 65, 'male') - 44.3)).toBeLessThan(0.03);
    expect(Math.abs(egfrCreatinine(scr ?? 0, 65, 'female') - 33.16)).toBeLessThan(0.03);
  });

  it('falls as creatinine rises, at every age and for both sexes', () => {
    for (const sex of ['male', 'female'] as const)
      for (let age = 18; age < 100; age += 7) {
        let last = Number.POSITIVE_INFINITY;
        for (let scr = 0.1; scr < 15; scr += 0.05) {
          const now = egfrCreatinine(scr, age, sex);
          expect(now).toBeLessThan(last);
          last = now;
        }
      }
  });
});

// KDIGO Clinical Practice Guideline for Acute Kidney Injury 2012, table 2, with the windows of its definition.
describe('KDIGO stage at its edges', () => {
  it.each([
    [100, 126.4, 24, 0],
    [100, 126.5, 24, 1],
    [100, 126.5, 48, 1],
    [100, 126.5, 49, 0],
    [100, 149.9, 100, 0],
    [100, 150, 168, 1],
    [100, 150, 169, 0],
    [100, 199.9, 100, 1],
    [100, 200, 100, 2],
    [100, 299.9, 100, 2],
    [100, 300, 100, 3],
    [330, 353.5, 24, 0],
    [300, 353.6, 24, 3],
    [300, 353.6, 100, 0],
  ])('%s to %s µmol/L in %s h is stage %s', (base, later, hours, stage) => {
    expect(akiStage(base, later, hours)).toBe(stage);
  });
});

describe('kidney function of a record', () => {
  const labs = 'before:\n  labs: [{ what: creatinine, value: 138 µmol/L, at: 2024-05-13 }]';

  it('shows the result with its inputs', () => {
    const record = recordOf(caseText({ more: labs, patient: '  birthDate: 1959-04-21\n  sex: male' }));
    const { calculations, egfr } = assessKidney(record, defaultLimits.kidney);
    const found = calculations.find(c => c.key === 'egfr');
    // 138 / 88.4 = 1.5611 mg/dL; 142 × (1.5611/0.9)^−1.2 × 0.9938^65
    expect(egfr).toBeCloseTo(142 * (138 / 88.4 / 0.9) ** -1.2 * 0.9938 ** 65, 6);
    expect(found?.result?.text).toBe('49 mL/min/1.73 m²');
    expect(found?.inputs.map(i => i.value)).toEqual(['138 µmol/L', '65 years', 'male']);
  });

  it('refuses a child and says why', () => {
    const record = recordOf(caseText({ more: labs, patient: '  birthDate: 2012-01-30\n  sex: female' }));
    const { calculations, egfr } = assessKidney(record, defaultLimits.kidney);
    expect(egfr).toBeUndefined();
    expect(calculations.find(c => c.key === 'egfr')?.notAssessed).toContain('12 years old');
  });

  it('says what is missing instead of guessing', () => {
    const record = recordOf(caseText({ more: labs, patient: '  sex: female' }));
    expect(assessKidney(record, defaultLimits.kidney).calculations[0]?.notAssessed).toContain(
      'date of birth',
    );
  });

  it('works out urine output: 240 mL, 80 kg, 6 h is 0.50 mL/kg/h', () => {
    const more = 'after:\n  urine: [{ volume: 240 mL, from: "12:00", to: "18:00" }]';
    const record = recordOf(caseText({ more, patient: '  weight: 80 kg' }));
    expect(assessKidney(record, defaultLimits.kidney).calculations[0]?.result?.text).toBe('0.50 mL/kg/h');
  });
});
