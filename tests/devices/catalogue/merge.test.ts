import { describe, expect, it } from 'vitest';
import { mergeDetails } from '../../../src/devices/catalogue/merge.js';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { findingRow } from '../../../src/findings/finding.js';

const today = '2026-11-25';
const label = decodeLabel('(01)09506000117843(17)261231(10)1234AB', { today });
const row = {
  di: '09506000117843',
  kind: 'drainage catheter',
  sizes: ['8.5 Fr', '35 cm'],
  implant: false,
  mri: 'safe',
  line: 2,
};

describe('label, typing and catalogue put together', () => {
  it('fill each other up, and say where each detail came from', () => {
    const { details, findings } = mergeDetails(
      'drain',
      'devices.drain',
      { description: 'my drain' },
      label,
      row,
    );
    expect(findings).toEqual([]);
    expect(details).toEqual({
      di: '09506000117843',
      lot: '1234AB',
      expires: '2026-12-31',
      kind: 'drainage catheter',
      description: 'my drain',
      sizes: ['8.5 Fr', '35 cm'],
      implant: false,
      mri: 'safe',
      from: {
        di: 'label',
        lot: 'label',
        expires: 'label',
        kind: 'catalogue',
        description: 'typed',
        sizes: 'catalogue',
        implant: 'catalogue',
        mri: 'catalogue',
      },
    });
  });

  it('a typed lot that the label contradicts is an error with both, and the label counts', () => {
    const { details, findings } = mergeDetails('drain', 'devices.drain', { lot: '1234ab' }, label, undefined);
    expect(details.lot).toBe('1234AB');
    expect(findings).toMatchObject([
      {
        code: 'label.conflict',
        severity: 'error',
        path: 'devices.drain.lot',
        params: { typed: '1234ab', label: '1234AB' },
      },
    ]);
  });

  it('a typed month agrees with its last day, another day does not', () => {
    expect(mergeDetails('d', 'p', { expires: '2026-12' }, label, undefined).findings).toEqual([]);
    expect(mergeDetails('d', 'p', { expires: '2026-12-30' }, label, undefined).findings).toHaveLength(1);
    expect(mergeDetails('d', 'p', { di: '9506000117843' }, label, undefined).findings).toEqual([]);
  });

  it('typed details that the catalogue contradicts are warnings with both, and typing counts', () => {
    const typed = { kind: 'sheath', sizes: ['35 cm', '8,5 Fr'], implant: true };
    const { details, findings } = mergeDetails('drain', 'devices.drain', typed, label, row);
    expect(details).toMatchObject({ kind: 'sheath', implant: true, sizes: ['35 cm', '8,5 Fr'] });
    expect(
      findings
        .map(findingRow)
        .map(f => [f.code, f.severity, f.path, f.params['recorded'], f.params['catalogue']]),
    ).toEqual([
      ['catalogue.conflict', 'warning', 'devices.drain.kind', 'sheath', 'drainage catheter'],
      ['catalogue.conflict', 'warning', 'devices.drain.implant', 'yes', 'no'],
    ]);
  });

  it('a catalogue row of another device is pointed out', () => {
    const { findings } = mergeDetails('drain', 'devices.drain', {}, label, { ...row, di: '51022222233336' });
    expect(findings.map(findingRow)).toMatchObject([
      { code: 'catalogue.conflict', params: { what: 'device identifier', source: 'on the label' } },
    ]);
  });

  it('without label and catalogue the typing stands', () => {
    const { details, findings } = mergeDetails(
      'wire',
      'devices.wire',
      { kind: 'guidewire', lot: 'L' },
      undefined,
      undefined,
    );
    expect(details).toEqual({ kind: 'guidewire', lot: 'L', from: { kind: 'typed', lot: 'typed' } });
    expect(findings).toEqual([]);
  });
});
