import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';

import { messageOf } from '../../src/findings/finding.js';
import { calculationRow } from '../../src/pipeline/check.js';
import { caseText, recordOf } from '../support/case-text.js';

const check = (more: string, patient = '') => assess(recordOf(caseText({ more, patient })));
const unlikely = (more: string, patient = '') =>
  check(more, patient)
    .findings.filter(f => f.code === 'clinical.value-unlikely')
    .map(f => `${f.path}: ${messageOf(f)}`);
const lab = (what: string, value: string) =>
  `before: { labs: [{ what: ${what}, value: "${value}", at: 2024-05-13 }] }`;

// Ranges: common practice, no source.
describe('weight and height', () => {
  const adult = '  birthDate: 1970-01-01\n';
  const child = '  birthDate: 2020-01-01\n';

  it.each([
    [`${adult}  weight: 760 kg`, '76 kg'],
    [`${adult}  weight: 6.4 kg`, '64 kg'],
    [`${adult}  weight: 78000 kg`, '78000 g'],
    [`${adult}  height: 17.4 cm`, '174 cm'],
    [`${adult}  height: 174 m`, '1.74 m'],
    [`${child}  weight: 65 kg`, '65 lb'],
    [`${child}  weight: 1.65 kg`, '16.5 kg'],
    [`${child}  height: 10.2 cm`, '102 cm'],
  ])('%s cannot be right: %s would fit', (patient, would) => {
    const [found] = unlikely('', patient);
    expect(found).toContain('cannot be right');
    expect(found).toContain(would);
  });

  it.each([
    `${adult}  weight: 42 kg\n  height: 150 cm`,
    `${adult}  weight: 190 kg\n  height: 178 cm`,
    `${child}  weight: 16.5 kg\n  height: 102 cm`,
    '  birthDate: 2024-05-01\n  weight: 3.2 kg\n  height: 50 cm',
    '  birthDate: 2012\n  weight: 61 kg',
    '  weight: 14 kg',
  ])('%s is possible', patient => {
    expect(unlikely('', patient)).toEqual([]);
  });

  it('are compared with one another', () => {
    expect(unlikely('', `${adult}  weight: 178 kg\n  height: 95 cm`)[0]).toContain('body mass index of 197');
  });

  it('that cannot be right are not calculated with', () => {
    const more =
      'drugs: [{ drug: Lidocaine, dose: 10 mL, strength: 1 %, route: local infiltration, at: "09:00", for: local anaesthesia }]';
    const [found] = check(more, `${child}  weight: 65 kg`).calculations.filter(c =>
      c.key.startsWith('local-anaesthetic'),
    );
    expect(found && calculationRow(found).notAssessed).toContain('cannot be right');
  });
});

describe('laboratory values, contrast and doses of radiation', () => {
  it.each([
    [lab('haemoglobin', '9.2 g/L'), '9.2 g/dL'],
    [lab('haemoglobin', '141 g/dL'), '141 g/L'],
    [lab('potassium', '51 mmol/L'), '5.1 mmol/L'],
    [lab('potassium', '> 51 mmol/L'), '5.1 mmol/L'],
    [lab('creatinine', '0.9 µmol/L'), '0.9 mg/dL'],
    [lab('platelets', '11.8 x10^9/L'), '118'],
    [lab('C-reactive protein', '2120 mg/L'), '212 mg/L'],
    ['contrast: [{ agent: iohexol, volume: 25 L, route: intravenous }]', '25 mL'],
    [
      'contrast: [{ agent: iohexol, concentration: 3000 mg/mL, volume: 25 mL, route: intravenous }]',
      '300 mg/mL',
    ],
    ['radiation: { fluoroscopyTime: 31 h }', '31'],
  ])('%s cannot be right: %s would fit', (more, would) => {
    expect(unlikely(more).join()).toContain(would);
  });

  it.each([
    lab('platelets', '118 x10^9/L'),
    lab('platelets', '8.5 x10^9/L'),
    lab('platelets', '11800 /µL'),
    lab('C-reactive protein', '< 5 mg/L'),
    lab('haemoglobin', '71 g/L'),
    'contrast: [{ agent: carbon dioxide, volume: 80 mL, route: intravenous }]',
  ])('%s is possible', more => {
    expect(unlikely(more)).toEqual([]);
  });

  it('refuses none at all', () => {
    expect(unlikely(lab('potassium', '0 mmol/L'))).toHaveLength(1);
    expect(unlikely(lab('potassium', '< 0 mmol/L'))).toHaveLength(1);
  });
});

describe('filtration of a child', () => {
  const rowOf = (what: string, patient: string) => {
    const { calculations } = check(
      `before: { labs: [{ what: "${what}", value: 0.5 mg/dL, at: 2024-05-13 }] }`,
      patient,
    );
    const found = calculations.find(c => c.key === 'egfr-bedside');
    return found && calculationRow(found);
  };

  // Schwartz et al., J Am Soc Nephrol 2009;20:629: 0.413 × 110 cm ÷ 0.5 mg/dL = 90.9, worked out by hand.
  it('goes by height and creatinine, and says where the method is not known', () => {
    const patient = '  birthDate: 2018-12-14\n  height: 110 cm';
    const plain = rowOf('creatinine', patient);
    expect(plain?.result?.text).toBe('91 mL/min/1.73 m²');
    expect(plain?.rule).toContain('method of this value is not recorded');
    expect(rowOf('creatinine, enzymatic', patient)?.rule).not.toContain('not recorded');
  });

  it('needs the height, and a child of one year', () => {
    expect(rowOf('creatinine', '  birthDate: 2018-12-14')?.notAssessed).toContain('no height');
    expect(rowOf('creatinine', '  birthDate: 2024-01-14\n  height: 60 cm')?.notAssessed).toContain('from 1');
  });
});

describe('volume of contrast', () => {
  const over = (volume: string, creatinine: string, patient: string) =>
    check(
      `contrast: [{ agent: iohexol, volume: ${volume}, route: intra-arterial }]\n` +
        `before: { labs: [{ what: creatinine, value: ${creatinine}, at: 2024-05-13 }] }`,
      patient,
    )
      .findings.filter(f => f.code === 'clinical.contrast-volume')
      .map(f => f.params['limit']);

  // Cigarroa et al., Am J Med 1989;86:649: 5 mL/kg over creatinine in mg/dL, at most 300 mL; from memory.
  it('goes by weight and kidney function, with a limit for anyone', () => {
    const patient = '  birthDate: 1960-01-01\n  weight: 60 kg';
    expect(over('151 mL', '2 mg/dL', patient)).toEqual([{ number: '150' }]);
    expect(over('150 mL', '2 mg/dL', patient)).toEqual([]);
    expect(over('301 mL', '0.6 mg/dL', patient)).toEqual([{ number: '300' }]);
    expect(over('130 mL', '0.4 mg/dL', '  birthDate: 2018-01-01\n  weight: 20 kg')).toEqual([
      { number: '120' },
    ]);
  });
});
