import { describe, expect, it } from 'vitest';
import type { LabelToEncode } from '../../../src/devices/labels/encode.js';
import { encodeLabel } from '../../../src/devices/labels/encode.js';
import { CasetallyError } from '../../../src/findings/errors.js';

const gs1 = { issuer: 'gs1', di: '09506000117843' } as const;
const hibc = { issuer: 'hibcc', di: 'A123BJC5D6E71' } as const;
const isbt = { issuer: 'iccbba', di: 'A9999XYZ100T0944' } as const;
const blood = { issuer: 'iccbba', di: '1TE12345xA' } as const;

// Sources: GS1 General Specifications, concatenation; HIBC Supplier Labeling Standard; ICCBBA ST-017.
describe('a label as it is printed and as a scanner sends it', () => {
  it.each<[string, LabelToEncode, string, string]>([
    ['GS1, the identifier alone', gs1, '(01)09506000117843', '0109506000117843'],
    [
      'GS1, a separator only after a lot that something follows',
      { ...gs1, manufactured: '2026-11', expires: '2028-02-29', lot: 'AB1', serial: 'S7' },
      '(01)09506000117843(11)261100(17)280229(10)AB1(21)S7',
      '0109506000117843112611001728022910AB1\u001d21S7',
    ],
    ['GS1, a lot at the end', { ...gs1, lot: 'AB1' }, '(01)09506000117843(10)AB1', '010950600011784310AB1'],
    ['HIBC, the identifier alone', hibc, '+A123BJC5D6E71G', '+A123BJC5D6E71G'],
    [
      'HIBC, a check character that is a space',
      { ...hibc, di: 'A123X79990' },
      '+A123X79990_',
      '+A123X79990 ',
    ],
    [
      'HIBC, a lot without a date and a serial number',
      { ...hibc, lot: 'AB1', serial: 'S7' },
      '+A123BJC5D6E71/$$7AB1/SS78',
      '+A123BJC5D6E71/$$7AB1/SS78',
    ],
    [
      'HIBC, a day of expiry, a lot and a day of production',
      { ...hibc, expires: '2028-02-29', lot: 'AB1', manufactured: '2026-11-01' },
      '+A123BJC5D6E71/$$3280229AB1/16D20261101/',
      '+A123BJC5D6E71/$$3280229AB1/16D20261101/',
    ],
    [
      'HIBC, a month of expiry',
      { ...hibc, expires: '2028-02' },
      '+A123BJC5D6E71/$$0228H',
      '+A123BJC5D6E71/$$0228H',
    ],
    ['ISBT 128, the identifier alone', isbt, '=/A9999XYZ100T0944', '=/A9999XYZ100T0944'],
    [
      'ISBT 128, a header that counts two',
      { ...isbt, serial: '000025' },
      '=/A9999XYZ100T0944=,000025',
      '=+02000=/A9999XYZ100T0944=,000025',
    ],
    [
      'ISBT 128, everything',
      {
        ...isbt,
        serial: '000025',
        distinct: 'A99971312345600',
        expires: '2028-02-29',
        manufactured: '2026-02-01',
        lot: 'LOT7',
      },
      '=/A9999XYZ100T0944=,000025=A99971312345600=>028060=}026032&,1LOT7',
      '=+06000=/A9999XYZ100T0944=,000025=A99971312345600=>028060=}026032&,1LOT7',
    ],
    [
      'ISBT 128, a blood container and its lot',
      { ...blood, lot: 'rz12345678' },
      '=)1TE12345xA&)rz12345678',
      '=+02000=)1TE12345xA&)rz12345678',
    ],
  ])('%s', (_, label, printed, scanned) => {
    expect([encodeLabel(label, 'print'), encodeLabel(label, 'scan')]).toEqual([printed, scanned]);
  });
});

