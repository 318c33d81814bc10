import { expect, it } from 'vitest';
import { lookCases } from '../../scripts/look-cases.js';
import { checkCase } from '../../src/pipeline/check.js';
import { unconfiguredSite } from '../../src/site/site.js';

it('cases that are drawn to be looked at are whole', () => {
  expect(lookCases().length).toBeGreaterThan(15);
  for (const { name, record } of lookCases())
    expect(checkCase(JSON.stringify(record), unconfiguredSite).record, name).toBeDefined();
});
