import { expect, it } from 'vitest';
import { loadDefinitions } from '../../../src/conformance/index.js';
import { resourceTypes } from '../../../src/service/fhir/resource-types.js';

it('the types of resources are those of the definitions, but for the abstract ones', () => {
  const definitions = loadDefinitions();
  const base = 'http://hl7.org/fhir/StructureDefinition/';
  const all = definitions
    .structureUrls()
    .flatMap(url => (url.startsWith(base) ? [url.slice(base.length)] : []))
    .filter(name => /^[A-Z]/.test(name) && definitions.type(name)?.kind === 'resource');
  expect(all.filter(name => !resourceTypes.has(name)).sort()).toEqual(['DomainResource', 'Resource']);
  expect([...resourceTypes].filter(name => !all.includes(name))).toEqual([]);
});
