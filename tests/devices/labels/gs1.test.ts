import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { labelExitCode } from '../../../src/devices/labels/result.js';
import { separatorAliases } from '../../../src/devices/labels/source.js';
import { messageOf } from '../../../src/findings/finding.js';

const today = '2026-11-25';
const GS = '\u001d';
const codes = (text: string, options = {}) =>
  decodeLabel(text, { today, ...options }).findings.map(f => f.code);

describe('separators that scanners lose', () => {
  // Strings from public issue threads of barcode libraries, with what the printed label said where known.
  it.each([
    ['zxing/zxing 1457', '010500045611225310COV010917220901', '05000456112253', '(10)COV0109(17)220901'],
    [
      'jodal/biip 137',
      '1021072911172405310100693570007182',
      '00693570007182',
      '(10)21072911(17)240531(01)00693570007182',
    ],
    [
      'Sleavely/Bark-JS 8',
      '01108573260055401722081110A2021121092220084115197',
      '10857326005540',
      '(10)A20(21)121092220084115197',
    ],
    [
      'PeterBrockfeld/BarcodeParser 9',
      '01035960104943371731042610P212940211210428',
      '03596010494337',
      '(10)P2129402(11)210428',
    ],
    [
      'ilopez/GS1Parser 5',
      '010404188511271221X12Y9JNZ961721080610176600715',
      '04041885112712',
      '(21)X12Y9JNZ96(17)210806(10)176600715',
    ],
    [
      'jodal/biip 296',
      '0104062102661608112405271727112710S2400424282400522010301NNN003',
      '04062102661608',
      '(10)S2400424282(400)522010301NNN003',
    ],
  ])(
    '%s: several readings are listed, the printed one among them, and only the identifier is accepted',
    (_, text, di, printed) => {
      const decoded = decodeLabel(text, { today });
      expect(decoded.di).toBe(di);
      expect(decoded.lot).toBeUndefined();
      expect(decoded.serial).toBeUndefined();
      expect(decoded.carrierHRF).toBeUndefined();
      expect(decoded.carrierAIDC).toBeUndefined();
      expect(decoded.readings?.map(r => r.text).some(r => r.includes(printed))).toBe(true);
      const ambiguous = decoded.findings.find(f => f.code === 'label.ambiguous');
      expect(ambiguous?.severity).toBe('error');
      for (const { text: reading } of decoded.readings ?? [])
        expect(ambiguous && messageOf(ambiguous)).toContain(reading);
    },
  );

  it('takes a value to the end without remark when nothing else is possible', () => {
    const decoded = decodeLabel('010950600011784310ABCDEFGHIJKLM', { today });
    expect(decoded).toMatchObject({ di: '09506000117843', lot: 'ABCDEFGHIJKLM' });
    expect(decoded.findings).toEqual([]);
  });

  it('takes the only possible reading where the value would be too long otherwise', () => {
    const decoded = decodeLabel('010950600011784310ABCDEFGHIJKLMNOPQR21XYZ', { today });
    expect(decoded).toMatchObject({ lot: 'ABCDEFGHIJKLMNOPQR', serial: 'XYZ' });
    expect(decoded.findings).toMatchObject([
      { code: 'label.separator-lost', severity: 'warning', params: { at: '19' } },
    ]);
    expect(labelExitCode(decoded)).toBe(0);
    expect(decoded.carrierAIDC).toBeUndefined();
  });

  it('names the place when no reading is possible', () => {
    const decoded = decodeLabel(`010950600011784310${'A'.repeat(25)}`, { today });
    expect(decoded.di).toBe('09506000117843');
    expect(decoded.findings).toMatchObject([{ code: 'label.length', params: { at: '19', found: '25' } }]);
  });

  it('believes a site that says its scanners send separators', () => {
    const decoded = decodeLabel('010500045611225310COV010917220901', { today, separatorsReliable: true });
    expect(decoded).toMatchObject({ lot: 'COV010917220901', findings: [] });
  });

  it('bounds the search on hostile text', () => {
    const decoded = decodeLabel(`0109506000117843${'99989796959493929190'.repeat(10)}`, { today });
    expect(decoded.di).toBe('09506000117843');
    expect(decoded.readings?.length ?? 0).toBeLessThanOrEqual(64);
  });

  it.each(separatorAliases)('reads %j as a separator', alias => {
    const decoded = decodeLabel(`010950600011784310AB1${alias}21C2`, { today });
    expect(decoded).toMatchObject({ lot: 'AB1', serial: 'C2', findings: [] });
    expect(decoded.carrierAIDC).toBeUndefined();
  });

  it('reads the separators a site configures, and only these', () => {
    // jodal/biip 253: an app that prints a space for the separator.
    const text = '0104150011164140211GTFG32DLF 1723033110158993A';
    const decoded = decodeLabel(text, { today, separatorAliases: [' '] });
    expect(decoded).toMatchObject({
      serial: '1GTFG32DLF',
      expires: '2023-03-31',
      lot: '158993A',
      findings: [],
    });
    expect(codes(text)).toContain('label.length');
    expect(decodeLabel('010950600011784310AB1/21C2', { today, separatorAliases: ['/'] })).toMatchObject({
      lot: 'AB1',
    });
    expect(codes('010950600011784310AB1|21C2', { separatorAliases: ['/'] })).toContain('label.character');
  });
});

