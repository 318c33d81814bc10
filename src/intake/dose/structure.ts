import { finding } from '../../findings/finding.js';
import { concepts } from './concepts.js';
import { Unreadable } from './fault.js';
import { MAX_DEPTH, MAX_ELEMENTS, MAX_READ_ELEMENTS, MAX_VALUE_BYTES } from './limits.js';
import { type DataBytes, damaged } from './part10.js';

/** A data set that is sound. */
export interface Walked {
  /** The same data set without content items and long values that nobody reads, the length of every sequence and item written out; a copy. */
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

const CONTENT = 0x0040a730;
const CONCEPT = 0x0040a043;
const CODE = 0x00080100;
const SCHEME = 0x00080102;

/** Concepts that a content item is read for. */
const READ: ReadonlySet<string> = new Set(Object.values(concepts));

/** What is known of an item once it was walked through. */
interface Item {
  /** Its own code and scheme, where it is a coded value. */
  code?: string;
  scheme?: string;
  /** The first item of its concept, where it is a content item. */
  concept?: Item;
  /** It, or a content item in it, has a concept of a maker: those are counted. */
  ofMaker?: boolean;
}

/**
 * Walks through a data set once, before the library reads it: every length within what is around it, every sequence
 * ended, no element twice, and no more of them than a report has. What the library does with a file that is broken in
 * one of these is not defined, and can take long. Lengths that are left open are written out: the library searches for
 * their ends by the bytes, level by level, and would find them within a value as well. Content items that nobody reads,
 * five of six in a report with all that its template has, are left out: the library takes fifty times as long for each.
 *
 * @throws Unreadable where that does not hold, or where the object is no structured report.
 */
export function walk({ data: bytes, implicit }: DataBytes): Walked {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const charsets: { at: number; length: number }[] = [];
  let at = 0;
  let count = 0;
  /** What is left out, in ascending order, and how many bytes and elements that is so far. */
  const cuts: Cut[] = [];
  let bytesCut = 0;
  let elementsCut = 0;
  const lengths: { at: number; value: number }[] = [];
  const cut = (from: number, to: number) => {
    cuts.push({ from, to });
    bytesCut += to - from;
  };

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

  /** @returns its first item, and whether one of its items is of a maker. */
  function sequence(tag: number, length: number, outer: number, depth: number): Item {
    if (depth > MAX_DEPTH)
      throw new Unreadable(finding('dose-report.too-deep', '', { limit: `${MAX_DEPTH}` }));
    const end = length === UNDEFINED ? outer : at + length;
    const close = opened(at);
    let first: Item | undefined;
    let ofMaker = false;
    while (length === UNDEFINED || at < end) {
      room(8, end);
      const restore = before();
      const start = at;
      counted();
      const mark = tagAt(at);
      const size = view.getUint32(at + 4, true);
      if (mark === SEQUENCE_END && length === UNDEFINED && size === 0) {
        close(true);
        return { ...first, ofMaker };
      }
      if (mark !== ITEM) throw damaged(at);
      at += 8;
      if (size !== UNDEFINED) room(size, end);
      const item = dataSet(size === UNDEFINED ? end : at + size, size === UNDEFINED, depth);
      first ??= item;
      if (item.ofMaker) ofMaker = true;
      else if (tag === CONTENT && !isRead(item.concept)) {
        restore();
        cut(start, at);
      }
    }
    close(false);
    return { ...first, ofMaker };
  }

  /** @returns how to forget what was noted since, as all of it is left out. */
  function before(): () => void {
    const noted = [charsets.length, lengths.length, cuts.length] as const;
    const counts = [count, bytesCut, elementsCut] as const;
    return () => {
      [charsets.length, lengths.length, cuts.length] = noted;
      bytesCut = counts[1];
      elementsCut = counts[2] + count - counts[0];
    };
  }

  function dataSet(end: number, open: boolean, depth: number): Item {
    const seen = new Set<number>();
    const close = opened(at);
    const own: Item = {};
    while (open || at < end) {
      room(8, end);
      counted();
      const tag = tagAt(at);
      if (tag === ITEM_END && open && view.getUint32(at + 4, true) === 0) {
        close(true);
        return own;
      }
      if (tag >>> 16 === 0xfffe || seen.has(tag)) throw damaged(at);
      seen.add(tag);
      element(tag, end, depth, own);
    }
    // The data set itself has no length before it.
    if (depth > 0) close(false);
    return own;
  }

  /** @returns what to call at its end: the length before `start` becomes that of the content, without what is left out in it. */
  function opened(start: number): (delimited: boolean) => void {
    const earlier = bytesCut;
    return delimited => {
      lengths.push({ at: start - 4, value: at - start - (bytesCut - earlier) });
      if (!delimited) return;
      cut(at, at + 8);
      at += 8;
    };
  }

  /** @param own what is known of the item that it is in. */
  function element(tag: number, end: number, depth: number, own: Item): void {
    const start = at;
    const { vr, length, head } = headOf(end);
    at += head;
    if (length !== UNDEFINED) room(length, end);
    const nested =
      vr === 'SQ' ||
      (vr === undefined &&
        (length === UNDEFINED || ((tag >>> 16) % 2 === 0 && length >= 8 && tagAt(at) === ITEM)));
    if (nested) {
      const first = sequence(tag, length, end, depth + 1);
      if (tag === CONCEPT) own.concept = first;
      if (tag === CONTENT ? first.ofMaker : tag === CONCEPT && first.scheme?.startsWith('99'))
        own.ofMaker = true;
      return;
    }
    if (length === UNDEFINED) throw damaged(start);
    if (tag === 0x00080005) charsets.push({ at: at - bytesCut, length });
    if (tag === CODE) own.code = textIn(bytes.subarray(at, at + length));
    if (tag === SCHEME) own.scheme = textIn(bytes.subarray(at, at + length));
    if (tag === 0x00080016 && depth === 0) mustBeReport(bytes.subarray(at, at + length));
    at += length;
    if (length > MAX_VALUE_BYTES) {
      cut(start, at);
      elementsCut += 1;
    }
  }

  function headOf(end: number): { vr?: string; length: number; head: number } {
    if (implicit) return { length: view.getUint32(at + 4, true), head: 8 };
    const vr = String.fromCharCode(bytes[at + 4] ?? 0, bytes[at + 5] ?? 0);
    if (SHORT.has(vr)) return { vr, length: view.getUint16(at + 6, true), head: 8 };
    if (!LONG.has(vr)) throw damaged(at);
    room(12, end);
    return { vr, length: view.getUint32(at + 8, true), head: 12 };
  }

  dataSet(bytes.length, false, 0);
  const data = written(bytes, lengths, cuts);
  if (count - elementsCut + countOf(data, 0x5c) > MAX_READ_ELEMENTS)
    throw new Unreadable(finding('dose-report.too-much', '', { limit: `${MAX_READ_ELEMENTS}` }));
  return { data, charsets };
}

const isRead = ({ code = '', scheme }: Item = {}): boolean => scheme === 'DCM' && READ.has(code);

/** A short text without the blanks around it. */
const textIn = (value: Uint8Array): string =>
  String.fromCharCode(...value.subarray(0, 64)).replace(/^[\s\0]+|[\s\0]+$/g, '');

/** How often a byte stands in a data set: a backslash parts the values of an element, each of which costs memory. */
function countOf(bytes: Uint8Array, wanted: number): number {
  let found = 0;
  for (const byte of bytes) if (byte === wanted) found += 1;
  return found;
}

/** Bytes that are left out. */
interface Cut {
  readonly from: number;
  readonly to: number;
}

/** The bytes with other lengths, and without what is left out; cuts are in ascending order. */
function written(
  bytes: Uint8Array,
  lengths: readonly { at: number; value: number }[],
  cuts: readonly Cut[],
): Uint8Array {
  // Not slice(): of a Buffer that is the same memory.
  const whole = new Uint8Array(bytes);
  const out = new DataView(whole.buffer);
  for (const { at, value } of lengths) out.setUint32(at, value, true);
  let to = 0;
  let from = 0;
  for (const cut of [...cuts, { from: whole.length, to: whole.length }]) {
    whole.copyWithin(to, from, cut.from);
    to += cut.from - from;
    from = cut.to;
  }
  return whole.subarray(0, to);
}

function mustBeReport(value: Uint8Array): void {
  const found = textIn(value);
  if (!REPORTS.has(found)) throw new Unreadable(finding('dose-report.other-object', '', { found }));
}
