import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { mergeLimits } from '../../src/clinical/limits.js';
import { assessRadiation } from '../../src/clinical/radiation/radiation.js';
import { messageOf } from '../../src/findings/finding.js';
import { calculationRow } from '../../src/pipeline/check.js';
import { convert, readQuantity } from '../../src/record/quantity.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

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
    expect(english(calculations.find(c => c.key === 'mean-field-area')?.result?.text)).toBe('64 cm²');
  });

  it('the same figures with the product in the wrong unit raise the slip and name its size', () => {
    const { findings } = assess(
      '{ kermaAreaProduct: 13639 cGy.cm2, airKerma: 212 mGy, fluoroscopyTime: 450 s }',
    );
    expect(findings.map(f => f.code)).toEqual(['clinical.dose-unit-slip']);
    expect(english(findings[0]?.params['slip'])).toContain('10');
  });
});

// AAPM MPPG 12.a (2022), sections 5.3 and 5.4: notify at 3 Gy, substantial at 5 Gy of air kerma; 3 Gy of peak skin dose.
describe('levels', () => {
  it.each([
    ['2.99 Gy', []],
    ['3 Gy', ['clinical.dose-notify']],
    ['4999 mGy', ['clinical.dose-notify']],
    ['5 Gy', ['clinical.dose-substantial', 'clinical.dose-notify']],
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
    expect(english(calculations.find(c => c.key === 'air-kerma-cumulative')?.result?.text)).toBe('5 Gy');
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

  it.each([
    ['3.99 Gy', 'Air kerma 3.99 Gy reached the notification level of 3 Gy.'],
    ['4 Gy', 'Air kerma 4 Gy reached the notification level of 3 Gy, and the step at 4 Gy.'],
    ['6300 mGy', 'Air kerma 6300 mGy reached the notification level of 3 Gy, and the step at 6 Gy.'],
  ])('says which step was passed: %s', (kerma, message) => {
    expect(assess(`{ airKerma: ${kerma} }`).findings.map(f => messageOf(f))).toContain(message);
  });

  // SIR 2009 and NCRP Report 168, from memory; each says so.
  it.each([
    ['{ kermaAreaProduct: 300 Gy.cm2 }', ['clinical.dose-notify']],
    ['{ kermaAreaProduct: 500 Gy.cm2 }', ['clinical.dose-substantial', 'clinical.dose-notify']],
    ['{ fluoroscopyTime: "29:59" }', []],
    ['{ fluoroscopyTime: "30:00" }', ['clinical.dose-notify']],
    ['{ fluoroscopyTime: 1 h }', ['clinical.dose-substantial', 'clinical.dose-notify']],
    ['{ peakSkinDose: 2 Gy }', ['clinical.dose-notify']],
  ])('with the levels from memory %s gives %s, marked so', (radiation, codes) => {
    const limits = defaultLimits.radiation;
    const text = caseText({ more: `radiation: ${radiation}`, patient: '  pregnant: not applicable' });
    const { findings } = assessRadiation(recordOf(text), limits);
    expect(findings.map(f => f.code)).toEqual(codes);
    for (const f of findings.filter(f => f.code === 'clinical.dose-notify'))
      expect(f.basis).toContain('from memory');
  });

  it('says at least how much it was when an earlier figure is missing', () => {
    const { calculations } = assess(
      '{ airKerma: 1 Gy, earlier: [{ date: 2024-03-01, airKerma: 2 Gy }, { date: 2024-04-01 }] }',
    );
    const found = calculations.find(c => c.key === 'air-kerma-cumulative');
    expect(found && calculationRow(found).result).toMatchObject({
      text: 'at least 3 Gy',
      quantity: { value: '3', comparator: '>=' },
    });
  });

  it('says why there is no sum when the figure of this case is missing', () => {
    const { calculations } = assess('{ frames: 4, earlier: [{ date: 2024-03-01, airKerma: 2 Gy }] }');
    expect(english(calculations.find(c => c.key === 'air-kerma-cumulative')?.notAssessed)).toContain(
      'this case',
    );
  });

  it('takes the window by the calendar, its first day included', () => {
    // 180 days before 14 May 2024 is 16 November 2023.
    const sum = (date: string) =>
      english(
        assess(`{ airKerma: 1 Gy, earlier: [{ date: ${date}, airKerma: 2 Gy }] }`).calculations.find(
          c => c.key === 'air-kerma-cumulative',
        )?.result?.text,
      );
    expect(sum('2023-11-16')).toBe('3 Gy');
    expect(sum('2023-11-15')).toBeUndefined();
    expect(sum('2024-05-15')).toBeUndefined();
  });

  it('compares with the local reference level of the kind of case and says whose it is', () => {
    const limits = mergeLimits(defaultLimits, {
      radiation: { local: { Nephrostomy: { value: '10', source: 'the dose audit of 2023' } } },
    }).radiation;
    const text = caseText({ more: 'radiation: { kermaAreaProduct: 1001 cGy.cm2 }', patient: '  sex: male' });
    const [found] = assessRadiation(recordOf(text), limits).findings;
    expect([found?.code, found?.basis]).toEqual([
      'clinical.dose-local',
      'local reference level: the dose audit of 2023',
    ]);
  });

  it('lets a site switch a level off', () => {
    const limits = mergeLimits(defaultLimits, {
      radiation: { airKermaNotify: 'off', airKermaSubstantial: 'off' },
    });
    const text = caseText({ more: 'radiation: { airKerma: 9 Gy }', patient: '  sex: male' });
    expect(assessRadiation(recordOf(text), limits.radiation)).toMatchObject({
      findings: [],
      substantial: false,
    });
  });

  it('does not take not knowing for not asking', () => {
    expect(
      assess('{ airKerma: 1 Gy }', '  sex: female\n  pregnant: unknown').findings.map(f => f.code),
    ).toEqual(['clinical.pregnancy-unknown']);
  });
});

describe('contradictions', () => {
  const codes = (radiation: string) => assess(radiation).findings.map(f => `${f.code} ${f.path}`);

  it.each([
    // One console's figures, written in each other unit by mistake.
    [
      '{ kermaAreaProduct: 13.639 cGy.cm2, airKerma: 212 mGy }',
      'clinical.dose-unit-slip radiation.kermaAreaProduct',
    ],
    [
      '{ kermaAreaProduct: 13.639 Gy.cm2, airKerma: 212 Gy }',
      'clinical.dose-unit-slip radiation.kermaAreaProduct',
    ],
    [
      '{ kermaAreaProduct: 13.639 Gy.m2, airKerma: 212 mGy }',
      'clinical.dose-unit-slip radiation.kermaAreaProduct',
    ],
    [
      '{ kermaAreaProduct: 13639 Gy.cm2, fluoroscopyTime: 450 s }',
      'clinical.dose-rate radiation.kermaAreaProduct',
    ],
    ['{ airKerma: 212 Gy, fluoroscopyTime: 450 s }', 'clinical.dose-rate radiation.airKerma'],
    ['{ airKerma: -2 mGy }', 'clinical.dose-negative radiation.airKerma'],
  ])('%s', (radiation, expected) => {
    expect(codes(radiation)).toContain(expected);
  });

  it('needs both figures', () => {
    expect(codes('{ kermaAreaProduct: 136.39 Gy.cm2 }')).toEqual([]);
    expect(codes('{ fluoroscopyTime: 450 s }')).toEqual([]);
  });
});

/*
 * DICOM PS3.16 as the package hl7.fhir.r4.examples carries it (CodeSystem-dicom-dcim.json, 113838): dose-length product,
 * expressed in mGy-cm, is CTDIvol times the length scanned. The range of lengths is common practice, no source.
 */
describe('CT', () => {
  const ct = (radiation: string) => assess(`{ ${radiation} }`);
  const lengthOf = (radiation: string) =>
    english(ct(radiation).calculations.find(c => c.key === 'scanned-length')?.result?.text);

  it('is defined so in the dictionary', () => {
    const dictionary = JSON.parse(
      readFileSync(
        new URL('../../node_modules/hl7.fhir.r4.examples/CodeSystem-dicom-dcim.json', import.meta.url),
        'utf8',
      ),
    );
    const concept = dictionary.concept.find((c: { code: string }) => c.code === '113838');
    expect(concept.definition).toContain('expressed in mGy-cm');
    expect(concept.definition).toContain('DLP = CTDIvol x Scanning Length');
  });

  it.each([
    ['1 Gy·cm', '1000'],
    ['386 mGy·cm', '386'],
    ['386 mGy.cm', '386'],
    ['386 mGycm', '386'],
    ['386 mGy-cm', '386'],
    ['0.386 Gy cm', '386'],
  ])('%s is %s mGy·cm', (written, expected) => {
    const read = readQuantity(written, ['kermaLength']);
    expect(read.ok && convert(read.value, 'mGy.cm')?.toString()).toBe(expected);
  });

  it.each(['386 mGy·cm²', '386 mGy', '386 MGy·cm', '386'])('%s is no dose-length product', written => {
    expect(readQuantity(written, ['kermaLength']).ok).toBe(false);
  });

  it.each([
    ['doseLengthProduct: 386 mGy·cm, ctDoseIndex: 8.4 mGy', '46 cm'],
    ['doseLengthProduct: 0.386 Gy·cm, ctDoseIndex: 0.0084 Gy', '46 cm'],
    ['doseLengthProduct: 21 mGy·cm, ctDoseIndex: 8.4 mGy', '2.5 cm'],
    ['doseLengthProduct: 386 mGy·cm', undefined],
    ['ctDoseIndex: 8.4 mGy', undefined],
    ['doseLengthProduct: 386 mGy·cm, ctDoseIndex: 0 mGy', undefined],
    ['doseLengthProduct: "< 386 mGy·cm", ctDoseIndex: 8.4 mGy', undefined],
    ['kermaAreaProduct: 4 Gy·cm2, ctDoseIndex: 8.4 mGy', undefined],
  ])('%s: a scanned length of %s', (radiation, length) => {
    expect(lengthOf(radiation)).toBe(length);
  });

  it.each([
    ['doseLengthProduct: 2000 mGy·cm, ctDoseIndex: 10 mGy', undefined],
    ['doseLengthProduct: 2001 mGy·cm, ctDoseIndex: 10 mGy', '10 or 100 or 1000'],
    ['doseLengthProduct: 150 mGy·cm, ctDoseIndex: 10 mGy', undefined],
    ['doseLengthProduct: 149 mGy·cm, ctDoseIndex: 10 mGy', 'The scan was short'],
    ['doseLengthProduct: 1 mGy·cm, ctDoseIndex: 10 mGy', 'The scan was short'],
    ['doseLengthProduct: 0.99 mGy·cm, ctDoseIndex: 10 mGy', '10 or 100 or 1000'],
    ['doseLengthProduct: 386 Gy·cm, ctDoseIndex: 8.4 mGy', '1000'],
    ['doseLengthProduct: 386 mGy·cm, ctDoseIndex: 8.4 Gy', '10 or 100 or 1000'],
    ['doseLengthProduct: 9000000 mGy·cm, ctDoseIndex: 1 mGy', 'No single slip'],
  ])('%s: %s', (radiation, slip) => {
    const { findings } = ct(radiation);
    expect(findings.map(f => f.code)).toEqual(slip === undefined ? [] : ['clinical.dose-scan-length']);
    if (slip === undefined) return;
    expect(findings.map(f => messageOf(f))[0]).toContain(slip);
    expect(findings[0]?.basis).toBe('common practice, no source');
    expect(findings[0]?.path).toBe('radiation.doseLengthProduct');
  });

  it('is held to the limits of the site, or to none', () => {
    const record = recordOf(
      caseText({
        more: 'radiation: { doseLengthProduct: 386 mGy·cm, ctDoseIndex: 8.4 mGy }',
        patient: '  pregnant: not applicable',
      }),
    );
    const own = { value: '40', source: 'CT policy 2024' };
    const findings = (limits: Partial<typeof defaultLimits.radiation>) =>
      assessRadiation(record, { ...defaultLimits.radiation, ...limits }).findings;
    expect(findings({ scanMost: own }).map(f => f.basis)).toEqual([
      'common practice, no source; CT policy 2024',
    ]);
    const { scanLeast: _least, scanMost: _most, scanShort: _short, ...off } = defaultLimits.radiation;
    expect(assessRadiation(record, off).findings).toEqual([]);
  });

  it('reaches no level of the skin, of the product or of the place, however much it is', () => {
    const { findings, substantial } = ct('doseLengthProduct: 900000 mGy·cm, ctDoseIndex: 9 Gy');
    expect(findings).toEqual([]);
    expect(substantial).toBe(false);
  });

  it.each(['doseLengthProduct: -1 mGy·cm', 'ctDoseIndex: -1 mGy'])('%s is below zero', radiation => {
    expect(ct(radiation).findings.map(f => f.code)).toEqual(['clinical.dose-negative']);
    expect(lengthOf(radiation)).toBeUndefined();
  });
});
