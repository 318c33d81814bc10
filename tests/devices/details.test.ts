import { describe, expect, it } from 'vitest';
import { applyAcknowledgements } from '../../src/devices/acknowledge.js';
import { describeDevices, deviceDetails } from '../../src/devices/details.js';
import { kindNamed } from '../../src/devices/kinds.js';
import { checkSizes } from '../../src/devices/sizes/check.js';
import { partRole } from '../../src/devices/tally/parts.js';
import { tallyDevices } from '../../src/devices/tally/tally.js';
import { remedyOf } from '../../src/findings/finding.js';
import { recordOf } from '../cases/record.js';

const one = (device: Record<string, unknown>, options = {}) =>
  deviceDetails(recordOf({ devices: { d: device } }), options).get('d')!;

describe('device details', () => {
  it.each([
    [{ kind: 'drainage catheter', size: '8.5 Fr', length: '35 cm' }, '8.5 Fr drainage catheter, 35 cm'],
    [{ kind: 'guidewire', diameter: '0.035 in', length: '145 cm' }, '0.035 in guidewire, 145 cm'],
    [{ kind: 'access needle', size: '21 G x 15 cm' }, '21 G access needle, 15 cm'],
    [
      { kind: 'balloon catheter', size: '3 x 40 mm', length: '135 cm' },
      '3 mm x 40 mm balloon catheter, 135 cm',
    ],
    [{ kind: 'stent', size: '10 mm x 60 mm', length: '80 cm' }, '10 mm x 60 mm stent'],
    [{ kind: 'particles', size: '500-700 µm' }, '500–700 µm particles'],
    [{ kind: 'ureteric stent' }, 'ureteric stent'],
  ])('names %o', (device, name) => expect(one(device).name).toBe(name));

  it('takes lot, serial, expiry and identifier from the label', () => {
    const device = one({ kind: 'stent', label: '(01)09506000117843(17)261231(10)1234AB(21)000418' });
    expect(device).toMatchObject({
      di: '09506000117843',
      lot: '1234AB',
      serial: '000418',
      expires: '2026-12-31',
    });
  });

  it('fills from the catalogue what neither label nor typing says, and names what contradicts', () => {
    const row = {
      di: '09506000117843',
      line: 2,
      kind: 'ureteric stent',
      sizes: ['26 cm', '7 Fr'],
      maker: 'Sham Stents',
      mri: 'MR safe',
    };
    const catalogue = new Map([[row.di, row]]);
    const record = recordOf({
      devices: { d: { kind: 'ureteric stent', udi: row.di, maker: 'Other Stents' } },
    });
    const { devices, findings } = describeDevices(record, { catalogue });
    expect(devices.get('d')).toMatchObject({ name: '7 Fr ureteric stent, 26 cm', mri: 'MR safe' });
    expect(findings.map(f => `${f.code} ${f.path}`)).toEqual(['catalogue.conflict devices.d.maker']);
  });

  it('takes kinds of the site, and families for unknown kinds', () => {
    const siteKinds = [{ name: 'tract probe', family: 'dilator' as const, aliases: ['probe of the tract'] }];
    expect(one({ kind: 'Probe-of the tract' }, { siteKinds })).toMatchObject({
      family: 'dilator',
      implant: false,
    });
    expect(one({ kind: 'new thing', family: 'embolic' })).toMatchObject({ family: 'embolic', implant: true });
    expect(one({ kind: 'stent', implant: 'no' }).implant).toBe(false);
  });

  it('suggests the nearest kind', () => {
    const { findings } = describeDevices(recordOf({ devices: { d: { kind: 'guidwire' } } }));
    expect(findings.map(f => remedyOf(f))).toEqual(["Did you mean 'guidewire'?"]);
    const far = describeDevices(recordOf({ devices: { d: { kind: 'zzz' } } })).findings[0];
    expect(far && remedyOf(far)).toContain('family');
  });
});

describe('kinds', () => {
  it('forgives case, hyphens and a plural', () => {
    for (const written of ['Peel Away Sheath', 'peel-away sheaths', 'peelaway sheath'])
      expect(kindNamed(written)?.row.name).toBe('peel-away sheath');
  });
});

describe('parts', () => {
  it.each([
    ['retention thread', 'thread'],
    ['locking suture', 'thread'],
    ['peel-away half', 'half'],
    ['peel-away halves', 'half'],
    ['wire tip', 'fragment'],
    ['fragment', 'fragment'],
    ['dilator', 'inner'],
    ['delivery catheter', 'inner'],
    ['tether', 'attached'],
    ['hook', 'attached'],
    ['hub', 'attached'],
  ])('a %s is of the role %s', (kind, role) => expect(partRole(kind)).toBe(role));
});

describe('acknowledging', () => {
  const record = (acknowledged: unknown[]) =>
    recordOf({
      devices: {
        wire: { kind: 'guidewire', diameter: '0.018 in', length: '100 cm' },
        drain: { kind: 'drain', size: '8 Fr', length: '25 cm', takesWire: '0.035 in' },
      },
      events: [
        { at: '09:00', do: 'insert', device: 'wire' },
        { at: '09:01', do: 'insert', device: 'drain', over: 'wire' },
      ],
      left: [{ device: 'drain', latest: '4 weeks' }],
      acknowledged,
    });
  const run = (acknowledged: unknown[]) => {
    const read = record(acknowledged);
    const { devices } = describeDevices(read);
    return applyAcknowledgements(
      [...tallyDevices(read, devices).findings, ...checkSizes(read, devices).findings],
      read,
    );
  };

  it.each([undefined, 'drain', 'wire', 'events[1]', 'events[1].over'])('a warning, about %s', about => {
    const found = run([
      { finding: 'size.wire-system', ...(about && { about }), reason: 'inner dilator', by: 'op' },
    ]);
    expect(found.find(f => f.code === 'size.wire-system')?.acknowledged).toEqual({
      reason: 'inner dilator',
      by: 'op',
    });
    expect(found.filter(f => f.code.startsWith('acknowledged.'))).toEqual([]);
  });

  it('not about another device, and says so', () => {
    const found = run([{ finding: 'size.wire-system', about: 'events[0]', reason: 'x' }]);
    expect(found.find(f => f.code === 'size.wire-system')?.acknowledged).toBeUndefined();
    expect(found.filter(f => f.code === 'acknowledged.nothing').map(f => f.path)).toEqual([
      'acknowledged[0]',
    ]);
  });

  it('never an error', () => {
    const found = run([{ finding: 'tally.unaccounted', reason: 'it is surely out' }]);
    const error = found.find(f => f.code === 'tally.unaccounted');
    expect(error?.severity).toBe('error');
    expect(error?.acknowledged).toBeUndefined();
    expect(found.filter(f => f.code === 'acknowledged.error').map(f => f.path)).toEqual(['acknowledged[0]']);
  });
});
