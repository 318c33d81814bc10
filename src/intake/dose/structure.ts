import { finding } from '../../findings/finding.js';
import { Unreadable } from './fault.js';
import { MAX_DEPTH, MAX_ELEMENTS } from './limits.js';
import { type DataBytes, damaged } from './part10.js';

/** A data set that is sound. */
export interface Walked {
  /** The same data set with the length of every sequence and item written out; a copy. */
  readonly data: Uint8Array;
  /** Where every Specific Character Set has its value in it. */
  readonly charsets: readonly { readonly at: number; readonly length: number }[];
}

/** Storage classes of structured reports that carry dose (PS3.4, annex B.5; PS3.6). */
const REPORTS = new Set([
  '1.2.840.10008.5.1.4.1.1.88.67', // X-Ray Radiation Dose SR
  '1.2.840.10008.5.1.4.1.1.88.22', // Enhanced SR
  '1.2.840.10008.5.1.4.1.1.88.33', // Comprehensive SR
  '1.2.840.10008.5.1.4.1.1.88.34', // Comprehensive 3D SR
]);

const ITEM = 0xfffee000;
const ITEM_END = 0xfffee00d;
const SEQUENCE_END = 0xfffee0dd;
const UNDEFINED = 0xffffffff;
const SHORT = new Set('AE AS AT CS DA DS DT FD FL IS LO LT PN SH SL SS ST TM UI UL US'.split(' '));
const LONG = new Set('OB OD OF OL OV OW SQ SV UC UN UR UT UV'.split(' '));

/**
 * Walks through a data set once, before the library reads it: every length within what is around it, every sequence
 * ended, no element twice, and no more of them than a report has. What the library does with a file that is broken in
 * one of these is not defined, and can take long. Lengths that are left open are written out: the library searches for
 * their ends by the bytes, level by level, and would find them within a value as well.
 *
 * @throws Unreadable where that does not hold, or where the object is no structured report.
 */
export function walk({ data: bytes, implicit }: DataBytes): Walked {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const charsets: { at: number; length: number }[] = [];
  let at = 0;
  let count = 0;
  /** Ends that are left out, and by how many bytes the data set is shorter for them so far. */
  const cuts: number[] = [];
  const lengths: { at: number; value: number }[] = [];

  const tagAt = (where: number) =>
    ((view.getUint16(where, true) << 16) | view.getUint16(where + 2, true)) >>> 0;
  const counted = () => {
    count += 1;
    if (count > MAX_ELEMENTS)
      throw new Unreadable(finding('dose-report.too-much', '', { limit: `${MAX_ELEMENTS}` }));
  };
  const room = (needed: number, end: number) => {
    if (needed > end - at) throw damaged(at);
  };

  function sequence(length: number, outer: number, depth: number): void {
    if (depth > MAX_DEPTH)
      throw new Unreadable(finding('dose-report.too-deep', '', { limit: `${MAX_DEPTH}` }));
    const end = length === UNDEFINED ? outer : at + length;
    const close = opened(at);
    while (length === UNDEFINED || at < end) {
      room(8, end);
      counted();
      const tag = tagAt(at);
      const size = view.getUint32(at + 4, true);
      if (tag === SEQUENCE_END && length === UNDEFINED && size === 0) {
        close(true);
        return;
      }
      if (tag !== ITEM) throw damaged(at);
      at += 8;
      if (size !== UNDEFINED) room(size, end);
      dataSet(size === UNDEFINED ? end : at + size, size === UNDEFINED, depth);
    }
    close(false);
  }

  function dataSet(end: number, open: boolean, depth: number): void {
    const seen = new Set<number>();
    const close = opened(at);
    while (open || at < end) {
      room(8, end);
      counted();
      const tag = tagAt(at);
      if (tag === ITEM_END && open && view.getUint32(at + 4, true) === 0) {
        close(true);
        return;
      }
      if (tag >>> 16 === 0xfffe || seen.has(tag)) throw damaged(at);
      seen.add(tag);
      element(tag, end, depth);
    }
    // The data set itself has no length before it.
    if (depth > 0) close(false);
  }

  /** @returns what to call at its end: the length before `start` becomes that of the content, without ends left out in it. */
  function opened(start: number): (delimited: boolean) => void {
    const before = cuts.length;
    return delimited => {
      lengths.push({ at: start - 4, value: at - start - 8 * (cuts.length - before) });
      if (!delimited) return;
      cuts.push(at);
      at += 8;
    };
  }

  function element(tag: number, end: number, depth: number): void {
    const start = at;
    const { vr, length, head } = headOf(end);
    at += head;
    if (length !== UNDEFINED) room(length, end);
    const nested =
      vr === 'SQ' ||
      (vr === undefined &&
        (length === UNDEFINED || ((tag >>> 16) % 2 === 0 && length >= 8 && tagAt(at) === ITEM)));
    if (nested) {
      sequence(length, end, depth + 1);
      return;
    }
    if (length === UNDEFINED) throw damaged(start);
    if (tag === 0x00080005) charsets.push({ at: at - 8 * cuts.length, length });
    if (tag === 0x00080016 && depth === 0) mustBeReport(bytes.subarray(at, at + length));
    at += length;
  }

  function headOf(end: number): { vr?: string; length: number; head: number } {
    if (implicit) return { length: view.getUint32(at + 4, true), head: 8 };
    const vr = String.fromCharCode(bytes[at + 4] ?? 0, bytes[at + 5] ?? 0);
    if (SHORT.has(vr)) return { vr, length: view.getUint16(at + 6, true), head: 8 };
    if (!LONG.has(vr)) throw damaged(at);
    room(12, end);
    return { vr, length: view.getUint32(at + 8, true), head: 12 };
  }

  if (countOf(bytes, 0x5c) > MAX_ELEMENTS)
    throw new Unreadable(finding('dose-report.too-much', '', { limit: `${MAX_ELEMENTS}` }));
  dataSet(bytes.length, false, 0);
  return { data: written(bytes, lengths, cuts), charsets };
}

/** How often a byte stands in a data set: a backslash parts the values of an element, each of which costs memory. */
function countOf(bytes: Uint8Array, wanted: number): number {
  let found = 0;
  for (const byte of bytes) if (byte === wanted) found += 1;
  return found;
}

/** The bytes with other lengths, and without eight of them at each cut; cuts are in ascending order. */
function written(
  bytes: Uint8Array,
  lengths: readonly { at: number; value: number }[],
  cuts: readonly number[],
): Uint8Array {
  // Not slice(): of a Buffer that is the same memory.
  const whole = new Uint8Array(bytes);
  const out = new DataView(whole.buffer);
  for (const { at, value } of lengths) out.setUint32(at, value, true);
  let to = 0;
  let from = 0;
  for (const cut of [...cuts, whole.length]) {
    whole.copyWithin(to, from, cut);
    to += cut - from;
    from = cut + 8;
  }
  return whole.subarray(0, to);
}

function mustBeReport(value: Uint8Array): void {
  const found = String.fromCharCode(...value.subarray(0, 64)).replace(/[\0 ]+$/, '');
  if (!REPORTS.has(found)) throw new Unreadable(finding('dose-report.other-object', '', { found }));
}
