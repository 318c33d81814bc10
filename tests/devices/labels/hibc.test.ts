import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { checkCharacter } from '../../../src/devices/labels/hibc-check.js';
import { decodeScans } from '../../../src/devices/labels/scans.js';
import { findingRow } from '../../../src/findings/finding.js';

const today = '2026-11-25';
const withCheck = (text: string) => text + (checkCharacter(text) ?? '');

describe('check character', () => {
  // ANSI/HIBC 2.6, appendix B: the values of +A123BJC5D6E71 add up to 145, 145 modulo 43 is 16, the 17th character is G.
  it('agrees with the worked example of the standard', () => {
    expect(checkCharacter('+A123BJC5D6E71')).toBe('G');
    expect(checkCharacter('+a')).toBeUndefined();
  });

  it.each(['$', '+', '/', '%', '.', '-', ' '])('may itself be %j', wanted => {
    let found = '';
    for (let i = 0; i < 100_000 && found === ''; i += 1) {
      const text = `+A123X${i}0`;
      if (checkCharacter(text) === wanted) found = text;
    }
    expect(decodeLabel(found + wanted, { today })).toMatchObject({
      di: found.slice(1),
      check: 'right',
      findings: [],
    });
    if (wanted !== ' ') return;
    const printed = decodeLabel(`*${found}_*`, { today });
    expect(printed).toMatchObject({
      di: found.slice(1),
      check: 'right',
      findings: [],
      carrierHRF: `${found}_`,
    });
    // Cut off at the end, nothing is guessed; the remedy says how to type it.
    expect(decodeLabel(found, { today }).findings).toMatchObject([
      { code: 'label.check-character', severity: 'error' },
    ]);
  });

  it('is not asked for where a full last field leaves no room for it', () => {
    const decoded = decodeLabel('+A123BJC5D6E71/16D20130202', { today });
    expect(decoded).toMatchObject({ di: 'A123BJC5D6E71', manufactured: '2013-02-02', check: 'missing' });
    expect(decoded.findings).toMatchObject([{ code: 'label.check-character-missing', severity: 'warning' }]);
  });

  it('is found in front of a space that was added at the end', () => {
    const decoded = decodeLabel('+A123BJC5D6E71G ', { today });
    expect(decoded).toMatchObject({
      di: 'A123BJC5D6E71',
      check: 'right',
      findings: [{ code: 'label.trailing-space' }],
    });
  });

  it('an asterisk at one end only is an error', () => {
    expect(decodeLabel('*+A123BJC5D6E71G', { today }).findings).toMatchObject([
      { code: 'label.asterisk', params: { at: '1' } },
    ]);
    expect(decodeLabel('+A123BJC5D6E71G*', { today }).findings).toMatchObject([
      { code: 'label.asterisk', params: { at: '16' } },
    ]);
  });
});

