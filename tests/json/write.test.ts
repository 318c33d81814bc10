import fc from 'fast-check';
import type { Observation } from 'fhir/r4.js';
import { parse as parseLossless, stringify as stringifyLossless } from 'lossless-json';
import { describe, expect, it } from 'vitest';
import { withReferences } from '../../src/fhir/bundles/references.js';
import { exactQuantity, writeFhirJson } from '../../src/json/write.js';

/** Decimals in FHIR's grammar without exponent: https://hl7.org/fhir/R4/datatypes.html#decimal */
const decimals = fc
  .tuple(
    fc.boolean(),
    fc.bigInt({ min: 0n, max: 999_999_999_999_999_999n }),
    fc.integer({ min: 0, max: 8 }),
    fc.integer({ min: 0, max: 99_999_999 }),
  )
  .map(([minus, whole, places, fraction]) => {
    const tail = places === 0 ? '' : `.${String(fraction).padStart(places, '0').slice(0, places)}`;
    return `${minus ? '-' : ''}${whole}${tail}`;
  });

const observation = (digits: string): Observation => ({
  resourceType: 'Observation',
  status: 'final',
  code: { text: 'x' },
  valueQuantity: exactQuantity(digits, { unit: 'mm' }),
  component: [{ code: { text: 'y' }, valueQuantity: exactQuantity(digits) }],
});

describe('writeFhirJson', () => {
  it.each(['5.0', '0.700', '120', '123456789012345678', '0.035', '-2.50'])(
    'keeps the digits of %s',
    digits => {
      expect(writeFhirJson(observation(digits), 0)).toContain(
        `"valueQuantity":{"value":${digits},"unit":"mm"}`,
      );
    },
  );

  it('writes what a lossless JSON parser reads back and writes the same (lossless-json)', () => {
    fc.assert(
      fc.property(decimals, digits => {
        const text = writeFhirJson(observation(digits), 0);
        expect(stringifyLossless(parseLossless(text))).toBe(text);
        expect(text.split(`"value":${digits}`)).toHaveLength(3);
      }),
    );
  });

  it('writes other values as JSON.stringify does', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), value => {
        expect(JSON.parse(writeFhirJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
        expect(writeFhirJson(value, 0)).toBe(JSON.stringify(value));
      }),
    );
  });

  it('leaves out what is absent', () => {
    expect(writeFhirJson({ a: undefined, b: [1, { c: undefined }] }, 0)).toBe('{"b":[1,{}]}');
  });

  it('keeps digits through a copy with other references', () => {
    const source: Observation = {
      ...observation('7.50'),
      subject: { reference: 'urn:uuid:1', display: 'A' },
    };
    const copy = withReferences(source, new Map([['urn:uuid:1', { reference: 'Patient/9' }]]));
    expect(writeFhirJson(copy, 0)).toContain('"value":7.50');
    expect(copy.subject).toEqual({ reference: 'Patient/9', display: 'A' });
    expect(source.subject?.reference).toBe('urn:uuid:1');
  });

  it.each(['1e3', '.5', '5,0', '', '01', 'NaN'])('refuses %j as a decimal', digits => {
    expect(() => exactQuantity(digits)).toThrow(RangeError);
  });
});
