import { inflateRawSync } from 'node:zlib';
import { finding } from '../../findings/finding.js';
import { Unreadable } from './fault.js';
import { MAX_DATA_BYTES, MAX_DOSE_BYTES } from './limits.js';

/** The data set of a file, inflated, and how it is written. */
export interface DataBytes {
  readonly data: Uint8Array;
  readonly implicit: boolean;
}

const IMPLICIT = '1.2.840.10008.1.2';
const EXPLICIT = '1.2.840.10008.1.2.1';
const DEFLATED = '1.2.840.10008.1.2.1.99';

const ascii = (bytes: Uint8Array, from: number, to: number) =>
  String.fromCharCode(...bytes.subarray(from, Math.min(to, from + 200)));
const view = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/**
 * Finds the data set of a DICOM file (PS3.10, section 7): with preamble, without it, or without any header.
 *
 * @throws Unreadable where there is none, or one that is not written in little endian.
 */
export function dataBytes(bytes: Uint8Array): DataBytes {
  if (bytes.length > MAX_DOSE_BYTES)
    throw new Unreadable(
      finding('dose-report.too-big', '', { found: `${bytes.length}`, limit: `${MAX_DOSE_BYTES}` }),
    );
  const start = ascii(bytes, 128, 132) === 'DICM' ? 132 : ascii(bytes, 0, 4) === 'DICM' ? 4 : 0;
  const group = bytes.length >= 8 ? view(bytes).getUint16(start < bytes.length - 8 ? start : 0, true) : 0;
  if (group === 0x0002) return afterHeader(bytes, start);
  // Without header the first element is one of group 8, as every object has them; anything else is not DICOM.
  if (start > 0 || group !== 0x0008) throw new Unreadable(finding('dose-report.not-dicom', '', {}));
  return { data: bytes, implicit: !/^[A-Z]{2}$/.test(ascii(bytes, 4, 6)) };
}

/** Reads the elements of group 2, which are always in explicit little endian, up to the first of another group. */
function afterHeader(bytes: Uint8Array, start: number): DataBytes {
  const data = view(bytes);
  let at = start;
  let syntax = '';
  while (at + 8 <= bytes.length && data.getUint16(at, true) === 0x0002) {
    const long = ['OB', 'UN', 'OW', 'UT', 'SQ'].includes(ascii(bytes, at + 4, at + 6));
    if (long && at + 12 > bytes.length) break;
    const length = long ? data.getUint32(at + 8, true) : data.getUint16(at + 6, true);
    const value = at + (long ? 12 : 8);
    if (length > bytes.length - value) throw damaged(at);
    if (data.getUint16(at + 2, true) === 0x0010)
      syntax = ascii(bytes, value, value + length).replace(/[\0 ]+$/, '');
    at = value + length;
  }
  const rest = bytes.subarray(at);
  if (syntax === DEFLATED) return { data: inflated(rest), implicit: false };
  if (syntax === IMPLICIT || syntax === EXPLICIT) return { data: rest, implicit: syntax === IMPLICIT };
  throw new Unreadable(finding('dose-report.syntax', '', { found: syntax === '' ? '-' : syntax }));
}

function inflated(bytes: Uint8Array): Uint8Array {
  try {
    return inflateRawSync(bytes, { maxOutputLength: MAX_DATA_BYTES });
  } catch (error) {
    if (
      error instanceof RangeError ||
      (error instanceof Error && 'code' in error && error.code === 'ERR_BUFFER_TOO_LARGE')
    )
      throw new Unreadable(
        finding('dose-report.too-big', '', { found: `> ${MAX_DATA_BYTES}`, limit: `${MAX_DATA_BYTES}` }),
      );
    throw damaged(0);
  }
}

/** The structure is broken at this byte of the file or, for a deflated one, of what it holds. */
export const damaged = (at: number): Unreadable =>
  new Unreadable(finding('dose-report.damaged', '', { at: `${at}` }));

/** The same data set as a file with a header and nothing else in it, as the library reads it. */
export function withHeader({ data, implicit }: DataBytes): ArrayBuffer {
  const syntax = implicit ? `${IMPLICIT}\0` : `${EXPLICIT}\0`;
  const head = 132 + 12 + 8 + syntax.length;
  const file = new Uint8Array(head + data.length);
  const out = view(file);
  const put = (text: string, at: number) => file.set(new TextEncoder().encode(text), at);
  put('DICM', 132 - 4);
  for (const [tag, at] of [
    [0x0000, 132],
    [0x0010, 144],
  ] as const) {
    out.setUint16(at, 0x0002, true);
    out.setUint16(at + 2, tag, true);
  }
  put('UL', 136);
  out.setUint16(138, 4, true);
  out.setUint32(140, 8 + syntax.length, true);
  put('UI', 148);
  out.setUint16(150, syntax.length, true);
  put(syntax, 152);
  file.set(data, head);
  return file.buffer;
}
