import { describe, expect, it } from 'vitest';
import { decodeScans } from '../../../src/devices/labels/scans.js';

const options = { today: '2026-11-25' };

describe('symbols joined to one label', () => {
  it('have no bytes where those of one are not known, not even empty ones', () => {
    const [joined, ...others] = decodeScans(['(10)AB1', ']C10109506000117843'], options);
    expect(others).toEqual([]);
    expect(joined).toStrictEqual({
      text: '(10)AB1\n]C10109506000117843',
      elements: [
        { id: '01', name: 'device identifier (GTIN)', raw: '09506000117843', at: 5 },
        { id: '10', name: 'lot', raw: 'AB1', at: 23 },
      ],
      findings: [],
      issuer: 'gs1',
      di: '09506000117843',
      lot: 'AB1',
      check: 'right',
      carrierHRF: '(01)09506000117843(10)AB1',
      issuerUri: 'http://hl7.org/fhir/NamingSystem/gs1-di',
    });
  });

  it('of ISBT 128 hold the device identifier first, and their bytes in that order', () => {
    const [joined] = decodeScans(['=>028060', '=/A9999XYZ100T0944', '&,1LOT7'], {
      ...options,
      entry: 'scan',
    });
    const all = '=/A9999XYZ100T0944=>028060&,1LOT7';
    expect(joined?.carrierHRF).toBe(all);
    expect(Buffer.from(joined?.carrierAIDC ?? '', 'base64').toString()).toBe(all);
  });
});
