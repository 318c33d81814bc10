import { describe, expect, it } from 'vitest';
import { toR4B, toR5 } from '../../../src/fhir/r5/versions.js';
import { writeFhirJson } from '../../../src/json/write.js';
import { caseText, mapped, resourceOf } from '../cases.js';

const drugOf = (line: string) =>
  resourceOf(mapped(caseText(`drugs: [{ ${line}, at: "09:10" }]`)).set, 'drug/1', 'MedicationAdministration');
const contrastOf = (line: string) =>
  resourceOf(
    mapped(caseText(`contrast: [{ ${line}, at: "09:10" }]`)).set,
    'contrast/1',
    'MedicationAdministration',
  );

const UCUM = 'http://unitsofmeasure.org';
const perMl = (value: number, unit = 'mg', code = unit) => ({
  numerator: { value, unit, system: UCUM, code },
  denominator: { value: 1, unit: 'mL', system: UCUM, code: 'mL' },
});

describe('strength of a drug', () => {
  it('is that of the ingredient of a contained Medication', () => {
    const given = drugOf('drug: Lidocaine, dose: 10 mL, strength: 1 %, route: local infiltration');
    expect(given.contained).toMatchObject([
      {
        resourceType: 'Medication',
        id: 'medication',
        code: { text: 'Lidocaine' },
        ingredient: [{ itemCodeableConcept: { text: 'Lidocaine' }, isActive: true, strength: perMl(10) }],
      },
    ]);
    expect(given.medicationReference).toEqual({ reference: '#medication', display: 'Lidocaine' });
    expect(given.medicationCodeableConcept).toBeUndefined();
  });

  it('tells the mass of a volume, and the dose as it was recorded', () => {
    const { dosage } = drugOf('drug: Lidocaine, dose: 10.0 mL, strength: 1 %, route: local infiltration');
    expect(dosage?.text).toBe('10.0 mL (100 mg), 1 %, local infiltration');
    expect(writeFhirJson(dosage ?? {})).toContain('"value": 10.0');
    expect(dosage?.dose).toMatchObject({ unit: 'mL', code: 'mL' });
  });

  it.each([
    ['Heparin', '5 mL', '5000 IU/mL', perMl(5000, 'IU', '[iU]'), '5 mL (25000 IU), 5000 IU/mL, intravenous'],
    ['Adrenaline', '0.5 mL', '1:1000', perMl(1), '0.5 mL (0.5 mg), 1:1000, intravenous'],
    ['Fentanyl', '2 mL', '50 µg/mL', perMl(0.05), '2 mL (0.1 mg), 50 µg/mL, intravenous'],
    ['Fentanyl', '100 µg', '50 µg/mL', perMl(0.05), '100 µg, 50 µg/mL, intravenous'],
  ])('%s %s of %s', (drug, dose, strength, ratio, text) => {
    const given = drugOf(`drug: ${drug}, dose: ${dose}, strength: "${strength}", route: intravenous`);
    expect(given.contained).toMatchObject([{ ingredient: [{ strength: ratio }] }]);
    expect(given.dosage?.text).toBe(text);
  });

  it.each([
    ['without a strength', 'drug: Lidocaine, dose: 10 mL, route: local infiltration'],
    ['in words', 'drug: Lidocaine, dose: 10 mL, strength: weak, route: local infiltration'],
    [
      'of two drugs',
      'drug: Lidocaine with adrenaline, dose: 10 mL, strength: 1 %, route: local infiltration',
    ],
    [
      'of two drugs in the strength',
      'drug: Lidocaine, dose: 10 mL, strength: 1 % with adrenaline, route: other',
    ],
    ['by volume', 'drug: Ethanol, dose: 10 mL, strength: 96 %, route: other'],
    ['of a gas', 'drug: Oxygen, dose: 10 mL, strength: 40 %, route: inhaled'],
    ['of a cream', 'drug: Lidocaine, dose: 2 g, strength: 5 %, route: topical'],
    ['as a dilution', 'drug: Heparin, dose: 10 mL, strength: "1:3", route: intravenous'],
  ])('is not worked out %s', (_, line) => {
    const given = drugOf(line);
    expect(given.contained).toBeUndefined();
    expect(given.medicationCodeableConcept?.text).toBeTruthy();
    expect(given.dosage?.text).not.toContain('(');
  });
});

describe('iodine of contrast', () => {
  it('is the ingredient, with the digits of the record', () => {
    const given = contrastOf('agent: iohexol, concentration: 300.0 mg/mL, volume: 40 mL, route: intravenous');
    expect(given.contained).toMatchObject([
      {
        code: { text: 'iohexol' },
        ingredient: [{ itemCodeableConcept: { text: 'iodine' }, isActive: true, strength: perMl(300) }],
      },
    ]);
    expect(writeFhirJson(given)).toContain('"value": 300.0');
    expect(given.dosage?.text).toBe('40 mL (12000 mg of iodine), 300.0 mg/mL, intravenous');
  });

  it('is gadolinium of an agent that has it', () => {
    const given = contrastOf('agent: gadobutrol, concentration: 157 g/L, volume: 7 mL, route: intravenous');
    expect(given.contained).toMatchObject([
      { ingredient: [{ itemCodeableConcept: { text: 'gadolinium' }, strength: perMl(157) }] },
    ]);
  });

  it('is not told of an agent that nobody knows, of one without, and of a bound', () => {
    for (const line of [
      'agent: something, concentration: 300 mg/mL, volume: 40 mL, route: intravenous',
      'agent: barium, concentration: 300 mg/mL, volume: 40 mL, route: oral',
      'agent: iohexol, concentration: "> 300 mg/mL", volume: 40 mL, route: intravenous',
      'agent: iohexol, volume: 40 mL, route: intravenous',
    ])
      expect(contrastOf(line).contained).toBeUndefined();
  });
});

describe('in other releases', () => {
  const given = drugOf('drug: Lidocaine, dose: 10 mL, strength: 1 %, route: local infiltration');

  it('R4B is the same', () => {
    expect(toR4B(given)?.resource).toMatchObject({ contained: given.contained });
  });

  it('R5 has the ingredient as a CodeableReference, its strength as a ratio', () => {
    const built = toR5(given);
    expect(built?.unknown).toEqual([]);
    expect(built?.resource).toMatchObject({
      medication: { reference: { reference: '#medication', display: 'Lidocaine' } },
      contained: [
        {
          resourceType: 'Medication',
          id: 'medication',
          code: { text: 'Lidocaine' },
          ingredient: [
            { item: { concept: { text: 'Lidocaine' } }, isActive: true, strengthRatio: perMl(10) },
          ],
        },
      ],
    });
  });
});
