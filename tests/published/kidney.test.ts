import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import {
  akiStage,
  creatinineMgDl,
  creatinineMicromol,
  egfrCreatinine,
  urineStage,
} from '../../src/clinical/kidney/equations.js';
import { assessKidney } from '../../src/clinical/kidney/kidney.js';
import { messageOf } from '../../src/findings/finding.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

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
    expect(scr?.toNumber()).toBeCloseTo(1.697, 3);
    // The factors 88.4 and 88.42 are both in use; they differ here by less than 0.03.
    expect(Math.abs(egfrCreatinine(scr?.toNumber() ?? 0, 65, 'male') - 44.3)).toBeLessThan(0.03);
    expect(Math.abs(egfrCreatinine(scr?.toNumber() ?? 0, 65, 'female') - 33.16)).toBeLessThan(0.03);
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
    [100, 150, 169, undefined],
    [100, 400, 169, undefined],
    [100, 150, -1, undefined],
    [100, 199.9, 100, 1],
    [100, 200, 100, 2],
    [100, 299.9, 100, 2],
    [100, 300, 100, 3],
    [330, 353.5, 24, 0],
    [300, 353.6, 24, 3],
    [300, 353.6, 100, 0],
  ])('%s to %s µmol/L in %s h is stage %s', (base, later, hours, stage) => {
    expect(akiStage(new Decimal(base), new Decimal(later), hours)).toBe(stage);
  });
});

// The same table gives the thresholds in both units: 0.3 mg/dL with 26.5 µmol/L, and 4.0 mg/dL with 353.6 µmol/L.
describe('KDIGO stage of values in mg/dL', () => {
  const stage = (base: string, later: string) => {
    const read = (value: string) =>
      creatinineMicromol({ value, unit: 'mg/dL', code: 'mg/dL' }) ?? new Decimal(0);
    return akiStage(read(base), read(later), 24);
  };

  it.each([
    ['1.0', '1.2', 0],
    ['1.0', '1.3', 1],
    ['0.7', '1.0', 1],
    ['1.1', '1.4', 1],
    ['3.6', '3.9', 1],
    ['3.7', '4.0', 3],
  ])('%s to %s in a day is stage %s', (base, later, expected) => {
    expect(stage(base, later)).toBe(expected);
  });
});

