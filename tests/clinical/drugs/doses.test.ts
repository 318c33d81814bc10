import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../../src/clinical/default-limits.js';
import { doseFindings } from '../../../src/clinical/drugs/doses.js';
import { messageOf } from '../../../src/findings/finding.js';
import { Decimal } from '../../../src/record/decimal.js';
import type { CaseRecord, DrugGiven } from '../../../src/record/schema/record.js';
import type { Dosing } from '../../../src/trade/drugs/doses/dosing.js';
import { dosings } from '../../../src/trade/drugs/doses/table.js';
import { drugTable } from '../../../src/trade/drugs/table.js';
import { caseText, recordOf } from '../../support/case-text.js';

const recordFor = (drug: string, patient: string, kind = 'nephrostomy') =>
  recordOf(caseText({ kind, patient, more: `drugs: [${drug}]` }));

const check = (record: CaseRecord) =>
  doseFindings(
    record,
    (record.drugs === 'none' ? [] : (record.drugs ?? [])).map((drug, index) => ({
      drug,
      path: `drugs[${index}]`,
    })),
    defaultLimits.drugs.doseFactor,
  );

const adult = '  birthDate: 1970-01-01\n  weight: 70 kg';
const child = (kg: string) => `  birthDate: 2019-01-01\n  weight: ${kg} kg`;
const given = (name: string, dose: string, more = 'route: intravenous') =>
  `{ drug: "${name}", dose: ${dose}, at: "09:10", ${more} }`;
const codes = (name: string, dose: string, more?: string, patient = adult, kind?: string) =>
  check(recordFor(given(name, dose, more), patient, kind)).map(f => f.code.replace('clinical.', ''));
const said = (name: string, dose: string, more?: string, patient = adult) =>
  check(recordFor(given(name, dose, more), patient)).map(f => messageOf(f))[0] ?? '';

const base = recordFor(given('Fentanyl', '50 µg'), adult);
function only(record: CaseRecord): DrugGiven {
  const [first] = record.drugs === 'none' ? [] : (record.drugs ?? []);
  if (!first) throw new Error('the template has no drug');
  return first;
}
const template = only(base);

/** The record of one dose, in the unit that the row compares. */
function withDose(row: Dosing, amount: Decimal, name = row.drug): CaseRecord {
  const value = amount.toDecimalPlaces(9).toString();
  const route = row.routes[0] ?? 'other';
  const drug: DrugGiven = {
    ...template,
    drug: { ...template.drug, text: name },
    dose: { value, unit: row.unit === '[iU]' ? 'IU' : row.unit, code: row.unit },
    route,
  };
  return { ...base, drugs: [drug] };
}

const weigh = (record: CaseRecord, kg: number, birthDate: string): CaseRecord => ({
  ...record,
  patient: {
    ...record.patient,
    weight: { value: String(kg), unit: 'kg', code: 'kg' },
    birthDate: { text: birthDate, iso: birthDate, precision: 'day' },
  },
});

const names = (row: Dosing) => {
  const drug = drugTable.rows.find(({ name }) => name === row.drug);
  return drug ? [drug.name, ...drug.aliases] : [];
};

describe('the table of doses', () => {
  it('names drugs of the table of drugs, at least 80, and at least 30 with a limit for a child', () => {
    for (const row of dosings) expect(names(row), row.drug).not.toEqual([]);
    expect(new Set(dosings.map(({ drug }) => drug)).size).toBeGreaterThan(80);
    expect(new Set(dosings.filter(row => row.child).map(({ drug }) => drug)).size).toBeGreaterThan(30);
  });

  const each = (rows: readonly Dosing[], rule: (row: Dosing, about: string) => void) => {
    for (const row of rows) rule(row, `${row.drug} ${row.routes[0]} ${row.unit}`);
  };

  it('notices any usual dose that slipped by a thousand', () => {
    each(dosings, (row, about) => {
      for (const dose of [row.least.value, row.most.value])
        for (const factor of ['1000', '0.001'])
          expect(
            check(withDose(row, dose.times(factor))).map(f => f.path),
            `${about} ${dose} × ${factor}`,
          ).toContain('drugs[0].dose');
    });
  });

  const part = fc.double({ min: 0, max: 1, noNaN: true });

  it('says nothing of a usual dose at any weight that it is for', () => {
    each(dosings, (row, about) => {
      fc.assert(
        fc.property(fc.integer({ min: 40, max: 160 }), part, (kg, of) => {
          const byWeight = row.adult?.value.times(kg);
          const most = byWeight ? Decimal.min(row.most.value, byWeight) : row.most.value;
          const dose = row.least.value.plus(most.minus(row.least.value).times(of));
          expect(check(weigh(withDose(row, dose), kg, '1970-01-01')), about).toEqual([]);
        }),
        { numRuns: 5 },
      );
    });
  });

  it('nor of one by weight, of a child', () => {
    each(
      dosings.filter(row => row.child),
      (row, about) => {
        fc.assert(
          fc.property(fc.integer({ min: 12, max: 30 }), part, (kg, of) => {
            const most = Decimal.min(row.most.value, row.child?.value.times(kg) ?? 0);
            const least = Decimal.min(row.least.value.times(kg).div(70), most);
            const dose = least.plus(most.minus(least).times(of));
            expect(check(weigh(withDose(row, dose), kg, '2018-01-01')), about).toEqual([]);
          }),
          { numRuns: 5 },
        );
      },
    );
  });

  it('treats every name of a drug alike', () => {
    each(dosings, (row, about) => {
      const found = names(row).map(name =>
        check(withDose(row, row.most.value.times(50), name))
          .map(f => f.code)
          .join(),
      );
      expect(new Set(found).size, about).toBe(1);
      expect(found[0], about).not.toBe('');
    });
  });
});

