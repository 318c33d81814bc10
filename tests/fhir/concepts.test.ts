import type { CodeableConcept } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import type { MappingOptions } from '../../src/fhir/options.js';
import { caseText, mapped, resourceOf } from './cases.js';

/* Codes by name and what they must not say: the meanings are those of the displays that the packages carry. */

const LICENCE: Partial<MappingOptions> = { snomedLicence: true };
const codesOf = (concept: CodeableConcept | undefined) => concept?.coding?.map(({ code }) => code) ?? [];

const device = (entry: string, over: Partial<MappingOptions> = {}) => {
  const { set } = mapped(caseText(`devices: { one: { ${entry} } }`), over);
  return codesOf(resourceOf(set, 'device/one', 'Device').type);
};

describe('what a device is', () => {
  it.each([
    // A balloon in a ureter is a medical balloon, and no angioplasty balloon.
    ['kind: balloon catheter', '34263000'],
    ['kind: ureteric balloon', '34263000'],
    ['kind: angioplasty balloon', '102319006'],
    ['kind: PICC', '52124006'],
    ['kind: microcoil', '102314001'],
    ['kind: biopsy needle', '118377000'],
  ])('%s: %s', (entry, code) => {
    expect(device(entry, LICENCE)).toEqual([code]);
  });

  it('is its family where the code of its kind may not be sent', () => {
    expect(device('kind: biopsy needle')).toEqual(['79068005']);
    expect(device('kind: balloon catheter')).toEqual([]);
  });

  it('is not coded by a family that is only assumed', () => {
    expect(device('kind: hoop snare plug')).toEqual([]);
    expect(device('kind: hoop snare plug, family: catheter')).toEqual(['19923001']);
  });
});

it.each([
  ['liver abscess drainage', ['118442004']],
  // The same row of the table, and no abscess.
  ['biloma drainage', []],
  ['fluid collection drainage', []],
  ['chest tube insertion', ['264957007']],
  ['pneumothorax aspiration', []],
  ['PTA', ['68457009']],
  ['SFA angioplasty', ['68457009']],
  ['bronchial artery embolisation', ['16736007']],
])('a case of %s has the codes %j', (kind, codes) => {
  const { set } = mapped(caseText().replace('kind: biliary drainage', `kind: ${kind}`));
  expect(codesOf(resourceOf(set, 'procedure', 'Procedure').code)).toEqual(codes);
});

const drug = (name: string, over: Partial<MappingOptions> = LICENCE) => {
  const { set } = mapped(
    caseText(`drugs: [{ drug: ${name}, dose: 5 mg, route: intravenous, at: "09:10" }]`),
    over,
  );
  return codesOf(resourceOf(set, 'drug/1', 'MedicationAdministration').medicationCodeableConcept);
};

describe('drugs', () => {
  it.each([
    ['lidocaine', '387480006'],
    ['lignocaine', '387480006'],
    ['Bupivacaine', '387150008'],
    ['midazolam', '373476007'],
    ['propofol', '387423006'],
    ['heparin', '372877000'],
    ['fentanyl', '40648001'],
  ])('%s: %s', (name, code) => {
    expect(drug(name)).toEqual([code]);
  });

  it.each(['lidocaine with adrenaline', 'piperacillin-tazobactam', 'magic mixture'])(
    '%s: text alone',
    name => {
      expect(drug(name)).toEqual([]);
    },
  );

  it('under a licence alone are text without one', () => {
    expect(drug('fentanyl', {})).toEqual([]);
  });
});

it('contrast media, samples, roles and body sites have codes by name', () => {
  const { set } = mapped(
    caseText(`contrast: [{ agent: iohexol, volume: 20 mL, concentration: 300 mg/mL, route: intravenous }]
specimens: [{ key: s, what: urine from nephrostomy }]
targets: { duct: { what: hepatic vein, side: left }, other: { what: Superior mesenteric artery } }`),
  );
  const medication = resourceOf(set, 'contrast/1', 'MedicationAdministration').contained?.[0];
  expect(medication).toMatchObject({ code: { coding: [{ code: '109218004' }], text: 'iohexol' } });
  expect(codesOf(resourceOf(set, 'specimen/s', 'Specimen').type)).toEqual(['446277003']);
  expect(codesOf(resourceOf(set, 'site/target/duct', 'BodyStructure').location)).toEqual(['8993003']);
});

const lab = (entry: string) => {
  const { set } = mapped(caseText(`before: { labs: [{ ${entry}, at: 2024-03-13T18:20 }] }`));
  return codesOf(resourceOf(set, 'observation/lab/before-1', 'Observation').code);
};

describe('laboratory tests', () => {
  it.each([
    ['what: potassium, value: 4.1 mmol/L', ['2823-3']],
    ['what: serum potassium, value: 4.1 mmol/L', ['2823-3']],
    // Whole blood has another code than serum, and a value in another unit another one again.
    ['what: arterial blood potassium, value: 4.1 mmol/L', []],
    ['what: albumin, value: 38 g/L', ['1751-7']],
    ['what: ionised calcium, value: 1.1 mmol/L', []],
  ])('%s: %j', (entry, codes) => {
    expect(lab(entry)).toEqual(codes);
  });
});

it('conditions have codes by the words that mean the same, and no others', () => {
  const { set } = mapped(
    caseText('before: { conditions: [COPD, Hypertension in pregnancy, type 2 diabetes] }'),
  );
  const found = [1, 2, 3].map(n => codesOf(resourceOf(set, `condition/other-${n}`, 'Condition').code));
  expect(found).toEqual([['13645005'], [], ['44054006']]);
});

describe("a site's own codes", () => {
  const code = (code: string, what?: 'case' | 'device') => ({
    system: 'https://codes.example.org',
    code,
    ...(what && { what }),
  });

  it('for names of one kind of thing are for no other', () => {
    const localCodes = {
      'biliary drainage': [code('C', 'case')],
      'biliary stent': [code('D', 'device'), code('X', 'case')],
    };
    const { set } = mapped(caseText('devices: { one: { kind: Biliary Stent } }'), { localCodes });
    expect(codesOf(resourceOf(set, 'device/one', 'Device').type)).toEqual(['D', '360123005']);
    expect(codesOf(resourceOf(set, 'procedure', 'Procedure').code)).toEqual(['C']);
  });

  it('for the kind of a case hold where the procedure is told in words of its own', () => {
    const text = caseText().replace(
      'kind: biliary drainage',
      'kind: biliary drainage, procedure: Drain of the left duct',
    );
    const { set } = mapped(text, { localCodes: { 'biliary drainage': [code('C')] } });
    expect(resourceOf(set, 'procedure', 'Procedure').code).toEqual({
      coding: [code('C')],
      text: 'Drain of the left duct',
    });
  });
});
