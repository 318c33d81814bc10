import { expect, it } from 'vitest';
import { referencesIn } from '../../src/fhir/bundles/references.js';
import { profileProbe } from '../../src/pipeline/probe.js';
import { unconfiguredSite } from '../../src/site/site.js';

it('is of nobody, and points at what it contains', () => {
  const resource = profileProbe(unconfiguredSite, { name: 'anywhere' }, '0.1.0').claiming('ours');
  const references = referencesIn(resource);
  const contained = resource['contained'] as readonly { readonly id: string }[];
  expect(references.filter(address => address.startsWith('#'))).toEqual(contained.map(({ id }) => `#${id}`));
  for (const address of references) expect(address).toMatch(/^(?:#site-\d+|[A-Z]\w+\/example-\d+)$/);
});
