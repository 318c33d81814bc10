import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../src/devices/details.js';
import { inFrench, printMm } from '../../src/devices/sizes/calibre.js';
import { checkSizes } from '../../src/devices/sizes/check.js';
import { needleChart } from '../../src/devices/sizes/needles.js';
import { readQuantity } from '../../src/record/quantity.js';
import { recordOf } from '../cases/record.js';
import { english } from '../support/english.js';

const mm = (text: string) => {
  const read = readQuantity(text, ['length', 'calibre']);
  const french = read.ok ? inFrench(read.value) : undefined;
  if (!french) throw new Error(`no size: ${text}`);
  return english(printMm(french));
};

// Source: the definition of the French (Charrière) gauge, 1 Fr = 1/3 mm of diameter.
describe('the French gauge', () => {
  it.each([
    ['3 Fr', '1 mm'],
    ['4 Fr', '1.333 mm'],
    ['5 Fr', '1.667 mm'],
    ['6 Fr', '2 mm'],
    ['7 Fr', '2.333 mm'],
    ['8 Fr', '2.667 mm'],
    ['8.5 Fr', '2.833 mm'],
    ['10 Fr', '3.333 mm'],
    ['10.2 Fr', '3.4 mm'],
    ['12 Fr', '4 mm'],
    ['14 Fr', '4.667 mm'],
  ])('%s is %s', (french, expected) => expect(mm(french)).toBe(expected));

  it('is compared exactly: 7 Fr is more than 2.3333 mm and less than 2.3334 mm', () => {
    const size = (text: string) => {
      const read = readQuantity(text, ['length', 'calibre']);
      return read.ok ? inFrench(read.value) : undefined;
    };
    expect(size('7 Fr')?.gt(size('2.3333 mm') ?? 0)).toBe(true);
    expect(size('7 Fr')?.lt(size('2.3334 mm') ?? 0)).toBe(true);
    expect(size('6 Fr')?.eq(size('2 mm') ?? 0)).toBe(true);
  });
});

// Source: the international inch of 25.4 mm.
describe('wire diameters', () => {
  it.each([
    ['0.014 in', '0.356 mm'],
    ['0.018 in', '0.457 mm'],
    ['0.021 in', '0.533 mm'],
    ['0.025 in', '0.635 mm'],
    ['0.035 in', '0.889 mm'],
    ['0.038 in', '0.965 mm'],
  ])('%s is %s', (inches, expected) => expect(mm(inches)).toBe(expected));
});

// Source: the needle gauge chart as published in encyclopedias.
describe('needle gauges', () => {
  it.each([
    ['10', '3.404'],
    ['11', '3.048'],
    ['12', '2.769'],
    ['13', '2.413'],
    ['14', '2.108'],
    ['15', '1.829'],
    ['16', '1.651'],
    ['17', '1.473'],
    ['18', '1.270'],
    ['19', '1.067'],
    ['20', '0.9081'],
    ['21', '0.8192'],
    ['22', '0.7176'],
    ['23', '0.6414'],
    ['25', '0.5144'],
  ])('%s G has %s mm outside', (gauge, outer) =>
    expect(needleChart.find(row => row.gauge === gauge)?.outer).toBe(outer),
  );
  it.each([
    ['18', '0.838'],
    ['21', '0.514'],
    ['22', '0.413'],
  ])('%s G has %s mm inside with a regular wall', (gauge, inner) =>
    expect(needleChart.find(row => row.gauge === gauge)?.innerRegular).toBe(inner),
  );
  it('has walls, and thinner needles for higher gauges', () => {
    needleChart.forEach((row, index) => {
      expect(Number(row.innerRegular)).toBeLessThan(Number(row.outer));
      const thicker = needleChart[index - 1];
      if (thicker) expect(Number(row.outer)).toBeLessThan(Number(thicker.outer));
    });
  });
});

