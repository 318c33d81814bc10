import { expect, test } from 'vitest';
import type { Waiver } from '../../src/conformance/index.js';
import { createValidator, hasErrors } from '../../src/conformance/index.js';
import { procedure } from './bases.js';
import { shipped } from './validators.js';

const bad = { ...procedure(), status: 'done' };
const waiver: Waiver = {
  rule: 'binding-required',
  path: 'Procedure.status',
  reason: 'the sending system is to be mended in May',
  expires: '2024-05-31',
};
const check = (waivers: readonly Waiver[], today?: string) =>
  createValidator(shipped(), { waivers, ...(today !== undefined && { today }) }).validateResource(bad);

test('a waived error no longer fails, and is still shown with its reason', () => {
  const result = check([waiver], '2024-05-31');
  expect(hasErrors(result)).toBe(false);
  expect(result.issues).toContainEqual(
    expect.objectContaining({
      rule: 'binding-required',
      severity: 'information',
      waived: { reason: waiver.reason, expires: waiver.expires },
    }),
  );
});

test('an expired waiver excuses nothing and is named', () => {
  const result = check([waiver], '2024-06-01');
  expect(hasErrors(result)).toBe(true);
  expect(result.issues).toContainEqual(
    expect.objectContaining({ rule: 'waiver-expired', severity: 'warning' }),
  );
});

test.each([
  ['another path', { ...waiver, path: 'Procedure.code' }],
  ['another rule', { ...waiver, rule: 'min' }],
  ['another profile', { ...waiver, profile: 'http://example.org/fhir/StructureDefinition/x|1' }],
])('a waiver for %s excuses nothing and is named', (_what, other) => {
  const result = check([other], '2024-01-01');
  expect(hasErrors(result)).toBe(true);
  expect(result.issues).toContainEqual(expect.objectContaining({ rule: 'waiver-unused' }));
});

test('a waiver may name an invariant by its key and end in a star', () => {
  const validator = createValidator(shipped(), {
    waivers: [{ rule: 'dom-6', path: 'Proc*', reason: 'no narrative here', expires: '2030-01-01' }],
  });
  const { text: _text, ...plain } = procedure();
  const found = validator.validateResource(plain).issues.find(i => i.key === 'dom-6');
  expect(found).toMatchObject({ severity: 'information', waived: { reason: 'no narrative here' } });
});
