import { expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { labelCommandResult, labelExitCode } from '../../../src/devices/labels/result.js';

const options = { today: '2026-11-25', entry: 'scan' } as const;
const right = decodeLabel('(01)09506000117843(10)AB1', options);
const warned = decodeLabel(']C1(01)09506000117843(10)AB1', options);
const wrong = decodeLabel('(01)09506000117844(10)A{}', { ...options, wrongCheck: 'warning' });
const none = decodeLabel('guidewire', options);

it('the command prints the parts that are there, and all findings', () => {
  const label = decodeLabel(
    '=+06000=/A9999XYZ100T0944=,000025=A99971312345600=>028060=}026032&,1LOT7',
    options,
  );
  expect(labelCommandResult(label)).toStrictEqual({
    issuer: 'iccbba',
    di: 'A9999XYZ100T0944',
    lot: 'LOT7',
    serial: '000025',
    expires: '2028-02-29',
    manufactured: '2026-02-01',
    distinct: 'A99971312345600',
    carrierHRF: '=/A9999XYZ100T0944=,000025=A99971312345600=>028060=}026032&,1LOT7',
    carrierAIDC: btoa('=+06000=/A9999XYZ100T0944=,000025=A99971312345600=>028060=}026032&,1LOT7'),
    findings: [],
  });
  expect(labelCommandResult(none)).toStrictEqual({ findings: none.findings });
  expect(none.findings).toHaveLength(1);
});

it.each([
  ['nothing', [], 0],
  ['a label', [right], 0],
  ['a warning', [warned], 0],
  ['a warning and an error', [wrong], 1],
  ['an error in one of two', [right, wrong], 1],
  ['no label', [none], 2],
  ['one that is no label among others', [wrong, none, right], 2],
])('%s: the exit code says the worst', (_, labels, code) => {
  expect(labelExitCode(...labels)).toBe(code);
});

it('the label with a warning and an error has both', () => {
  expect(wrong.findings.map(f => f.severity)).toEqual(['warning', 'error']);
});