describe('forms of the same label', () => {
  const bare = `0109506000117843172612311012AB${GS}21C3`;
  const expected = { di: '09506000117843', expires: '2026-12-31', lot: '12AB', serial: 'C3', check: 'right' };

  it.each(['', ']C1', ']d2', ']Q3', ']e0', ']J1', GS, `]C1${GS}`])('prefix %j', prefix => {
    const decoded = decodeLabel(prefix + bare, { today });
    expect(decoded).toMatchObject({
      ...expected,
      carrierHRF: '(01)09506000117843(17)261231(10)12AB(21)C3',
      findings: [],
    });
    expect(Buffer.from(decoded.carrierAIDC ?? '', 'base64').toString('latin1')).toBe(prefix + bare);
    expect(decodeLabel(decoded.carrierHRF ?? '', { today })).toMatchObject(expected);
  });

  it('ignores what a scanner in keyboard mode adds at the end, also in the raw bytes', () => {
    const decoded = decodeLabel(`]d2${bare}\r\n`, { today });
    expect(decoded).toMatchObject({ ...expected, findings: [] });
    expect(Buffer.from(decoded.carrierAIDC ?? '', 'base64').toString('latin1')).toBe(`]d2${bare}`);
  });

  it('a separator after a field of predefined length is tolerated', () => {
    const decoded = decodeLabel(`]C10109506000117843${GS}17261231${GS}1012AB${GS}21C3${GS}`, { today });
    expect(decoded).toMatchObject({ ...expected, findings: [] });
  });

  it.each([
    '(01)09506000117843(17)261231(10)12AB(21)C3',
    '{01}09506000117843{17}261231{10}12AB{21}C3',
    '(01) 09506000117843 (17) 261231 (10) 12AB (21) C3',
    '(01)09506000117843\n(17)261231\n(10)12AB\n(21)C3\n',
  ])('print %j has no raw bytes', text => {
    const decoded = decodeLabel(text, { today });
    expect(decoded).toMatchObject({
      ...expected,
      carrierHRF: '(01)09506000117843(17)261231(10)12AB(21)C3',
      findings: [],
    });
    expect(decoded.carrierAIDC).toBeUndefined();
  });

  it('brackets that were encoded are a warning, and the raw bytes are kept', () => {
    const text = ']d2(01)09506000117843(17)261231(10)12AB(21)C3';
    const decoded = decodeLabel(text, { today });
    expect(decoded).toMatchObject({
      ...expected,
      findings: [{ code: 'label.brackets-in-scan', severity: 'warning' }],
    });
    expect(Buffer.from(decoded.carrierAIDC ?? '', 'base64').toString()).toBe(text);
  });

  it('brackets inside a lot belong to it; what looks like a spoilt identifier does not', () => {
    expect(decodeLabel('(01)09506000117843(10)AB(C)D', { today })).toMatchObject({
      lot: 'AB(C)D',
      findings: [],
    });
    for (const tail of ['(2l)C3', '(21C3', '21)C3', '(210C3']) {
      expect(codes(`(01)09506000117843(10)12AB${tail}`), tail).toContain('label.bracket');
    }
  });

  it('digits printed in groups are read, with a note', () => {
    const decoded = decodeLabel('(01) 0 9506000 117843 (10)A', { today });
    expect(decoded).toMatchObject({
      di: '09506000117843',
      findings: [{ code: 'label.spaces', severity: 'information' }],
    });
  });

  it('another symbology or an unknown one is pointed out', () => {
    expect(codes(`]d1${bare}`)).toEqual(['label.symbology']);
    expect(codes(`]x9${bare}`)).toEqual(['label.symbology-unknown']);
  });

  it('a typed label never gets raw bytes, a scanned HIBC one does', () => {
    expect(decodeLabel(bare, { today, entry: 'typed' }).carrierAIDC).toBeUndefined();
    expect(decodeLabel('+A123BJC5D6E71G', { today }).carrierAIDC).toBeUndefined();
    const scanned = decodeLabel('+A123BJC5D6E71G', { today, entry: 'scan' });
    expect(Buffer.from(scanned.carrierAIDC ?? '', 'base64').toString()).toBe('+A123BJC5D6E71G');
  });
});

