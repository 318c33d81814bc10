import { describe, expect, it } from 'vitest';
import { assessBleeding } from '../../src/clinical/bleeding/bleeding.js';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { mergeLimits } from '../../src/clinical/limits.js';
import { describeDevices } from '../../src/devices/details.js';
import { remedyOf } from '../../src/findings/finding.js';
import { calculationRow } from '../../src/pipeline/check.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

const assess = (kind: string, more = '', limits = defaultLimits.bleeding) => {
  const record = recordOf(caseText({ kind, more }));
  return assessBleeding(record, limits, {}, describeDevices(record).devices);
};
const labs = (inr: string, platelets: string, more = '') =>
  `before:\n  labs: [{ what: INR, value: "${inr}", at: 2024-05-13 }, { what: platelets, value: "${platelets}", at: 2024-05-13 }${more}]`;

// Patel et al., JVIR 2019;30:1168, table 3, read in a transcription of the table.
describe('category by kind of case', () => {
  it.each([
    ['nephrostomy', 'high'],
    ['biliary drainage', 'high'],
    ['Abscess drainage', 'high'],
    ['gastrostomy', 'high'],
    ['liver biopsy', 'high'],
    ['nephrostomy exchange', 'low'],
    ['caval filter insertion', 'low'],
    ['dialysis circuit angioplasty', 'low'],
    ['dialysis-circuit angioplasty', 'low'],
    ['transjugular liver biopsy', 'low'],
    ['paracentesis', 'low'],
    ['Percutaneous renal biopsy, left', 'high'],
    ['PCN insertion', 'high'],
    ['nephrostomy tube change', 'low'],
    ['TIPS', 'high'],
    ['liver biopsy and paracentesis', 'high'],
    ['vertebroplasty', 'high'],
    ['lumbar puncture', 'low'],
  ])('%s is %s', (kind, risk) => {
    const found = assess(kind);
    expect(found.risk).toBe(risk);
    expect(english(found.calculations[0]?.basis)).toContain('transcription');
  });

  it.each(['ureteric stent', 'biopsy', 'constructor', '__proto__', 'something new'])(
    'does not classify %s',
    kind => {
      const found = assess(kind);
      expect(found.risk).toBeUndefined();
      expect(english(found.calculations[0]?.notAssessed)).toMatch(/no row|does not name/);
      expect(found.findings.map(f => [f.code, f.severity])).toEqual([
        ['clinical.bleeding-class-unknown', 'information'],
      ]);
    },
  );

  // The table: sheath under 6 Fr low, over 7 Fr high; 6 and 7 Fr stand in neither row.
  it.each([
    ['5 Fr', 'low'],
    ['6 Fr', undefined],
    ['7 Fr', undefined],
    ['8 Fr', 'high'],
  ])('limb artery work through a %s sheath is %s', (size, risk) => {
    const more = `devices: { s: { kind: introducer sheath, size: ${size} x 11 cm } }\nevents: [{ at: "09:05", do: insert, device: s }]`;
    expect(assess('limb artery angioplasty', more).risk).toBe(risk);
  });

  // The table: peripheral interventions and embolotherapy low; over 7 Fr all arterial work is high.
  it.each([
    ['', 'low'],
    ['4 Fr', 'low'],
    ['6 Fr', 'low'],
    ['8 Fr', 'high'],
  ])('embolisation of the knee through a %s sheath is %s', (size, risk) => {
    const more =
      size &&
      `devices: { s: { kind: introducer sheath, size: ${size} x 11 cm } }\nevents: [{ at: "09:05", do: insert, device: s }]`;
    for (const kind of ['genicular artery embolisation', 'GAE', 'Genicular artery embolization, left'])
      expect(assess(kind, more).risk, kind).toBe(risk);
  });

  it('says what to write where the table decides nothing', () => {
    const [found] = assess('epistaxis embolisation').findings;
    expect(found && remedyOf(found)).toContain(
      "'epistaxis embolisation: low' or 'epistaxis embolisation: high'",
    );
  });

  it('takes the word of the site first, and says so', () => {
    const record = recordOf(caseText({ kind: 'ureteric stent' }));
    const found = assessBleeding(record, defaultLimits.bleeding, { 'Ureteric Stent': 'high' });
    expect([found.risk, english(found.calculations[0]?.basis)]).toEqual(['high', 'the site configuration']);
  });
});

