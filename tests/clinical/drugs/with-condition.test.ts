import { expect, it } from 'vitest';
import { drugsWithConditions } from '../../../src/clinical/drugs/with-condition.js';
import { entriesOf } from '../../../src/record/entries.js';
import { caseText, recordOf } from '../../support/case-text.js';

const told = (drug: string, condition: string) => {
  const record = recordOf(
    caseText({
      kind: 'nephrostomy',
      more: `before: { conditions: [${condition}] }\ndrugs: [{ drug: ${drug}, dose: 1 mg, route: intravenous, at: "09:10" }]`,
    }),
  );
  const given = entriesOf(record.drugs).map((one, i) => ({ drug: one, path: `drugs[${i}]` }));
  return drugsWithConditions(record, given).map(({ code, path }) => `${code} ${path}`);
};

// Common practice, no source.
it.each([
  ['Diclofenac', 'Kidney transplant in 2021'],
  ['Ketorolac', 'Chronic kidney disease stage 4'],
  ['Ibuprofen', 'Duodenal ulcer'],
  ['Glucagon', 'Phaeochromocytoma'],
  ['Hyoscine butylbromide', 'Angle-closure glaucoma'],
  ['Flumazenil', 'Epilepsy'],
  ['Metoclopramide', 'Parkinson disease'],
  ['Labetalol', 'Asthma'],
  ['Gentamicin', 'Kidney transplant in 2021'],
  ['Tramadol', 'Epilepsy'],
  ['Alteplase', 'Intracerebral haemorrhage in January'],
  ['Glyceryl trinitrate', 'Severe aortic stenosis'],
])('%s and %s', (drug, condition) => {
  expect(told(drug, condition)).toEqual(['clinical.drug-condition drugs[0]']);
});

it.each([
  ['Paracetamol', 'Kidney transplant in 2021'],
  ['Diclofenac', 'Kidney stone'],
  ['Diclofenac', '{ what: Duodenal ulcer, status: resolved }'],
  ['Diclofenac', 'No kidney failure'],
  ['Glucagon', 'Pheochromocytoma was ruled out; no phaeochromocytoma'],
  ['Atropine', 'Open-angle glaucoma'],
  ['Labetalol', 'COPD'],
])('silent: %s and %s', (drug, condition) => {
  expect(told(drug, condition)).toEqual([]);
});
