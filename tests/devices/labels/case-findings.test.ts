import { describe, expect, it } from 'vitest';
import type { LabelledDevice } from '../../../src/devices/labels/case-findings.js';
import { labelCaseFindings } from '../../../src/devices/labels/case-findings.js';
import { messageOf } from '../../../src/findings/finding.js';

const date = '2026-03-14';
const device = (key: string, rest: Partial<LabelledDevice>): LabelledDevice => ({
  key,
  path: `devices.${key}`,
  ...rest,
});
const codes = (devices: LabelledDevice[], context = {}) =>
  labelCaseFindings(devices, { date, ...context }).map(f => [f.code, f.severity, f.path]);

describe('what the labels of a case say together', () => {
  it.each([
    ['2026-03-13', 'label.expired', 'warning'],
    ['2026-02', 'label.expired', 'warning'],
    ['2026-03-14', 'label.expires-soon', 'information'],
    ['2026-03', 'label.expires-soon', 'information'],
    ['2026-04-13', 'label.expires-soon', 'information'],
  ])('expiry %s on %s', (expires, code, severity) => {
    expect(codes([device('drain', { expires })])).toEqual([[code, severity, 'devices.drain.label']]);
  });

  it('says nothing of later days, of devices put back, or beyond what the site sets', () => {
    expect(codes([device('drain', { expires: '2026-04-14' })])).toEqual([]);
    expect(codes([device('drain', { expires: '2025-01-01', used: false })])).toEqual([]);
    expect(codes([device('drain', { expires: '2026-04-13' })], { expiresSoonDays: 7 })).toEqual([]);
    expect(codes([device('drain', { expires: '2026-05-13' })], { expiresSoonDays: 60 })).toHaveLength(1);
  });

  it('counts the day of the case, not 24 hours, over a change of clocks', () => {
    expect(
      codes([device('drain', { expires: '2026-03-30' })], { date: '2026-03-28', expiresSoonDays: 2 }),
    ).toHaveLength(1);
    expect(
      codes([device('drain', { expires: '2026-03-31' })], { date: '2026-03-28', expiresSoonDays: 2 }),
    ).toEqual([]);
  });

  it('the same identifier and serial number twice is an error that names both devices', () => {
    const twice = [
      device('a', { di: '1', serial: 'S', line: 8 }),
      device('b', { di: '1', serial: 'S', line: 9 }),
    ];
    const [found] = labelCaseFindings(twice, { date });
    expect(found).toMatchObject({
      code: 'label.serial-twice',
      severity: 'error',
      line: 9,
      params: { device: 'b', other: 'a' },
    });
  });

  it('the same lot twice, or one serial number on two products or donations, is right', () => {
    expect(codes([device('a', { di: '1', lot: 'L' }), device('b', { di: '1', lot: 'L' })])).toEqual([]);
    expect(codes([device('a', { di: '1', serial: 'S' }), device('b', { di: '2', serial: 'S' })])).toEqual([]);
    const donations = [
      device('a', { di: '1', serial: 'S', distinct: 'X' }),
      device('b', { di: '1', serial: 'S', distinct: 'Y' }),
    ];
    expect(codes(donations)).toEqual([]);
  });

  it('a serial number of another case is a warning that names the case', () => {
    const found = labelCaseFindings([device('a', { di: '1', serial: 'S' })], {
      date,
      earlier: [{ case: 'HB-0102', di: '1', serial: 'S' }],
    });
    expect(found).toMatchObject([
      { code: 'label.serial-other-case', severity: 'warning', params: { case: 'HB-0102' } },
    ]);
  });

  it('an implant without lot, and anything left inside without identifier, is pointed out', () => {
    expect(codes([device('stent', { implant: true, di: '1' })])).toEqual([
      ['label.lot-missing', 'warning', 'devices.stent'],
    ]);
    expect(codes([device('stent', { implant: true, di: '1', serial: 'S' })])).toEqual([
      ['label.lot-missing', 'information', 'devices.stent'],
    ]);
    expect(codes([device('stent', { implant: true, di: '1', lot: 'L' })])).toEqual([]);
    expect(codes([device('stent', { implant: true, di: '1', used: false })])).toEqual([]);
    expect(codes([device('drain', { leftInSitu: true })])).toEqual([
      ['label.identifier-missing', 'warning', 'devices.drain'],
    ]);
    expect(codes([device('wire', {})])).toEqual([]);
  });
});

it('says each thing of a device in words, at its label and its line', () => {
  const devices = [
    device('a', { di: '1', serial: 'S', distinct: 'D', expires: '2026-02', line: 8 }),
    device('b', { di: '1', serial: 'S', distinct: 'D', expires: '2026-03-20' }),
    device('c', { implant: true, leftInSitu: true }),
    device('d', { implant: true, serial: 'T', di: '2', leftInSitu: true, line: 12 }),
    device('e', { serial: 'T' }),
    device('f', { serial: 'T' }),
  ];
  const earlier = [
    { case: 'HB-0102', di: '1', serial: 'S', distinct: 'D' },
    { case: 'HB-0103', di: '2', serial: 'S' },
  ];
  const found = labelCaseFindings(devices, { date, earlier });
  const said = found.map(f => `${'line' in f ? `${f.line} ` : ''}${f.code} ${f.path}: ${messageOf(f)}`);
  expect(said).toEqual([
    '8 label.expired devices.a.label: a expired on 2026-02-28, before the day of the case (2026-03-14).',
    'label.expires-soon devices.b.label: b expires on 2026-03-20, within 30 days of the case.',
    '8 label.serial-other-case devices.a.label: a carries identifier 1 and serial number S, already recorded in case HB-0102.',
    'label.serial-twice devices.b.label: b and a carry the same identifier 1 and serial number S.',
    'label.serial-other-case devices.b.label: b carries identifier 1 and serial number S, already recorded in case HB-0102.',
    'label.lot-missing devices.c: c is an implant and has no lot number.',
    'label.identifier-missing devices.c: c stays in the patient and has no device identifier.',
    '12 label.lot-missing devices.d: d is an implant and has no lot number; its serial number names it.',
  ]);
});
