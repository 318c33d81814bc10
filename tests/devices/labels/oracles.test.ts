import bark from 'bark-js';
import fc from 'fast-check';
import { parseBarcode } from 'gs1-barcode-parser-mod';
import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { checkDigit } from '../../../src/devices/labels/gs1-value.js';
import { encodeLabel } from '../../support/encode-label.js';

const today = '2026-11-25';
const digits = (n: number) =>
  fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: n, maxLength: n });
const word = fc.string({ unit: fc.constantFrom(...'ABCDEFGHXYZ0123456789-/'), minLength: 1, maxLength: 20 });
const label = fc.record({
  di: digits(13).map(d => d + checkDigit(d)),
  lot: word,
  serial: word,
  expires: fc
    .date({ min: new Date('2001-01-01'), max: new Date('2049-12-31'), noInvalidDate: true })
    .map(d => d.toISOString().slice(0, 10)),
});

/** Two general barcode libraries read the same element strings; both miss what the findings are for. */
describe('agreement with general barcode libraries', () => {
  it('gs1-barcode-parser-mod gives the same identifier, lot, serial number and expiry', () => {
    fc.assert(
      fc.property(label, parts => {
        const text = `]d2${encodeLabel({ issuer: 'gs1', ...parts }, 'scan')}`;
        const theirs = new Map(parseBarcode(text).parsedCodeItems.map(item => [item.ai, item.data]));
        const date = theirs.get('17');
        const theirDay =
          date instanceof Date
            ? `${date.getFullYear()}-${String(date.getMonth() + 1).padStart(2, '0')}-${String(date.getDate()).padStart(2, '0')}`
            : undefined;
        const ours = decodeLabel(text, { today });
        expect(ours).toMatchObject({
          di: theirs.get('01'),
          lot: theirs.get('10'),
          serial: theirs.get('21'),
          expires: theirDay,
        });
        expect(ours.findings).toEqual([]);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it('bark-js gives the same elements', () => {
    fc.assert(
      fc.property(label, parts => {
        const text = encodeLabel({ issuer: 'gs1', ...parts }, 'scan');
        const theirs = new Map(bark(text).elements.map(element => [element.ai, element.value]));
        const ours = decodeLabel(text, { today });
        expect(ours).toMatchObject({
          di: theirs.get('01'),
          lot: theirs.get('10'),
          serial: theirs.get('21'),
          expires: theirs.get('17'),
        });
      }),
      { numRuns: 300, seed: 4 },
    );
  });
});
