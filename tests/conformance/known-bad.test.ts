import { describe, expect, test } from 'vitest';
import { createValidator, ruleIds } from '../../src/conformance/index.js';
import { document, observation, patient, procedure, transaction } from './bases.js';
import { knownBad } from './known-bad.js';
import { testProfiles } from './test-profiles.js';
import { errors, shipped } from './validators.js';

const validator = createValidator(shipped().with(testProfiles));

describe('the valid examples that are spoilt below', () => {
  test.each([procedure, observation, patient, document, transaction])('%o has no error', make => {
    expect(errors(validator.validateText(JSON.stringify(make())))).toEqual([]);
  });
});

test('each rule has a known-bad example; the rules of waivers have theirs in waivers.test.ts', () => {
  expect(Object.keys(knownBad).sort()).toEqual(ruleIds.filter(r => !r.startsWith('waiver-')).sort());
});

describe.each(Object.entries(knownBad))('%s', (rule, examples) => {
  test.each(examples.map((example, n) => [n + 1, example] as const))(
    'is found in example %i',
    (_n, example) => {
      const resource = example.base();
      const spoilt: unknown = example.spoil(resource) ?? resource;
      const text = typeof spoilt === 'string' ? spoilt : JSON.stringify(spoilt, null, 2);
      const profiles = example.profile === undefined ? [] : [example.profile];
      const { issues } = validator.validateText(text, { profiles });
      const found = issues.filter(
        i => i.rule === rule && (example.key === undefined || i.key === example.key),
      );
      expect(
        found.map(i => i.path),
        `all issues: ${issues.map(i => `${i.rule} ${i.path} ${i.message}`).join('\n')}`,
      ).toContain(example.path);
      for (const issue of found) {
        expect(issue.line).toBeGreaterThan(0);
        expect(issue.column).toBeGreaterThan(0);
        expect(issue.message).not.toMatch(/\{\w+\}/);
      }
    },
  );
});