describe('what a label has no form for', () => {
  const donation = 'A99971312345600';
  it.each<[string, LabelToEncode]>([
    ['device identifier (GTIN)', { ...gs1, di: '0950600011784' }],
    ['device identifier (GTIN)', { ...gs1, di: '095060001178430' }],
    ['device identifier (GTIN)', { ...gs1, di: '09506000117844' }],
    ['device identifier (GTIN)', { ...gs1, di: 'A9506000117843' }],
    ['donation identification number', { ...gs1, distinct: donation }],
    ['date', { ...gs1, expires: 'soon' }],
    ['date', { ...gs1, expires: '2028-02-29T10:00' }],
    ['date', { ...gs1, manufactured: 'on 2026-11-01' }],
    ['date', { ...gs1, expires: '2027-02-29' }],
    ['date', { ...gs1, expires: '2100-02-29' }],
    ['date', { ...gs1, manufactured: '2026-13' }],
    ['lot', { ...gs1, lot: 'A B' }],
    ['lot', { ...gs1, lot: '' }],
    ['serial number', { ...gs1, serial: '123456789012345678901' }],
    ['device identifier', { ...hibc, di: 'a123BJC5D6E71' }],
    ['device identifier', { ...hibc, di: '+A123BJC5D6E71' }],
    ['device identifier', { ...hibc, di: 'A123BJC5D6E71G' }],
    ['device identifier', { ...hibc, di: 'A1231' }],
    ['device identifier', { ...hibc, di: 'A123XXXXXXXXXXXXXXXXXXX1' }],
    ['donation identification number', { ...hibc, distinct: donation }],
    ['lot', { ...hibc, lot: 'aB1' }],
    ['lot', { ...hibc, lot: 'AB1-' }],
    ['lot', { ...hibc, lot: '1234567890123456789' }],
    ['serial number', { ...hibc, serial: 's7' }],
    ['date', { ...hibc, expires: '2028' }],
    ['date', { ...hibc, expires: '12028-02-29' }],
    ['date', { ...hibc, expires: '2028-02-30' }],
    ['date', { ...hibc, expires: '2028-00' }],
    ['production date', { ...hibc, manufactured: '2026-04' }],
    ['production date', { ...hibc, manufactured: '12026-04-01' }],
    ['production date', { ...hibc, manufactured: '2026-04-010' }],
    ['production date', { ...hibc, manufactured: '2026-04-31' }],
    ['device identifier', { ...isbt, di: 'O9999XYZ100T0944' }],
    ['device identifier', { ...isbt, di: 'AA9999XYZ100T0944' }],
    ['device identifier', { ...isbt, di: 'A9999XYZ100T09440' }],
    ['device identifier', { ...isbt, di: 'a9999XYZ100T0944' }],
    ['device identifier', { ...blood, di: '1TE12345-A' }],
    ['lot', { ...isbt, lot: 'xAB1' }],
    ['lot', { ...isbt, lot: 'AB1x' }],
    ['lot', { ...isbt, lot: '1234567890123456789' }],
    ['lot', { ...blood, lot: 'rz1234567' }],
    ['lot', { ...blood, lot: '-rz12345678' }],
    ['lot', { ...blood, lot: 'rz12345678-' }],
    ['serial number', { ...isbt, serial: '000000' }],
    ['serial number', { ...isbt, serial: '0000025' }],
    ['serial number', { ...isbt, serial: '000025x' }],
    ['serial number', { ...isbt, serial: 'x000025' }],
    ['donation number', { ...isbt, distinct: `A${donation}` }],
    ['donation number', { ...isbt, distinct: `${donation}0` }],
    ['donation number', { ...isbt, distinct: '099971312345600' }],
    ['date', { ...isbt, expires: '2028-02' }],
    ['date', { ...isbt, expires: '12028-02-29' }],
    ['date', { ...isbt, manufactured: '2028-02-290' }],
    ['date', { ...isbt, manufactured: '2027-02-30' }],
  ])('the %s of %j is refused', (what, label) => {
    const said = `A label cannot be written: the ${what} does not fit the form of its agency`;
    expect(() => encodeLabel(label, 'print')).toThrow(new CasetallyError('usage', said));
    expect(() => encodeLabel(label, 'scan')).toThrow(expect.objectContaining({ code: 'usage' }));
  });
});