// Usual doses of an adult and the limits for children: common practice, no source; from memory.
describe('doses', () => {
  it.each([
    ['Fentanyl', '50 mg', '50 µg'],
    ['Midazolam', '10 mg', '1 mg'],
    ['Heparin', '50000 IU', '5000 IU'],
    ['Cefazolin', '2 mg', '2 g'],
    ['Ondansetron', '4 g', '4 mg'],
    ['Adrenaline', '0.5 g', '0.5 mg'],
  ])('%s %s is no usual dose: %s would fit', (drug, dose, would) => {
    const route = drug === 'Adrenaline' ? 'route: intramuscular' : undefined;
    expect(said(drug, dose, route)).toMatch(/no usual dose/);
    expect(said(drug, dose, route)).toContain(would);
  });

  it.each([
    ['Fentanyl', '100 µg'],
    ['Fentanyl', '0.1 mg'],
    ['Heparin', '10000 IU'],
    ['Propofol', '200 mg'],
    ['Co-amoxiclav', '1.2 g'],
    ['Alteplase', '90 mg'],
    ['Something new', '500 g'],
  ])('%s %s says nothing', (drug, dose) => {
    expect(codes(drug, dose)).toEqual([]);
  });

  it('says a unit of another kind', () => {
    expect(codes('Heparin', '5000 mg')).toEqual(['drug-dose-unlikely']);
    expect(said('Heparin', '5000 mg')).toContain('5000 IU');
    expect(codes('Enoxaparin', '4000 IU', 'route: subcutaneous')).toEqual([]);
    expect(codes('Enoxaparin', '40 mg', 'route: subcutaneous')).toEqual([]);
  });

  it('goes by the weight of a child, and of an adult where doses do', () => {
    expect(codes('Paracetamol', '240 mg', undefined, child('16.5'))).toEqual([]);
    expect(codes('Paracetamol', '1 g', undefined, child('16.5'))).toEqual(['drug-dose-by-weight']);
    expect(said('Paracetamol', '1 g', undefined, child('16.5'))).toContain('60.6 mg/kg');
    expect(codes('Cefazolin', '5 g', undefined, child('17'))).toEqual(['drug-dose-by-weight']);
    expect(codes('Gentamicin', '560 mg')).toEqual([]);
    expect(codes('Gentamicin', '560 mg', undefined, adult.replace('70 kg', '45 kg'))).toEqual([
      'drug-dose-by-weight',
    ]);
  });

  it('asks a child for the weight, and an adult only where the dose depends on it', () => {
    expect(codes('Paracetamol', '240 mg', undefined, '  birthDate: 2019-01-01')).toEqual(['weight-missing']);
    expect(codes('Paracetamol', '1 g', undefined, '  birthDate: 1970-01-01')).toEqual([]);
    expect(codes('Gentamicin', '560 mg', undefined, '  birthDate: 1970-01-01')).toEqual(['weight-missing']);
  });

  it('asks for the strength of a volume, wherever it may stand', () => {
    expect(codes('Lidocaine', '8 mL', 'route: local infiltration')).toEqual(['strength-missing']);
    expect(codes('Lidocaine', '8 mL', 'route: local infiltration, strength: 1 %')).toEqual([]);
    expect(codes('Lidocaine 10 mg/mL', '8 mL', 'route: local infiltration')).toEqual([]);
    expect(codes('Heparin', '1 mL', 'route: intravenous, strength: 5000 IU/mL')).toEqual([]);
    expect(codes('Heparin', '10 mL', 'route: intravenous, strength: 5000 IU/mL')).toEqual([
      'drug-dose-unlikely',
    ]);
    expect(codes('Adrenaline', '0.5 mL', 'route: intramuscular, strength: "1:1000"')).toEqual([]);
    expect(codes('Sodium chloride 0.9 %', '500 mL')).toEqual([]);
  });

  it.each([
    ['Rocuronium', '50 mg', 'route: oral', 'angioplasty', 1],
    ['Apixaban', '5 mg', 'route: intravenous', 'angioplasty', 1],
    ['Bupivacaine', '20 mg', 'route: intravenous, for: local anaesthesia', 'angioplasty', 1],
    ['Doxorubicin', '50 mg', 'route: intravenous', 'chemoembolisation', 1],
    ['Doxorubicin', '50 mg', 'route: intra-arterial', 'chemoembolisation', 0],
    ['Heparin', '3000 IU', 'route: other', 'angioplasty', 0],
    ['Cefazolin', '2 g', 'route: intramuscular', 'angioplasty', 0],
  ])('%s %s %s in %s', (drug, dose, more, kind, count) => {
    const found = codes(drug, dose, more, adult, kind);
    expect(found.filter(code => code === 'route-unlikely')).toHaveLength(count);
  });

  it('is switched off with the factor', () => {
    const record = recordFor(given('Fentanyl', '50 mg'), adult);
    expect(doseFindings(record, [{ drug: template, path: 'drugs[0]' }], undefined)).toEqual([]);
  });
});
