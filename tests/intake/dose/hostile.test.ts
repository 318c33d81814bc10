import { describe, expect, it } from 'vitest';
import {
  MAX_DEPTH,
  MAX_DOSE_BYTES,
  MAX_ELEMENTS,
  MAX_READ_ELEMENTS,
} from '../../../src/intake/dose/limits.js';
import { readDoseReport } from '../../../src/intake/dose/read.js';
import { figuresOf } from '../../../src/intake/dose/totals.js';
import { bytesOf } from './objects.js';

const codesOf = async (bytes: Uint8Array) => (await readDoseReport(bytes)).findings.map(({ code }) => code);

/* Elements in explicit little endian (PS3.5, 7.1), written by hand so that they can be wrong. */
const u16 = (n: number) => [n & 255, (n >> 8) & 255];
const u32 = (n: number) => [...u16(n & 0xffff), ...u16(n >>> 16)];
const ascii = (text: string) => [...Buffer.from(text, 'latin1')];
const short = (group: number, element: number, vr: string, value: string) => [
  ...[...u16(group), ...u16(element), ...ascii(vr), ...u16(value.length), ...ascii(value)],
];
const sequence = (length: number) => [...u16(0x0040), ...u16(0xa730), ...ascii('SQ\0\0'), ...u32(length)];
const item = (length: number) => [...u16(0xfffe), ...u16(0xe000), ...u32(length)];
const itemEnd = [...u16(0xfffe), ...u16(0xe00d), ...u32(0)];
const sequenceEnd = [...u16(0xfffe), ...u16(0xe0dd), ...u32(0)];
const OPEN = 0xffffffff;
const reportClass = short(0x0008, 0x0016, 'UI', '1.2.840.10008.5.1.4.1.1.88.67\0');
const relation = short(0x0040, 0xa010, 'CS', 'CONTAINS');
const coded = (element: number, code: string, scheme: string) => [
  ...[...u16(0x0040), ...u16(element), ...ascii('SQ\0\0'), ...u32(OPEN), ...item(OPEN)],
  ...[...short(0x0008, 0x0100, 'SH', code.padEnd(6)), ...short(0x0008, 0x0102, 'SH', scheme.padEnd(6))],
  ...[...itemEnd, ...sequenceEnd],
];
const concept = (code: string, scheme = 'DCM') => coded(0xa043, code, scheme);
const value = (code: string) => coded(0xa168, code, 'DCM');
const file = (...parts: readonly (readonly number[])[]) => Uint8Array.from(parts.flat());