// Same guideline. High risk: INR to 1.5-1.8 or less, platelets from 50. Low risk: INR to 2.0-3.0 or less, platelets from 20.
describe('thresholds', () => {
  it.each([
    ['nephrostomy', '1.8', '50 x10^9/L', []],
    ['nephrostomy', '1.81', '50 x10^9/L', ['INR']],
    ['nephrostomy', '1.0', '49.9 x10^9/L', ['platelets']],
    ['nephrostomy', '1.0', '49 K/uL', ['platelets']],
    ['nephrostomy', '2.4', '12 x10^9/L', ['INR', 'platelets']],
    ['nephrostomy exchange', '3.0', '20 x10^9/L', []],
    ['nephrostomy exchange', '3.1', '19 x10^9/L', ['INR', 'platelets']],
    ['nephrostomy', '> 5', '> 150 x10^9/L', ['INR']],
    ['nephrostomy', '< 1.8', '< 50 x10^9/L', ['platelets']],
  ])('%s, INR %s, platelets %s', (kind, inr, platelets, expected) => {
    const { findings } = assess(kind, labs(inr, platelets));
    expect(findings.map(f => [f.code, english(f.params['lab'])])).toEqual(
      expected.map(lab => ['clinical.lab-threshold', lab]),
    );
    for (const f of findings) expect(f.basis).toContain('JVIR 2019;30:1168');
  });

  // Arterial access at low risk: INR under 1.8 femoral, under 2.2 radial.
  it.each([
    ['Right common femoral artery', '1.79', 0],
    ['Right common femoral artery', '1.8', 1],
    ['Left radial artery', '2.19', 0],
    ['Left radial artery', '2.2', 1],
    ['Right femoral vein', '2.9', 0],
  ])('low risk through the %s at an INR of %s', (site, inr, count) => {
    const more = `${labs(inr, '200 x10^9/L')}\naccess: [{ key: a, site: ${site} }]`;
    expect(assess('caval filter insertion', more).findings).toHaveLength(count);
  });

  // Chronic liver disease: high risk INR under 2.5, platelets over 30, fibrinogen over 100 mg/dL; low risk no INR.
  it.each([
    ['nephrostomy', '2.5', '30 x10^9/L', '1.0 g/L', []],
    ['nephrostomy', '2.6', '29 x10^9/L', '99 mg/dL', ['INR', 'platelets', 'fibrinogen']],
    ['paracentesis', '6', '20 x10^9/L', '1.2 g/L', []],
  ])(
    'with cirrhosis: %s, INR %s, platelets %s, fibrinogen %s',
    (kind, inr, platelets, fibrinogen, expected) => {
      const lab = `, { what: fibrinogen, value: ${fibrinogen}, at: 2024-05-13 }`;
      const more = `${labs(inr, platelets, lab)}\n  conditions: [Cirrhosis of the liver]`;
      const { findings } = assess(kind, more);
      expect(findings.map(f => english(f.params['lab']))).toEqual(expected);
    },
  );

  it('does not count a condition that is denied', () => {
    const more = `${labs('2.0', '200 x10^9/L')}\n  conditions: [no cirrhosis]`;
    expect(assess('nephrostomy', more).findings.map(f => f.code)).toEqual(['clinical.lab-threshold']);
  });

  it('says that it cannot tell when a value is only a bound', () => {
    expect(assess('nephrostomy', labs('> 1.2', '200 x10^9/L')).findings.map(f => f.code)).toEqual([
      'clinical.lab-undecided',
    ]);
  });

  it('misses labs at high risk only: they are not routine at low risk', () => {
    expect(assess('nephrostomy').findings.map(f => english(f.params['lab']))).toEqual(['INR', 'platelets']);
    expect(assess('nephrostomy exchange').findings).toEqual([]);
  });

  it('says when a value is old, to the day', () => {
    const at = (date: string) => labs('1.0', '200 x10^9/L').replaceAll('2024-05-13', date);
    expect(assess('nephrostomy', at('2024-04-14')).findings).toEqual([]);
    expect(assess('nephrostomy', at('2024-04-13')).findings.map(f => english(f.params['days']))).toEqual([
      '31',
      '31',
    ]);
  });

  it('names the site where the limit is its own', () => {
    const limits = mergeLimits(defaultLimits, {
      bleeding: { high: { inr: { value: '1.5', source: 'the policy of this hospital' } } },
    }).bleeding;
    const [found] = assess('nephrostomy', labs('1.6', '200 x10^9/L'), limits).findings;
    expect([english(found?.params['limit']), found?.basis]).toEqual(['1.5', 'the policy of this hospital']);
  });
});

it('gives the change of haemoglobin', () => {
  const more = `before:\n  labs: [{ what: haemoglobin, value: 118 g/L, at: 2024-05-13 }]\nafter:\n  labs: [{ what: haemoglobin, value: 9.6 g/dL, at: 2024-05-15 }]`;
  const found = assess('paracentesis', more).calculations.find(c => c.key === 'haemoglobin-change');
  expect(found && calculationRow(found).result).toMatchObject({
    text: 'fallen by 22 g/L',
    quantity: { value: '-22' },
  });
});