// KDIGO 2012, table 2, urine output criteria.
describe('KDIGO stage by urine output', () => {
  it.each([
    ['0.49', 5.9, undefined],
    ['0.50', 6, 0],
    ['0.49', 6, 1],
    ['0.49', 11.9, 1],
    ['0.49', 12, 2],
    ['0.29', 23.9, 2],
    ['0.29', 24, 3],
    ['0.30', 24, 2],
    ['0', 11.9, 1],
    ['0', 12, 3],
  ])('%s mL/kg/h over %s h is %s', (rate, hours, expected) => {
    expect(urineStage(new Decimal(rate), hours)).toBe(expected);
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
    expect(english(found?.result?.text)).toBe('49 mL/min/1.73 m²');
    expect(found?.inputs.map(i => english(i.value))).toEqual(['138 µmol/L', '65 years', 'male']);
  });

  it('refuses a child and says why', () => {
    const record = recordOf(caseText({ more: labs, patient: '  birthDate: 2012-01-30\n  sex: female' }));
    const { calculations, egfr } = assessKidney(record, defaultLimits.kidney);
    expect(egfr).toBeUndefined();
    // A child has the bedside equation, which needs the height.
    expect(calculations.map(c => c.key)).not.toContain('egfr');
    expect(english(calculations.find(c => c.key === 'egfr-bedside')?.notAssessed)).toContain('height');
  });

  it('says what is missing instead of guessing', () => {
    const record = recordOf(caseText({ more: labs, patient: '  sex: female' }));
    expect(english(assessKidney(record, defaultLimits.kidney).calculations[0]?.notAssessed)).toContain(
      'date of birth',
    );
  });

  it('works out urine output: 240 mL, 80 kg, 6 h is 0.50 mL/kg/h', () => {
    const more = 'after:\n  urine: [{ volume: 240 mL, from: "12:00", to: "18:00" }]';
    const record = recordOf(caseText({ more, patient: '  weight: 80 kg' }));
    expect(
      english(
        assessKidney(record, defaultLimits.kidney).calculations.find(c => c.key === 'urine-output/1')?.result
          ?.text,
      ),
    ).toBe('0.50 mL/kg/h');
  });

  const of = (
    more: string,
    patient = '  birthDate: 1959-04-21\n  sex: male\n  weight: 80 kg',
    kind = 'nephrostomy',
  ) => assessKidney(recordOf(caseText({ more, patient, kind })), defaultLimits.kidney);
  const lab = (value: string, at: string) => `{ what: creatinine, value: ${value}, at: ${at} }`;

  it('uses the last value before the case, and takes a day as before its hours', () => {
    const more = `before:\n  labs: [${lab('200 µmol/L', '2024-05-14')}, ${lab('138 µmol/L', '2024-05-14T08:59')}, ${lab('90 µmol/L', '2024-05-14T09:01')}]`;
    const found = of(more).calculations.find(c => c.key === 'egfr');
    expect(found?.inputs[0]?.path).toBe('before.labs[1]');
  });

  it('counts a value of the day of the case where the clocks are ahead of UTC', () => {
    const text = caseText({
      more: `before:\n  labs: [${lab('138 µmol/L', '2024-05-14')}]`,
      patient: '  birthDate: 1959-04-21\n  sex: male',
    }).replace('Europe/Lisbon', 'Pacific/Auckland');
    expect(assessKidney(recordOf(text), defaultLimits.kidney).egfr).toBeGreaterThan(40);
  });

  it.each([
    ['88 mmol/L', 'no value within'],
    ['1.3 µmol/L', 'no value within'],
    ['"< 20 µmol/L"', 'no value within'],
    ['0 µmol/L', 'no value within'],
  ])('does not use creatinine of %s', (value, why) => {
    const result = of(`before:\n  labs: [${lab(value, '2024-05-13')}]`);
    expect(result.egfr).toBeUndefined();
    const one = result.calculations.find(c => c.key === 'egfr' || c.key === 'egfr-bedside');
    expect(english(one?.notAssessed)).toContain(why);
  });

  it.each([
    ['  birthDate: 1959-04\n  sex: male', 'to the day'],
    ['  birthDate: 1959-04-21', 'sex female or male'],
    ['  birthDate: 1859-04-21\n  sex: male', 'cannot be right'],
    ['  birthDate: 2030-01-01\n  sex: male', 'cannot be right'],
    ['  birthDate: 2006-05-15\n  sex: male', 'height'],
  ])('says why it cannot be worked out: %s', (patient, why) => {
    const result = of(`before:\n  labs: [${lab('90 µmol/L', '2024-05-13')}]`, patient);
    const one = result.calculations.find(c => c.key === 'egfr' || c.key === 'egfr-bedside');
    expect(english(one?.notAssessed)).toContain(why);
  });

  it('uses the equation from the eighteenth birthday on', () => {
    const more = `before:\n  labs: [${lab('90 µmol/L', '2024-05-13')}]`;
    expect(of(more, '  birthDate: 2006-05-14\n  sex: male').egfr).toBeGreaterThan(60);
  });

  // CKD-EPI 2012 for cystatin C, from memory; worked by hand: 133 × (1.2 ÷ 0.8)^−1.328 × 0.996^65.
  it('uses cystatin C where it is given, marked as from memory', () => {
    const more = 'before:\n  labs: [{ what: cystatin C, value: 1.2 mg/L, at: 2024-05-13 }]';
    const found = of(more).calculations.find(c => c.key === 'egfr-cystatin');
    expect(english(found?.result?.text)).toBe(
      `${(133 * 1.5 ** -1.328 * 0.996 ** 65).toFixed(0)} mL/min/1.73 m²`,
    );
    expect(english(found?.basis)).toContain('from memory');
  });

  const kidney = (before: string, after: string) => {
    const result = of(`before:\n  labs: [${before}]\nafter:\n  labs: [${after}]`);
    const found = result.calculations.find(c => c.key === 'kidney-injury');
    return {
      text: english(found?.result?.text) ?? `no: ${english(found?.notAssessed)}`,
      codes: result.findings.map(f => f.code),
    };
  };

  it('stages injury after the case and says so', () => {
    const found = kidney(lab('100 µmol/L', '2024-05-14T08:00'), lab('210 µmol/L', '2024-05-17T08:00'));
    expect(found).toEqual({ text: 'stage 2', codes: ['clinical.kidney-injury'] });
  });

  it('finds a rise within 48 h between two values after the case', () => {
    const found = kidney(
      lab('100 µmol/L', '2024-05-11T08:00'),
      `${lab('98 µmol/L', '2024-05-15T08:00')}, ${lab('130 µmol/L', '2024-05-17T08:00')}`,
    );
    expect(found.text).toBe('stage 1');
  });

  it('does not call it absent when the values lie further apart than the criteria reach', () => {
    const found = kidney(lab('100 µmol/L', '2024-05-01T08:00'), lab('160 µmol/L', '2024-05-17T08:00'));
    expect(found).toEqual({ text: 'no: the values lie more than 7 days apart', codes: [] });
  });

  it('does not guess the hours of a day', () => {
    // 13 to 15 May may be 24 h or 72 h apart: the rise of 30 counts within 48 h only.
    const found = kidney(lab('100 µmol/L', '2024-05-13'), lab('130 µmol/L', '2024-05-15'));
    expect(found.text).toContain('depends on the times of day');
    expect(kidney(lab('100 µmol/L', '2024-05-13'), lab('250 µmol/L', '2024-05-15')).text).toBe('stage 2');
  });

  it('says what is missing for it', () => {
    expect(
      kidney('{ what: INR, value: 1.0, at: 2024-05-13 }', lab('130 µmol/L', '2024-05-15')).text,
    ).toContain('no creatinine before');
  });

  it('gives the direction in words, across units', () => {
    const result = of(
      `before:\n  labs: [${lab('231 µmol/L', '2024-05-11')}, ${lab('138 µmol/L', '2024-05-14')}]\nafter:\n  labs: [${lab('1.5 mg/dL', '2024-05-15')}]`,
    );
    const text = (key: string) => english(result.calculations.find(c => c.key === key)?.result?.text);
    expect(text('creatinine-trend/before')).toBe('falling: 231 µmol/L to 138 µmol/L (−40 %)');
    // 1.5 × 88.4 = 132.6 µmol/L, 4 % under 138.
    expect(text('creatinine-trend/after')).toBe('falling: 138 µmol/L to 1.5 mg/dL (−4 %)');
  });

  const contrast = (labs: string) =>
    of(`before:\n  labs: [${labs}]\ncontrast: [{ agent: iohexol, volume: 20 mL, route: intravenous }]`)
      .findings;

  // ACR and National Kidney Foundation consensus 2020 (Radiology 2020;294:660): high risk under 30.
  it('warns of intravascular contrast under 30 mL/min/1.73 m² and names whose limit it is', () => {
    const found = contrast(lab('265 µmol/L', '2024-05-13'));
    expect(found.map(f => [f.code, english(f.params['egfr'])])).toEqual([['clinical.egfr-contrast', '22.4']]);
    expect(found[0]?.basis).toContain('ACR');
    expect(contrast(lab('138 µmol/L', '2024-05-13'))).toEqual([]);
  });

  it('says that it was not assessed, and why, where creatinine is missing', () => {
    expect(
      contrast('{ what: INR, value: 1.0, at: 2024-05-13 }')
        .map(f => messageOf(f))
        .join(),
    ).toContain('no creatinine before the case is recorded');
  });

  it('says when the creatinine is old', () => {
    expect(contrast(lab('90 µmol/L', '2024-04-13')).map(f => f.code)).toEqual(['clinical.lab-old']);
    expect(contrast(lab('90 µmol/L', '2024-04-14'))).toEqual([]);
  });

  it('leaves out contrast that did not go into a vessel', () => {
    const more = `before:\n  labs: [${lab('400 µmol/L', '2024-05-13')}]\ncontrast: [{ agent: iohexol, volume: 20 mL, route: into the urinary tract }]`;
    expect(of(more).findings).toEqual([]);
  });

  it('does not estimate filtration on dialysis', () => {
    const result = of(
      `before:\n  conditions: ["Haemodialysis on Tuesday, Thursday and Saturday"]\n  labs: [${lab('700 µmol/L', '2024-05-13')}]\ncontrast: [{ agent: iohexol, volume: 20 mL, route: intravenous }]`,
    );
    expect(result.findings).toEqual([]);
    expect(english(result.calculations.find(c => c.key === 'egfr')?.notAssessed)).toContain('dialysis');
  });

  it.each([
    ['', 'the weight is not recorded'],
    ['  weight: 8000 kg', 'outside 0.3 to 400 kg'],
    ['  weight: 0 kg', 'outside 0.3 to 400 kg'],
  ])('does not work out urine output with a weight of "%s"', (patient, why) => {
    const more = 'after:\n  urine: [{ volume: 240 mL, from: "12:00", to: "18:00" }]';
    expect(english(of(more, patient).calculations[0]?.notAssessed)).toContain(why);
  });
});