describe('files that are no dose report', () => {
  it.each([
    ['nothing', new Uint8Array()],
    ['a few bytes', Uint8Array.from([1, 2, 3])],
    ['text', Buffer.from('casetally: 1\ncase: { id: HB-0193 }\n')],
    ['a picture', Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex')],
    ['zeros', new Uint8Array(4096)],
    ['a preamble alone', Buffer.concat([Buffer.alloc(128), Buffer.from('DICM')])],
    ['a preamble and rubbish', Buffer.concat([Buffer.alloc(128), Buffer.from('DICMrubbish and more')])],
  ])('%s', async (_name, bytes) => {
    expect(await codesOf(bytes)).toEqual(['dose-report.not-dicom']);
  });

  it('too many bytes are not looked into', async () => {
    expect(await codesOf(new Uint8Array(MAX_DOSE_BYTES + 1))).toEqual(['dose-report.too-big']);
  });

  it('another transfer syntax is named', async () => {
    const bytes = bytesOf('single');
    const at = Buffer.from(bytes).indexOf('1.2.840.10008.1.2.1\0');
    bytes.set(ascii('1.2.840.10008.1.2.2\0'), at);
    const { findings } = await readDoseReport(bytes);
    expect(findings.map(({ code, params }) => [code, params['found']])).toEqual([
      ['dose-report.syntax', '1.2.840.10008.1.2.2'],
    ]);
  });
});

describe('structures that are broken', () => {
  it.each([
    [
      'a length beyond the end',
      file(reportClass, [...u16(0x40), ...u16(0xa730), ...ascii('SQ\0\0'), ...u32(0x7ffffff0)]),
    ],
    ['a sequence that never ends', file(reportClass, sequence(OPEN), item(OPEN), relation)],
    ['an item longer than its sequence', file(reportClass, sequence(12), item(100), relation)],
    ['an end that nothing began', file(reportClass, itemEnd)],
    ['text in place of an item', file(reportClass, sequence(OPEN), relation, sequenceEnd)],
    ['a value representation that is none', file(reportClass, short(0x40, 0xa010, 'zz', 'CONTAINS'))],
    ['an element twice', file(reportClass, relation, relation)],
    [
      'an unknown value without length',
      file(reportClass, [...u16(0x41), ...u16(0x10), ...ascii('UN\0\0'), ...u32(OPEN)]),
    ],
  ])('%s', async (_name, bytes) => {
    expect(await codesOf(bytes)).toEqual(['dose-report.damaged']);
  });

  it('sequences within sequences end somewhere', async () => {
    const nested = Array.from({ length: MAX_DEPTH + 1 }, () => [...sequence(OPEN), ...item(OPEN)]);
    expect(await codesOf(file(reportClass, ...nested))).toEqual(['dose-report.too-deep']);
    const million = new Uint8Array(8_000_000);
    const step = [...sequence(OPEN), ...item(OPEN)];
    for (let at = reportClass.length; at + step.length <= million.length; at += step.length)
      million.set(step, at);
    million.set(reportClass);
    expect(await codesOf(million)).toEqual(['dose-report.too-deep']);
  });

  it('more items or values than a report has are not read', async () => {
    const one = [...item(OPEN), ...itemEnd];
    const many = Buffer.alloc(one.length * MAX_ELEMENTS, Buffer.from(one));
    expect(await codesOf(Buffer.concat([file(reportClass, sequence(OPEN)), many]))).toEqual([
      'dose-report.too-much',
    ]);
    const values = Array.from({ length: 5 }, (_, i) => short(0x0041, 0x1000 + i, 'LO', '\\'.repeat(65_000)));
    expect(await codesOf(file(reportClass, ...values))).toEqual(['dose-report.too-much']);
  });

  it('items that nobody reads cost nothing, and those that are read have a limit', async () => {
    const root = (...content: readonly (readonly number[])[]) =>
      file(reportClass, concept('113701'), sequence(OPEN), ...content, sequenceEnd);
    const plane = [...item(OPEN), ...relation, ...concept('113764'), ...value('113622'), ...itemEnd];
    const totals = [
      ...[...item(OPEN), ...relation, ...concept('113702'), ...sequence(OPEN)],
      ...[...plane, ...sequenceEnd, ...itemEnd],
    ];
    const times = (what: readonly number[], n: number) => Array.from({ length: n }, () => what);
    // Filter material, at both sides of what is read, and within an item of nobody's.
    const unread = [...item(OPEN), ...relation, ...concept('113757'), ...itemEnd];
    const around = [...item(OPEN), ...relation, ...sequence(OPEN), ...unread, ...sequenceEnd, ...itemEnd];
    const full = root(...times(unread, 15_000), totals, ...times(around, 12_000));
    const { report, findings } = await readDoseReport(full);
    expect(report?.planes).toEqual([{ plane: 'single' }]);
    expect(findings.map(({ code }) => code)).toEqual(
      (await readDoseReport(root(totals))).findings.map(({ code }) => code),
    );
    const events = root(...times([...item(OPEN), ...concept('113706'), ...itemEnd], MAX_READ_ELEMENTS / 8));
    expect(await codesOf(events)).toEqual(['dose-report.too-much']);
    const ofMaker = [...item(OPEN), ...concept('9', '99LARK'), ...itemEnd];
    const { findings: told } = await readDoseReport(
      root([...item(OPEN), ...sequence(OPEN), ...ofMaker, ...sequenceEnd, ...itemEnd]),
    );
    expect(told.find(({ code }) => code === 'dose-report.private')?.params['n']).toBe('1');
  });

  it('values longer than any that is read are left out, before and within what is read', async () => {
    const long = (element: number) => [
      ...[...u16(0x0041), ...u16(element), ...ascii('UT\0\0'), ...u32(70_000)],
      ...Array.from({ length: 70_000 }, () => 0x5c),
    ];
    const plane = [
      ...item(OPEN),
      ...relation,
      ...concept('113764'),
      ...value('113622'),
      ...long(0x1001),
      ...itemEnd,
    ];
    const totals = [
      ...[...item(OPEN), ...relation, ...concept('113702'), ...sequence(OPEN)],
      ...[...plane, ...sequenceEnd, ...itemEnd],
    ];
    const parts = [concept('113701'), long(0x1000), sequence(OPEN), totals, sequenceEnd];
    const { report, findings } = await readDoseReport(file(reportClass, ...parts));
    expect(report?.planes).toEqual([{ plane: 'single' }]);
    expect(findings.map(({ code }) => code)).not.toContain('dose-report.too-much');
  });

  it('a small file that inflates to a large one is not inflated', async () => {
    const { deflateRawSync } = await import('node:zlib');
    const whole = Buffer.from(bytesOf('deflated'));
    const start = whole.length - deflatedPart(whole);
    const bomb = Buffer.concat([whole.subarray(0, start), deflateRawSync(Buffer.alloc(100_000_000))]);
    expect(await codesOf(bomb)).toEqual(['dose-report.too-big']);
  });

  it('bytes of an end within a value are part of the value', async () => {
    const bytes = Buffer.from(bytesOf('undefined-lengths'));
    const at = bytes.indexOf('Drainage low');
    Buffer.from([0xfe, 0xff, 0x0d, 0xe0, 0, 0, 0, 0]).copy(bytes, at);
    const { report } = await readDoseReport(bytes);
    expect(report && figuresOf(report).kermaAreaProduct?.value).toBe('45.2310');
  });
});

/** Bytes behind the file meta information, whose length stands in its first element (PS3.10, 7.1). */
const deflatedPart = (whole: Buffer) => whole.length - (132 + 12 + whole.readUInt32LE(140));

/** A fixed sequence of numbers from 0 to 1: mulberry32, public domain. */
function numbersFrom(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

describe('flipped and cut bytes', () => {
  const names = ['single', 'biplane', 'implicit', 'undefined-lengths', 'ct', 'deflated', 'bare', 'japanese'];
  const tried = { read: 0, refused: 0 };

  it.each(names)('%s: no fault, and no total that is far from the right one without a word', async name => {
    const whole = bytesOf(name);
    const { report: sound } = await readDoseReport(whole);
    const right = sound && figuresOf(sound);
    const random = numbersFrom(name.length * 7919);
    for (let i = 0; i < 70; i++) {
      const bytes = random() < 0.2 ? whole.slice(0, Math.floor(random() * whole.length)) : whole.slice();
      const flips = bytes.length < whole.length ? 0 : 1 + Math.floor(random() * 3);
      for (let n = 0; n < flips; n++) {
        const at = Math.floor(random() * bytes.length);
        bytes[at] = (bytes[at] ?? 0) ^ (1 << Math.floor(random() * 8));
      }
      const { report, findings } = await readDoseReport(bytes);
      if (!report) {
        tried.refused += 1;
        expect(findings.map(({ severity }) => severity)).toEqual(['error']);
        continue;
      }
      tried.read += 1;
      const found = figuresOf(report);
      for (const figure of ['kermaAreaProduct', 'airKerma', 'doseLengthProduct'] as const) {
        const [is, was] = [Number(found[figure]?.value), Number(right?.[figure]?.value)];
        if (Math.abs(is - was) <= was * 0.01 || Number.isNaN(is + was)) continue;
        expect(findings.length, `${name} ${i} ${figure}: ${is}`).toBeGreaterThan(0);
      }
    }
  });

  it('hit structure and what it holds', () => {
    expect(tried.read).toBeGreaterThan(100);
    expect(tried.refused).toBeGreaterThan(100);
  });

  it.each([
    ['single', '0.00452310', 'kermaAreaProduct'],
    ['single', '0.1560', 'airKerma'],
    ['biplane', '0.00440000', 'kermaAreaProduct'],
    ['ct', '386.00', 'doseLengthProduct'],
  ] as const)('%s: every bit of the total %s', async (name, total, figure) => {
    const whole = bytesOf(name);
    const { report: sound } = await readDoseReport(whole);
    const was = Number(sound && figuresOf(sound)[figure]?.value);
    const start = Buffer.from(whole).indexOf(total);
    expect(start).toBeGreaterThan(0);
    let wrong = 0;
    for (let bit = 0; bit < total.length * 8; bit++) {
      const bytes = whole.slice();
      const at = start + (bit >> 3);
      bytes[at] = (bytes[at] ?? 0) ^ (1 << (bit & 7));
      const { report, findings } = await readDoseReport(bytes);
      const is = Number(report && figuresOf(report)[figure]?.value);
      if (Math.abs(is - was) <= was * 0.01) continue;
      wrong += 1;
      expect(findings.length, `bit ${bit}: ${is}`).toBeGreaterThan(0);
    }
    expect(wrong).toBeGreaterThan(5);
  });
});