describe('dates', () => {
  const read = (ai: string, digits: string, now = today) =>
    decodeLabel(`(01)09506000117843(${ai})${digits}(10)A`, { today: now });

  it('day 00 of an expiry date is the last day of that month', () => {
    expect(read('17', '260400')).toMatchObject({
      expires: '2026-04-30',
      expiresPrecision: 'month',
      findings: [],
    });
    expect(read('17', '240200')).toMatchObject({ expires: '2024-02-29' });
    expect(read('17', '230200')).toMatchObject({ expires: '2023-02-28' });
    expect(read('17', '261200')).toMatchObject({ expires: '2026-12-31' });
    expect(read('17', '260400').elements.find(e => e.id === '17')?.raw).toBe('260400');
  });

  it('day 00 of a production date leaves the month', () => {
    expect(read('11', '260400')).toMatchObject({ manufactured: '2026-04', findings: [] });
  });

  it.each(['260431', '230229', '261300', '260132'])('%s is an error of that field only', digits => {
    const decoded = read('17', digits);
    expect(decoded).toMatchObject({ di: '09506000117843', lot: 'A' });
    expect(decoded.expires).toBeUndefined();
    expect(decoded.findings).toMatchObject([{ code: 'label.date', params: { at: '23', found: digits } }]);
  });

  // The years that the sliding window of the GS1 General Specifications gives, worked out by hand.
  it.each([
    ['1999-06-01', '50', '1950'],
    ['1999-06-01', '49', '2049'],
    ['1999-06-01', '00', '2000'],
    ['2026-11-25', '76', '2076'],
    ['2026-11-25', '77', '1977'],
    ['2026-11-25', '00', '2000'],
    ['2026-11-25', '99', '1999'],
    ['2049-01-01', '99', '2099'],
    ['2049-01-01', '00', '2000'],
    ['2050-01-01', '00', '2100'],
    ['2050-01-01', '01', '2001'],
    ['2051-12-31', '01', '2101'],
    ['2051-12-31', '02', '2002'],
  ])('read on %s, year %s is %s', (now, two, year) => {
    expect(read('11', `${two}0115`, now).manufactured).toBe(`${year}-01-15`);
  });

  it('made after it expired is an error that gives both places', () => {
    const decoded = decodeLabel('(01)09506000117843(11)260501(17)260430', { today });
    expect(decoded.findings).toMatchObject([
      { code: 'label.dates-order', params: { madeAt: '23', expiresAt: '33' } },
    ]);
  });

  it('reads expiry and production with hour', () => {
    const decoded = decodeLabel(`010950600011784370032604301500${GS}80082601021530`, { today });
    expect(decoded).toMatchObject({
      expires: '2026-04-30',
      expiresHour: '15',
      manufactured: '2026-01-02',
      findings: [],
    });
  });
});

describe('values and their company', () => {
  it.each([
    ['(01)0950600011784(10)A', 'label.length', '5'],
    ['(01)09506000117843(10)A B', 'label.character', '24'],
    ['(01)09506000117843(10)\u00c4', 'label.character', '23'],
    ['(01)095O6000117843', 'label.character', '8'],
    ['(01)09506000117843(77)A', 'label.unknown-identifier', '19'],
    ['(01)09506000117843(10)A(10)B', 'label.repeated', '28'],
    ['(02)09506000117843', 'label.needs', '5'],
    ['(01)09506000117843(250)A', 'label.needs', '24'],
    ['(01)09506000117843(37)5', 'label.excludes', '5'],
    [`010950600011784304A`, 'label.unknown-identifier', '17'],
  ])('%s: %s at character %s', (text, code, at) => {
    expect(decodeLabel(text, { today }).findings.find(f => f.code === code)?.params['at']).toBe(at);
  });

  it('keeps capitals as they are in lots and serial numbers', () => {
    expect(decodeLabel('(01)09506000117843(10)aBc(21)xYz', { today })).toMatchObject({
      lot: 'aBc',
      serial: 'xYz',
      findings: [],
    });
  });

  it('a symbol with production data alone is no whole label', () => {
    const decoded = decodeLabel('(17)261231(10)AB1', { today });
    expect(decoded).toMatchObject({ issuer: 'gs1', lot: 'AB1', expires: '2026-12-31' });
    expect(decoded.findings.map(f => f.code)).toContain('label.no-device-identifier');
    expect(labelExitCode(decoded)).toBe(1);
  });

  it.each(['', ' ', 'hello', '12345', '(hello)', '(', '=', '&', '20261125', '*', ']d2', '\u0000', '=A1+B2'])(
    '%j is no label',
    text => {
      const decoded = decodeLabel(text, { today });
      expect(labelExitCode(decoded)).toBe(2);
      expect(decoded.findings[0]?.code).toBe('label.not-a-label');
      expect(decoded.di).toBeUndefined();
    },
  );

  it('text beyond any label is refused unread', () => {
    expect(codes('0'.repeat(301))).toEqual(['label.too-long']);
  });
});