/** Findings of what goes over or through what; the first device goes in last. */
function codes(devices: Record<string, unknown>, relations: Record<string, unknown>[]): string[] {
  const record = recordOf({
    devices,
    events: [
      ...Object.keys(devices)
        .filter(key => !relations.some(relation => relation['device'] === key))
        .map(key => ({ at: '09:00', do: 'insert', device: key })),
      ...relations.map(relation => ({ at: '09:05', do: 'insert', ...relation })),
    ],
    ...(relations.some(relation => relation['across']) && { targets: { t: { what: 'ureter' } } }),
  });
  return checkSizes(record, describeDevices(record).devices).findings.map(f => f.code);
}

// Common practice, no source.
describe('trade check values', () => {
  it('a 0.018 in wire runs in a lumen that takes 0.021 in, a 0.025 in wire does not', () => {
    const tube = { kind: 'microcatheter', size: '2.8 Fr', takesWire: '0.021 in', length: '110 cm' };
    const wire = (diameter: string) => ({ kind: 'guidewire', diameter, length: '260 cm' });
    expect(codes({ tube, wire: wire('0.018 in') }, [{ device: 'tube', over: 'wire' }])).toEqual([]);
    expect(codes({ tube, wire: wire('0.025 in') }, [{ device: 'tube', over: 'wire' }])).toEqual([
      'size.wire-too-big',
    ]);
  });

  it('a 9 Fr sheath takes a 7 Fr stent, a 6 Fr one does not', () => {
    const stent = { kind: 'ureteric stent', size: '7 Fr x 26 cm' };
    const sheath = (size: string) => ({ kind: 'introducer sheath', size });
    expect(codes({ sheath: sheath('9 Fr'), stent }, [{ device: 'stent', through: 'sheath' }])).toEqual([]);
    expect(codes({ sheath: sheath('6 Fr'), stent }, [{ device: 'stent', through: 'sheath' }])).toEqual([
      'size.device-too-big',
    ]);
  });

  it('a 7 Fr, 26 cm ureteric stent is named by its outside and length', () => {
    const record = recordOf({ devices: { stent: { kind: 'ureteric stent', size: '7 Fr x 26 cm' } } });
    expect(describeDevices(record).devices.get('stent')?.name).toBe('7 Fr ureteric stent, 26 cm');
  });

  it('a 3 mm x 40 mm balloon goes on a 0.018 in wire, not on a 0.035 in wire', () => {
    const balloon = {
      kind: 'balloon catheter',
      size: '3 mm x 40 mm',
      takesWire: '0.018 in',
      length: '135 cm',
    };
    const wire = (diameter: string) => ({ kind: 'guidewire', diameter, length: '300 cm' });
    expect(codes({ balloon, wire: wire('0.018 in') }, [{ device: 'balloon', over: 'wire' }])).toEqual([]);
    expect(codes({ balloon, wire: wire('0.035 in') }, [{ device: 'balloon', over: 'wire' }])).toEqual([
      'size.wire-too-big',
    ]);
  });

  it('a 2 Fr-class microcatheter goes over a 0.016 in wire inside a 5 Fr, 0.035 in catheter', () => {
    const devices = {
      outer: { kind: 'diagnostic catheter', size: '5 Fr', takesWire: '0.035 in', length: '65 cm' },
      wire: { kind: 'microwire', diameter: '0.016 in', length: '300 cm' },
      micro: { kind: 'microcatheter', size: '2 Fr', takesWire: '0.019 in', length: '110 cm' },
    };
    expect(codes(devices, [{ device: 'micro', over: 'wire', through: 'outer' }])).toEqual([]);
  });

  it('a 0.035 in wire does not pass a regular-wall 18 G needle, a 0.018 in wire passes 21 G', () => {
    const needle = (size: string) => ({ kind: 'access needle', size, description: 'regular wall' });
    const wire = (diameter: string) => ({ kind: 'guidewire', diameter });
    const thick = { needle: needle('18 G'), wire: wire('0.035 in') };
    const thin = { needle: needle('21 G'), wire: wire('0.018 in') };
    expect(codes(thick, [{ device: 'wire', through: 'needle' }])).toEqual(['size.wire-too-big']);
    expect(codes(thin, [{ device: 'wire', through: 'needle' }])).toEqual([]);
  });
});
