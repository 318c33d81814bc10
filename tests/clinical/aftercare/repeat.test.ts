import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { isOften, readRepeat } from '../../../src/clinical/aftercare/repeat.js';

it.each([
  ['15 min', 1, 15, 'min'],
  ['every 15 min', 1, 15, 'min'],
  ['30 minutes', 1, 30, 'min'],
  ['8 hours', 1, 8, 'h'],
  ['Every 1.5 h', 1, 1.5, 'h'],
  ['hourly', 1, 1, 'h'],
  ['6-hourly', 1, 6, 'h'],
  ['4 hourly', 1, 4, 'h'],
  ['daily', 1, 1, 'd'],
  ['every day', 1, 1, 'd'],
  ['every other day', 1, 2, 'd'],
  ['twice daily', 2, 1, 'd'],
  ['once a day', 1, 1, 'd'],
  ['4 times a day', 4, 1, 'd'],
  ['three times per day', 3, 1, 'd'],
  ['2x daily', 2, 1, 'd'],
  ['weekly', 1, 1, 'wk'],
  ['every 6 months', 1, 6, 'mo'],
  ['yearly', 1, 1, 'a'],
])('%s', (text, frequency, period, periodUnit) => {
  expect(readRepeat(text)).toEqual({ frequency, period, periodUnit });
});

it.each([
  '15 minutes for 1 h then 30 minutes',
  '2 to 3 times a day',
  '2 daily',
  '0 hours',
  '< 4 hours',
  'as needed',
  'with each change of the bag',
  'times a day',
  '',
])('%s stays text', text => {
  expect(readRepeat(text)).toBeUndefined();
});

it.each([
  ['15 minutes for 1 h then hourly', true],
  ['daily', true],
  ['6 days', true],
  ['7 days', false],
  ['1 week', false],
  ['3 to 6 months', false],
])('%s comes often: %s', (text, often) => {
  expect(isOften(text)).toBe(often);
});

// Source: FHIR R5 5.0.0, value set units-of-time, the codes of R4 as well; in the package of the standard.
it('units are those of a FHIR timing', () => {
  const file = new URL('../../../node_modules/hl7.fhir.r5.core/ValueSet-units-of-time.json', import.meta.url);
  const { compose } = JSON.parse(readFileSync(file, 'utf8'));
  const codes = compose.include.flatMap((part: { concept: { code: string }[] }) =>
    part.concept.map(({ code }) => code),
  );
  for (const text of ['1 min', 'hourly', 'daily', 'weekly', 'monthly', 'yearly'])
    expect(codes).toContain(readRepeat(text)?.periodUnit);
});
