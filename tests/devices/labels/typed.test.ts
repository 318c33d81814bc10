import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../../src/devices/details.js';
import { messageOf } from '../../../src/findings/finding.js';
import { recordOf } from '../../cases/record.js';

const found = (device: Record<string, unknown>) =>
  describeDevices(recordOf({ devices: { d: { kind: 'guidewire', ...device } } })).findings;

// Source: GS1 General Specifications, check digit calculation.
describe('a device identifier that was typed', () => {
  it.each([
    ['09520008801159', '9', '3'],
    ['(01)09520008801159', '9', '3'],
    ['(01) 09520008801159', '9', '3'],
    ['9520008801159', '9', '3'],
    ['4006381333932', '2', '1'],
    ['036000291453', '3', '2'],
  ])('%s has the check digit %s in place of %s', (udi, wrong, right) => {
    const [one, ...others] = found({ udi });
    expect(others).toEqual([]);
    expect(one && [one.code, one.severity, one.path]).toEqual([
      'label.check-digit',
      'warning',
      'devices.d.udi',
    ]);
    expect(one && messageOf(one)).toBe(
      `The check digit of the device identifier at character ${udi.length} is ${wrong}; its other digits give ${right}.`,
    );
  });

  it('spaces around it are not counted', () => {
    const said = 'The check digit of the device identifier at character 14 is 9; its other digits give 3.';
    expect(found({ udi: ' 09520008801159  ' }).map(one => messageOf(one))).toEqual([said]);
  });

  it.each([
    ['right, 14 digits', '09520008801153'],
    ['right, 13 digits', '4006381333931'],
    ['right, 12 digits', '036000291452'],
    ['HIBC', '+B066000325011NS1'],
    ['HIBC without its flag', 'B06600032501'],
    ['ICCBBA', 'A9997XYZ100T0479'],
    ['a number of the maker', '88011599'],
    ['another text', 'REF 09520008801159'],
    ['more after it', '09520008801159 REF'],
    ['a whole label', '(01)09520008801159(10)L1'],
  ])('%s: nothing', (_what, udi) => expect(found({ udi })).toEqual([]));

  it('leaves it to the label where there is one', () => {
    const codes = found({ udi: '09520008801159', label: '(01)09520008801153(10)L1' }).map(({ code }) => code);
    expect(codes).toEqual(['label.conflict']);
  });
});
