import { describe, expect, it } from 'vitest';
import { millenniumOf } from '../../../src/devices/labels/dates.js';
import { decodeLabel } from '../../../src/devices/labels/decode.js';

const today = '2026-11-25';

describe('ISBT 128', () => {
  it.each([
    ['=/A9999XYZ100T094=,000025', 'label.length', '3'],
    ['=/A9999XYZ100T0944=,000000', 'label.serial-zero', '21'],
    ['=/A9999xYZ100T0944', 'label.character', '8'],
    ['=/O9999XYZ100T0944', 'label.character', '3'],
    ['=/A9999XYZ100T0944=A9997131234560X', 'label.character', '34'],
    ['=/A9999XYZ100T0944=>014367', 'label.date', '21'],
    ['=/A9999XYZ100T0944=>01403A', 'label.character', '26'],
    ['=/A9999XYZ100T0944=?014032', 'label.structure', '20'],
    ['=/A9999XYZ100T0944=,000025=,000026', 'label.repeated', '29'],
    ['=/A9999XYZ100T0944&,1abc', 'label.character', '22'],
  ])('%s: %s at character %s', (text, code, at) => {
    const found = decodeLabel(text, { today }).findings.filter(f => f.code === code);
    expect(found.map(f => f.params['at'])).toEqual([at]);
  });

  it('a header that counts other structures than follow is an error', () => {
    expect(decodeLabel('=+03000=/A9999XYZ100T0944=,000025', { today }).findings).toMatchObject([
      { code: 'label.header-count', params: { expected: '3', found: '2' } },
    ]);
  });

  it('lower case is kept in blood containers, where the standard allows it', () => {
    expect(decodeLabel('=)1TE12345xA&)rz12345678', { today })).toMatchObject({
      di: '1TE12345xA',
      lot: 'rz12345678',
      findings: [],
    });
  });

  it('a year without its thousands digit is the one nearest ahead of 100 years', () => {
    // 014 is 2014 in HL7's example-udi2; the rest follows from the rule.
    expect([14, 126, 127, 999].map(yyy => millenniumOf(yyy, today))).toEqual([2014, 2126, 1127, 1999]);
  });
});
