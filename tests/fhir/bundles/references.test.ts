import type { Procedure, Resource } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { identifierQuery, submissionBundle } from '../../../src/fhir/bundles/submission.js';
import type { MappingOptions, ReferenceMode } from '../../../src/fhir/options.js';
import { caseText, danglingReferences, mapped, options, resourcesOf } from '../cases.js';

const text = caseText().replace(
  'kind: biliary',
  'order: { system: "urn:oid:1.2", value: "R 1" }, encounter: { system: "urn:oid:1.3", value: E1 }, kind: biliary',
);

const isProcedure = (resource: Resource): resource is Procedure => resource.resourceType === 'Procedure';

function submission(patient: ReferenceMode) {
  const references: MappingOptions['references'] = { ...options.references, patient };
  const { set } = mapped(text, { references });
  const bundle = submissionBundle(set, { references });
  const procedure = resourcesOf(bundle).find(isProcedure);
  return {
    bundle,
    subject: procedure?.subject,
    profile: procedure?.meta?.profile,
    sent: bundle.entry?.some(entry => entry.resource?.resourceType === 'Patient'),
  };
}

describe('a shared resource', () => {
  it('is matched by a conditional reference and not sent', () => {
    const { subject, sent, bundle } = submission('match');
    expect(subject).toEqual({ reference: 'Patient?identifier=urn%3Aoid%3A1.2.3|7' });
    expect(sent).toBe(false);
    expect(danglingReferences(bundle, reference => reference.includes('?identifier='))).toEqual([]);
  });

  it('is sent along and created only when unknown', () => {
    const { subject, sent, bundle } = submission('include');
    expect(subject?.reference).toMatch(/^urn:uuid:/);
    expect(sent).toBe(true);
    const entry = bundle.entry?.find(candidate => candidate.resource?.resourceType === 'Patient');
    expect(entry?.request).toEqual({
      method: 'POST',
      url: 'Patient',
      ifNoneExist: 'identifier=urn%3Aoid%3A1.2.3|7',
    });
  });

  it('is named by its number alone; the profiles that ask for an address are then not claimed', () => {
    const { subject, sent, profile } = submission('identifier');
    expect(subject).toEqual({ type: 'Patient', identifier: { system: 'urn:oid:1.2.3', value: '7' } });
    expect(sent).toBe(false);
    expect(profile).toBeUndefined();
  });

  it('is named by a server id that is known', () => {
    expect(submission({ id: 'p9' }).subject).toEqual({ reference: 'Patient/p9' });
  });

  it('without a number of its own is named when it is of the staff, since nothing could find it', () => {
    const references: MappingOptions['references'] = { ...options.references, practitioner: 'match' };
    const { set } = mapped(text, { references });
    const bundle = submissionBundle(set, { references });
    expect(bundle.entry?.some(entry => entry.resource?.resourceType === 'Practitioner')).toBe(false);
    const procedure = bundle.entry?.find(({ resource }) => resource?.resourceType === 'Procedure')?.resource;
    const { performer } = procedure as Procedure;
    expect(performer?.[0]?.actor).toEqual({ type: 'Practitioner', display: expect.any(String) });
    const sent = submissionBundle(set, { references: { ...references, practitioner: 'include' } });
    expect(sent.entry?.some(entry => entry.resource?.resourceType === 'Practitioner')).toBe(true);
  });
});

describe('identifierQuery', () => {
  it('escapes what would end or change the search', () => {
    const query = identifierQuery('https://a.example/x?y=1&z', 'R 1|&#ä');
    expect([...new URLSearchParams(query)]).toEqual([['identifier', 'https://a.example/x?y=1&z|R 1|&#ä']]);
    expect(query).toBe('identifier=https%3A%2F%2Fa.example%2Fx%3Fy%3D1%26z|R%201%7C%26%23%C3%A4');
  });
});
