import { expect, it } from 'vitest';
import { allergies } from '../../../src/clinical/drugs/allergy.js';
import { describeDevices } from '../../../src/devices/details.js';
import { entriesOf } from '../../../src/record/entries.js';
import { caseText, recordOf } from '../../support/case-text.js';

const told = (allergy: string, more: string) => {
  const record = recordOf(
    caseText({
      kind: 'nephrostomy',
      more: `before: { allergies: [{ to: ${allergy}, reaction: rash }] }\n${more}`,
    }),
  );
  const given = entriesOf(record.drugs).map((drug, i) => ({ drug, path: `drugs[${i}]` }));
  return allergies(record, given, describeDevices(record).devices).map(({ path }) => path);
};
const task = (text: string) => `aftercare: [{ do: "${text}", due: 1 day, by: ward }]`;
const closed = (text: string) => `access: [{ key: a, site: flank, closure: ${text} }]`;

// Common practice, no source.
it.each([
  ['Metamizole', task('Novaminsulfon 500 mg if there is pain'), 'aftercare[0].do'],
  ['Silk', closed('silk suture'), 'access[0].closure'],
  ['Iodine', closed('povidone-iodine dressing'), 'access[0].closure'],
  ['Latex', 'advice: { ward: ["Hold the tube with the latex strap of the set."] }', 'advice.ward[0]'],
  ['Collagen', 'devices: { c: { kind: vascular closure device, description: collagen plug } }', 'devices.c'],
  ['Beeswax', 'devices: { c: { kind: dilator, description: coated with beeswax } }', 'devices.c'],
])('%s: %s', (allergy, more, path) => {
  expect(told(allergy, more)).toEqual([path]);
});

it.each([
  ['Metamizole', task('Paracetamol 500 mg if there is pain')],
  ['Penicillin', task('Call the team if penicillin was given')],
  ['Silk', closed('no silk suture')],
  ['Silk', closed('nylon suture')],
  ['Latex', 'advice: { ward: ["Nothing of latex near the patient."] }'],
  ['Latex', 'advice: { ward: ["Latex-free gloves only."] }'],
  ['Some foods', closed('some pressure')],
  ['Unknown drug', closed('unknown suture')],
])('silent: %s and %s', (allergy, more) => {
  expect(told(allergy, more)).toEqual([]);
});
