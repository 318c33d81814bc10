import { describe, expect, it } from 'vitest';
import { recallLines } from '../../../src/pipeline/register/recall-lines.js';

const read = (text: string) => recallLines(text, 'recall');

describe('lines of a recall', () => {
  it.each([
    ['CSV', 'di,lot,expiresFrom\n09506000117843,L1,2025-01\n'],
    [
      'CSV with semicolons, a mark at its head and Windows lines',
      '\uFEFFdi;lot;expiresFrom\r\n09506000117843;L1;2025-01\r\n',
    ],
    ['JSON', '[{ "di": "09506000117843", "lot": "L1", "expiresFrom": "2025-01" }]'],
    ['an object a line', '{"di":"09506000117843","lot":"L1","expiresFrom":"2025-01"}\n'],
  ])('are read from %s', (_what, text) => {
    expect(read(text)).toMatchObject([{ di: '09506000117843', lot: 'L1', expiresFrom: '2025-01' }]);
  });

  it('are read from FHIR Devices', () => {
    const device = {
      resourceType: 'Device',
      udiCarrier: [{ deviceIdentifier: '09506000117843' }],
      lotNumber: 'L1',
      serialNumber: 'S1',
      expirationDate: '2025-03-31T00:00:00Z',
    };
    expect(read(JSON.stringify(device))).toEqual([
      {
        line: 1,
        di: '09506000117843',
        lot: 'L1',
        serial: 'S1',
        expiresFrom: '2025-03-31',
        expiresTo: '2025-03-31',
      },
    ]);
  });

  it('give identifiers in the length that the register has, with the line of the file', () => {
    // GTIN-12 of a 14-digit identifier that begins with two noughts (GS1 General Specifications: padded with leading noughts).
    expect(read('lot,di\nL1,\n,614141007349\n')).toEqual([
      { line: 2, lot: 'L1' },
      { line: 3, di: '00614141007349' },
    ]);
  });

  it.each([
    ['nothing', ''],
    ['a head alone', 'di,lot\n'],
    ['a line that names no device', 'di,lot,serial\n,,\n'],
    ['a column that is not known', 'di,batch\n1,2\n'],
    ['a date that is none', 'di,expiresFrom\n1,next year\n'],
    ['broken JSON', '{"di": '],
    ['a list of numbers', '[1, 2]'],
  ])('refuse %s, and say where', (_what, text) => {
    expect(() => read(text)).toThrow(/^recall, line \d+: .*A line of a recall names/);
  });
});
