import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { checkDigit } from '../../../src/devices/labels/gs1-value.js';
import { CasetallyError } from '../../../src/findings/errors.js';
import type { LabelToEncode } from '../../support/encode-label.js';
import { encodeLabel } from '../../support/encode-label.js';

const today = '2026-11-25';
const from = (alphabet: string, min: number, max: number) =>
  fc.string({ unit: fc.constantFrom(...alphabet), minLength: min, maxLength: max });
const digits = '0123456789';
const capitals = `ABCDEFGHIJKLMNOPQRSTUVWXYZ${digits}`;
const noO = capitals.replace('O', '');
const set82 = `!"%&'*+,-./${capitals}:;<=>?_abcdefghijklmnopqrstuvwxyz`;
/** Days within the window of two-digit years around `today`, the expiry after the production. */
const made = fc.date({ min: new Date('1990-01-01'), max: new Date('2026-12-31'), noInvalidDate: true });
const expiry = fc.date({ min: new Date('2027-01-01'), max: new Date('2070-12-31'), noInvalidDate: true });
const day = (date: Date) => date.toISOString().slice(0, 10);
const some = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });

function parts(issuer: LabelToEncode['issuer'], fields: Record<string, fc.Arbitrary<string | undefined>>) {
  return fc.record({ issuer: fc.constant(issuer), ...fields }).map(record => {
    const known = Object.entries(record).filter(([, value]) => value !== undefined);
    return Object.fromEntries(known) as unknown as LabelToEncode;
  });
}

const gs1 = parts('gs1', {
  di: from(digits, 13, 13).map(d => d + checkDigit(d)),
  lot: some(from(set82, 1, 20)),
  serial: some(from(set82, 1, 20)),
  expires: some(expiry.map(day)),
  manufactured: some(
    fc.oneof(
      made.map(day),
      made.map(d => day(d).slice(0, 7)),
    ),
  ),
});
const hibc = parts('hibcc', {
  di: fc
    .tuple(from('ABCXYZ', 1, 1), from(capitals, 3, 3), from(capitals, 1, 18), from(digits, 1, 1))
    .map(t => t.join('')),
  lot: some(from(capitals, 1, 18)),
  serial: some(from(capitals, 1, 18)),
  expires: some(
    fc.oneof(
      expiry.map(day),
      expiry.map(d => day(d).slice(0, 7)),
    ),
  ),
  manufactured: some(made.map(day)),
});
const isbt = parts('iccbba', {
  di: fc.tuple(from(noO, 5, 5), from(capitals, 11, 11)).map(t => t.join('')),
  lot: some(from(capitals, 1, 18)),
  serial: some(from(capitals, 6, 6).filter(s => s !== '000000')),
  expires: some(expiry.map(day)),
  manufactured: some(made.map(day)),
  distinct: some(
    fc.tuple(from('ABYZ19', 1, 1), from(noO, 2, 2), from(digits, 10, 10)).map(t => `${t.join('')}00`),
  ),
});

describe('a label written and read again', () => {
  it.each([
    ['GS1', gs1],
    ['HIBC', hibc],
    ['ISBT 128', isbt],
  ])('%s gives the same parts, from print and from scan', (_, arbitrary) => {
    fc.assert(
      fc.property(arbitrary, label => {
        const printed = decodeLabel(encodeLabel(label, 'print'), { today });
        const scan = encodeLabel(label, 'scan');
        const scanned = decodeLabel(scan, {
          today,
          separatorsReliable: true,
          entry: 'scan',
          separatorAliases: [],
        });
        for (const decoded of [printed, scanned]) {
          for (const part of ['di', 'lot', 'serial', 'expires', 'manufactured', 'distinct'] as const) {
            expect(decoded[part], part).toBe(label[part]);
          }
          expect(decoded.findings).toEqual([]);
        }
        expect(scanned.carrierHRF).toBe(printed.carrierHRF);
        expect(Buffer.from(scanned.carrierAIDC ?? '', 'base64').toString('latin1')).toBe(scan);
        const again = decodeLabel(printed.carrierHRF ?? '', { today });
        expect({ ...again, text: '' }).toEqual({ ...printed, text: '' });
      }),
      { numRuns: 1000, seed: 20261125 },
    );
  });

  it('a wrong digit anywhere in a GS1 identifier or character in a HIBC label is always noticed', () => {
    fc.assert(
      fc.property(gs1, fc.nat(13), fc.integer({ min: 1, max: 9 }), (label, at, step) => {
        const digit = String((Number(label.di[at]) + step) % 10);
        const text = `(01)${label.di.slice(0, at)}${digit}${label.di.slice(at + 1)}`;
        expect(decodeLabel(text, { today }).findings.map(f => f.code)).toEqual(['label.check-digit']);
      }),
      { seed: 1 },
    );
    fc.assert(
      fc.property(hibc, fc.nat(), fc.constantFrom(...capitals), (label, where, character) => {
        const text = encodeLabel(label, 'scan');
        const at = where % text.length;
        fc.pre(text[at] !== character);
        const changed = text.slice(0, at) + character + text.slice(at + 1);
        expect(decodeLabel(changed, { today }).findings.length).toBeGreaterThan(0);
      }),
      { numRuns: 1000, seed: 2 },
    );
  });

  it('a GS1 expiry of a month is written with day 00 and read as its last day', () => {
    const text = encodeLabel({ issuer: 'gs1', di: '09506000117843', expires: '2028-02' }, 'print');
    expect(text).toBe('(01)09506000117843(17)280200');
    expect(decodeLabel(text, { today })).toMatchObject({ expires: '2028-02-29', expiresPrecision: 'month' });
  });

  it('writes the published HIBC example with the check character the standard gives', () => {
    const text = encodeLabel({ issuer: 'hibcc', di: 'A123BJC5D6E71' }, 'print');
    expect(text).toBe('+A123BJC5D6E71G');
  });

  it.each<LabelToEncode>([
    { issuer: 'gs1', di: '09506000117844' },
    { issuer: 'gs1', di: '09506000117843', lot: 'A B' },
    { issuer: 'gs1', di: '09506000117843', expires: 'soon' },
    { issuer: 'gs1', di: '09506000117843', distinct: 'A99971312345600' },
    { issuer: 'hibcc', di: 'a123BJC5D6E71' },
    { issuer: 'hibcc', di: 'A123BJC5D6E71', lot: 'x' },
    { issuer: 'hibcc', di: 'A123BJC5D6E71', manufactured: '2026-04' },
    { issuer: 'iccbba', di: 'A9999XYZ100T0944', serial: '000000' },
    { issuer: 'iccbba', di: 'A9999XYZ100T0944', expires: '2026-04' },
  ])('refuses what its agency has no form for: %j', label => {
    expect(() => encodeLabel(label, 'print')).toThrow(CasetallyError);
  });
});
