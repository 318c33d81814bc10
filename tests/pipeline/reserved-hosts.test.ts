import { describe, expect, it } from 'vitest';
import { reservedAddresses, reservedHosts } from '../../src/pipeline/reserved-hosts.js';

const inJson = (...values: string[]) => JSON.stringify({ values });

describe('addresses that nobody can own', () => {
  // RFC 2606, sections 2 and 3.
  it.each([
    'https://ids.hospital.example/cases',
    'http://a.test/x',
    'https://a.invalid',
    'http://localhost/ids',
    'https://example.com/ids',
    'https://fhir.example.org/ids',
    'https://EXAMPLE.net/ids',
  ])('%s is one', address => expect(reservedAddresses(inJson(address))).toEqual([address]));

  it.each([
    'https://ids.hospital.org/example',
    'https://example.hospital.org/ids',
    'https://myexample.com/ids',
    'http://hl7.org/fhir/test',
    'urn:oid:2.16.840.1.113883.19',
    'see https://ids.hospital.example/ for the rest',
    'http://[',
  ])('%s is none', address => expect(reservedAddresses(inJson(address))).toEqual([]));

  it('are named once, ours by their start, and those of a search too', () => {
    const search = `Patient?identifier=${encodeURIComponent('https://ids.hospital.example/mrn')}|12`;
    const ours = ['Task', 'Device'].map(id => `https://casetally.example/fhir/StructureDefinition/${id}`);
    expect(reservedAddresses(inJson(search, search, ...ours))).toEqual([
      'https://casetally.example/fhir',
      'https://ids.hospital.example/mrn',
    ]);
  });

  it('are a warning, and a note where a case is tried on this machine', () => {
    const found = (address?: string) => reservedHosts(inJson('https://a.example/x'), 'records', address);
    expect(found('https://fhir.hospital.org/r4')[0]).toMatchObject({
      severity: 'warning',
      params: { destination: 'records', addresses: 'https://a.example/x' },
    });
    expect(found()[0]).toMatchObject({ severity: 'warning' });
    expect(found('http://127.0.0.1:8719/fhir')[0]).toMatchObject({ severity: 'information' });
    expect(reservedHosts(inJson('https://a.org/x'), 'records')).toEqual([]);
  });
});
