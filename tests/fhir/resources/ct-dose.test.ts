import { describe, expect, it } from 'vitest';
import { writeFhirJson } from '../../../src/json/write.js';
import { caseText, mapped, resourceOf } from '../cases.js';

const radiation = (figures: string) => mapped(caseText(`radiation: { ${figures}, system: CT 2 }`)).set;

/** Codes: DICOM dictionary in the package hl7.fhir.r4.examples 4.0.1; codes.test.ts looks them up there. */
describe('the dose of CT', () => {
  const set = radiation('doseLengthProduct: 386.0 mGy·cm, ctDoseIndex: 8.40 mGy');

  it.each([
    ['observation/dose-length-product', '113813', { value: '386.0', unit: 'mGy·cm', code: 'mGy.cm' }],
    ['observation/ct-dose-index', '113830', { value: '8.40', unit: 'mGy', code: 'mGy' }],
  ])('%s', (role, code, { value, ...unit }) => {
    const figure = resourceOf(set, role, 'Observation');
    expect(figure.code.coding).toMatchObject([{ code }]);
    expect(figure.valueQuantity).toMatchObject({ ...unit, system: 'http://unitsofmeasure.org' });
    // With the digits of the record.
    expect(writeFhirJson(figure)).toContain(`"value": ${value},`);
    expect(figure.device).toEqual({ display: 'CT 2' });
    expect(figure.meta?.profile).toEqual(['https://casetally.example/fhir/StructureDefinition/dose-figure']);
  });

  it('stands in the summary beside figures of a C-arm, each under its own name', () => {
    const both = radiation('kermaAreaProduct: 4 Gy·cm2, doseLengthProduct: 386 mGy·cm');
    const summary = resourceOf(both, 'observation/radiation', 'Observation');
    expect(summary.valueString).toBe('Kerma-area product 4 Gy·cm²; Dose-length product 386 mGy·cm');
    expect(summary.hasMember).toHaveLength(2);
  });

  it('gives the scanned length as a figure worked out, with both inputs', () => {
    const found = resourceOf(set, 'calculation/scanned-length', 'Observation');
    expect(found.valueQuantity).toMatchObject({ unit: 'cm', code: 'cm' });
    expect(String(found.valueQuantity?.value)).toBe('46');
    expect(JSON.stringify(found.note)).toContain('386.0 mGy·cm');
    expect(JSON.stringify(found.note)).toContain('8.40 mGy');
  });
});
