import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { findingRow } from '../../../src/findings/finding.js';

const today = '2026-11-25';
const german = '(01)09506000117843(17)260430(10)AZ';

describe('damage by keyboards', () => {
  it.each([
    ['HIBC in lower case', '+a123bjc5d6e71g', '+A123BJC5D6E71G', 'its check then agrees'],
    [
      'ISBT 128 in lower case',
      '=/a9999xyz100t0944=,000025',
      '=/A9999XYZ100T0944=,000025',
      'this kind of label has no check',
    ],
    ['shift held', ')!)(%)^)))!!&*$#!)A', '010950600011784310A', 'its check then agrees'],
    ['a German layout', ')01=09506000117843)17=260430)10=AY', german, 'its check then agrees'],
    ['a French layout', 'à&àç(à-ààà&&è_\'"&àQ', '010950600011784310A', 'its check then agrees'],
  ])('%s is proposed, never applied', (_, text, proposal, check) => {
    const decoded = decodeLabel(text, { today });
    const found = decoded.findings.find(f => f.code === 'label.suspect-keyboard');
    expect(found && findingRow(found)).toMatchObject({ severity: 'warning', params: { proposal, check } });
    expect(decoded.di).toBeUndefined();
    expect(decoded.findings.some(f => f.severity === 'error')).toBe(true);
    expect(decoded.text).toBe(text);
  });

  it('caps lock on a symbology prefix is proposed as well', () => {
    const decoded = decodeLabel(']D20109506000117843', { today });
    expect(decoded.findings.map(f => [f.code, f.severity])).toEqual([
      ['label.symbology-unknown', 'error'],
      ['label.suspect-keyboard', 'warning'],
    ]);
    expect(decoded.findings[1]?.params['proposal']).toBe(']d20109506000117843');
  });

  it('nothing is proposed when the result would still not agree', () => {
    expect(decodeLabel('+a123bjc5d6e71h', { today }).findings.map(f => f.code)).not.toContain(
      'label.suspect-keyboard',
    );
    expect(decodeLabel('hello', { today }).findings.map(f => f.code)).toEqual(['label.not-a-label']);
  });
});