describe('secondary data', () => {
  // Forms of ANSI/HIBC 2.6, appendix E, on one product; expiry 28 September 2005 at 22 h, lot 3C001, quantity 24 or 100.
  const day = { expires: '2005-09-28', lot: '3C001' };
  it.each<[string, object]>([
    ['05271', { expires: '2005-09-28' }],
    ['052713C001', day],
    ['$3C001', { lot: '3C001' }],
    ['$$09053C001', { expires: '2005-09', expiresPrecision: 'month', lot: '3C001' }],
    ['$$10053C001', { expires: '2005-10', lot: '3C001' }],
    ['$$20928053C001', day],
    ['$$30509283C001', day],
    ['$$4050928223C001', { ...day, expiresHour: '22' }],
    ['$$5052713C001', day],
    ['$$605271223C001', { ...day, expiresHour: '22' }],
    ['$$73C001', { lot: '3C001' }],
    ['$$8243050928', { quantity: '24', expires: '2005-09-28' }],
    ['$$82409053C001', { quantity: '24', expires: '2005-09', lot: '3C001' }],
    ['$$82420928053C001', { quantity: '24', ...day }],
    ['$$8244050928223C001', { quantity: '24', ...day, expiresHour: '22' }],
    ['$$82473C001', { quantity: '24', lot: '3C001' }],
    ['$$824', { quantity: '24' }],
    ['$$90010030509283C001', { quantity: '100', ...day }],
    ['$$900100', { quantity: '100' }],
    ['$+0001', { serial: '0001' }],
    ['$$+09050001', { expires: '2005-09', serial: '0001' }],
    ['$$+20928050001', { expires: '2005-09-28', serial: '0001' }],
    ['$$+30509280001', { expires: '2005-09-28', serial: '0001' }],
    ['$$+405092822S1', { expires: '2005-09-28', expiresHour: '22', serial: 'S1' }],
    ['$$+5052710001', { expires: '2005-09-28', serial: '0001' }],
    ['$$+605271220001', { expires: '2005-09-28', expiresHour: '22', serial: '0001' }],
    ['$$+70001', { serial: '0001' }],
    ['$$3050928', { expires: '2005-09-28' }],
    ['$$3050928/S0001', { expires: '2005-09-28', serial: '0001' }],
    [
      '$$73C001/S0001/16D20160101/14D20200101',
      { lot: '3C001', serial: '0001', manufactured: '2016-01-01', expires: '2020-01-01' },
    ],
    ['$$73C001/$$+70001/Q500', { lot: '3C001', serial: '0001', quantity: '500' }],
  ])('%s', (secondary, parts) => {
    const joined = decodeLabel(withCheck(`+Z999009993020351/${secondary}`), { today });
    expect(joined).toMatchObject({ issuer: 'hibcc', di: 'Z999009993020351', ...parts, findings: [] });
    if (secondary.includes('/')) return;
    // The same as a symbol of its own, with link character.
    const primary = withCheck('+Z999009993020351');
    const alone = withCheck(`+${secondary}${primary.slice(-1)}`);
    expect(decodeLabel(`${primary}\n${alone}`, { today })).toMatchObject({
      di: 'Z999009993020351',
      ...parts,
      findings: [],
    });
  });

  it.each([
    ['$$31305323C001', 'label.date', '22'],
    ['$$2093105X', 'label.date', '22'],
    ['$$420020224X', 'label.date', '22'],
    ['$$532367X', 'label.date', '22'],
    ['$$3A50928X', 'label.character', '22'],
    ['$$X', 'label.structure', '21'],
    ['X123', 'label.structure', '19'],
    ['16D2016010', 'label.length', '22'],
    ['14D2016010A', 'label.character', '29'],
    ['$1234567890123456789', 'label.length', '20'],
    ['$$3050928A/14D20200101', 'label.repeated', '33'],
  ])('%s: %s at character %s, the rest is read', (secondary, code, at) => {
    const decoded = decodeLabel(withCheck(`+Z999009993020351/${secondary}`), { today });
    expect(decoded.di).toBe('Z999009993020351');
    expect(decoded.findings.map(f => [f.code, f.params['at']])).toEqual([[code, at]]);
  });

  it('a quantity without date form leaves the rest as the lot, with a warning', () => {
    const decoded = decodeLabel('+A99912345/$$81210X3/16D20111212/14D20200906/S77DEFG45$', { today });
    expect(decoded).toMatchObject({ quantity: '12', lot: '10X3', serial: '77DEFG45', expires: '2020-09-06' });
    expect(decoded.findings).toMatchObject([{ code: 'label.date-flag-missing', severity: 'warning' }]);
  });

  it('an unusual character in a lot is a warning', () => {
    const decoded = decodeLabel(withCheck('+A99912345/$$7A-1'), { today });
    expect(decoded).toMatchObject({
      lot: 'A-1',
      findings: [{ code: 'label.unusual-character', severity: 'warning' }],
    });
  });

  it('codes of a hospital are refused', () => {
    // ANSI/HIBC 1.3, section 2.2.
    expect(decodeLabel('+/EO5232013', { today }).findings.map(f => f.code)).toContain('label.provider-code');
  });
});

describe('symbols scanned one by one', () => {
  const primary = '+A123BJC5D6E71G';
  const secondary = '+$$52001510X3GD';
  const parts = { di: 'A123BJC5D6E71', lot: '10X3', expires: '2020-01-15', findings: [] };

  it('are joined in either order when the link character agrees', () => {
    expect(decodeScans([primary, secondary], { today })).toMatchObject([parts]);
    expect(decodeScans([secondary, primary], { today })).toMatchObject([parts]);
    expect(decodeLabel(`${secondary} ${primary}`, { today })).toMatchObject(parts);
  });

  it('are not joined when it does not', () => {
    const other = withCheck('+$$52001510X3H');
    const [decoded] = decodeScans([primary, other], { today });
    expect(decoded?.di).toBe('A123BJC5D6E71');
    expect(decoded?.findings.map(findingRow)).toMatchObject([
      { code: 'label.link-character', params: { found: "'H'", expected: "'G'" } },
    ]);
    expect(decoded?.lot).toBeUndefined();
  });

  it('GS1 symbols are joined with the identifier first, bytes likewise', () => {
    const [decoded, ...more] = decodeScans([']C11726123110AB1', ']C10109506000117843'], { today });
    expect(more).toEqual([]);
    expect(decoded).toMatchObject({ di: '09506000117843', lot: 'AB1', expires: '2026-12-31', findings: [] });
    expect(Buffer.from(decoded?.carrierAIDC ?? '', 'base64').toString()).toBe(
      ']C10109506000117843]C11726123110AB1',
    );
  });

  it('of two devices or two agencies stay apart', () => {
    expect(decodeScans(['(01)09506000117843', '(01)51022222233336'], { today })).toHaveLength(2);
    expect(decodeScans(['(01)09506000117843', secondary], { today })).toHaveLength(2);
    const alone = ']C10109506000117843';
    expect(decodeScans([alone], { today })).toEqual([decodeLabel(alone, { today })]);
    expect(decodeScans([], { today })).toEqual([]);
  });
});
