import { createJimp } from '@jimp/core';
import jpeg from '@jimp/js-jpeg';
import png from '@jimp/js-png';
import { messageOf } from '../../../src/findings/finding.js';
import { parseCase } from '../../../src/record/parse.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';

/* Picture files for the tests, made here byte by byte where a library would not make them. */

export const Jimp = createJimp({ formats: [jpeg, png] });

/** A word that stands in the metadata of these files and must not come through. */
export const SECRET = 'ZQ-ORLA-FINNWICK-1971';

type Color = readonly [red: number, green: number, blue: number, alpha?: number];

/** A picture as an encoder makes it, its left half in one colour and its right half in another. */
export async function halves(
  type: 'image/jpeg' | 'image/png',
  width: number,
  height: number,
  left: Color = [255, 255, 255],
  right: Color = [0, 0, 0],
): Promise<Buffer> {
  const image = new Jimp({ width, height });
  for (let i = 0; i < width * height; i++) {
    const [r, g, b, a = 255] = i % width < width / 2 ? left : right;
    image.bitmap.data.set([r, g, b, a], i * 4);
  }
  if (type === 'image/png') return image.getBuffer('image/png');
  return jpeg().encode(image.bitmap, { quality: 95 });
}

const ascii = (text: string) => Buffer.from(text, 'latin1');
const u16 = (...values: number[]) => Buffer.from(values.flatMap(v => [v >> 8, v & 0xff]));
const u32 = (...values: number[]) => Buffer.concat(values.map(v => u16(v >>> 16, v & 0xffff)));

const segment = (marker: number, body: Buffer) =>
  Buffer.concat([Buffer.from([0xff, marker]), u16(body.length + 2), body]);

/**
 * A JPEG with an Exif segment that holds a description and an orientation, a comment, and bytes behind its end.
 * Layout: TIFF 6.0, section 2 (header, IFD, entries of 12 bytes); tags 0x010E ImageDescription (ASCII) and 0x0112
 * Orientation (SHORT); Exif identifier in APP1 as CIPA DC-008, section 4.7.2.
 */
export function withMetadata(file: Buffer, orientation: number): Buffer {
  const text = ascii(`${SECRET}\0`);
  const values = 8 + 2 + 2 * 12 + 4;
  const tiff = Buffer.concat([
    ascii('MM'),
    u16(42),
    u32(8),
    u16(2),
    u16(0x010e, 2),
    u32(text.length, values),
    u16(0x0112, 3),
    u32(1),
    u16(orientation, 0),
    u32(0),
    text,
  ]);
  return Buffer.concat([
    file.subarray(0, 2),
    segment(0xe1, Buffer.concat([ascii('Exif\0\0'), tiff])),
    segment(0xfe, ascii(SECRET)),
    file.subarray(2),
    ascii(SECRET),
  ]);
}

/** The checksum of PNG chunks: ISO/IEC 15948, annex D. */
function crc(bytes: Buffer): number {
  let value = 0xffffffff;
  for (const byte of bytes) {
    value ^= byte;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  }
  return (value ^ 0xffffffff) >>> 0;
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([ascii(type), data]);
  return Buffer.concat([u32(data.length), body, u32(crc(body))]);
}

/** Ends of the signature and of the first chunk. */
const FIRST = 8 + 25;

/** A PNG with a text chunk after its header. */
export function withText(file: Buffer): Buffer {
  return Buffer.concat([
    file.subarray(0, FIRST),
    chunk('tEXt', ascii(`Comment\0${SECRET}`)),
    file.subarray(FIRST),
  ]);
}

/** A PNG whose header says another size or that it is interlaced; the checksum is right. */
export function withHeader(file: Buffer, change: (header: Buffer) => void): Buffer {
  const header = Buffer.from(file.subarray(16, 29));
  change(header);
  return Buffer.concat([file.subarray(0, 8), chunk('IHDR', header), file.subarray(FIRST)]);
}

/** Markers of a JPEG up to its entropy-coded data, by the lengths of its segments. */
export function markersOf(file: Uint8Array): string[] {
  const bytes = Buffer.from(file);
  const found: string[] = [];
  for (let at = 2; at < bytes.length; at += 2 + bytes.readUInt16BE(at + 2)) {
    const marker = bytes.readUInt16BE(at).toString(16);
    found.push(marker);
    if (marker === 'ffda') break;
  }
  return found;
}

/** A PNG with one more chunk after its header. */
export function withChunk(file: Buffer, type: string, data: Buffer): Buffer {
  return Buffer.concat([file.subarray(0, FIRST), chunk(type, data), file.subarray(FIRST)]);
}

/** The data of the header of a PNG with another size. */
export function header(width: number, height: number, like: Buffer): Buffer {
  const data = Buffer.from(like.subarray(16, 29));
  data.writeUInt32BE(width, 0);
  data.writeUInt32BE(height, 4);
  return data;
}

/** Where a segment of a JPEG begins, by its marker. */
function segmentAt(file: Buffer, marker: number): number {
  let at = 2;
  while (file.readUInt16BE(at) !== marker) at += 2 + file.readUInt16BE(at + 2);
  return at;
}

/** A JPEG with another frame header: what is given begins with the marker. */
export function withFrame(file: Buffer, change: (frame: Buffer) => void): Buffer {
  const copy = Buffer.from(file);
  change(copy.subarray(segmentAt(copy, 0xffc0)));
  return copy;
}

/** A JPEG whose scan comes so many times more. */
export function withScans(file: Buffer, more: number): Buffer {
  const scan = file.subarray(segmentAt(file, 0xffda), -2);
  return Buffer.concat([
    file.subarray(0, -2),
    ...Array.from({ length: more }, () => scan),
    file.subarray(-2),
  ]);
}

/** A baseline JPEG that says it holds red, green and blue: an Adobe segment with transform 0 in place of JFIF. */
export function asRgb(file: Buffer): Buffer {
  const jfif = segmentAt(file, 0xffe0);
  return Buffer.concat([
    file.subarray(0, jfif),
    segment(0xee, Buffer.concat([ascii('Adobe'), u16(100, 0, 0), Buffer.from([0])])),
    file.subarray(jfif + 2 + file.readUInt16BE(jfif + 2)),
  ]);
}

export const caseText = (...files: string[]) => `casetally: 1
case: { id: X-1, status: completed, date: 2024-05-02, timeZone: Europe/Lisbon, kind: nephrostomy }
patient: { identifiers: [{ system: urn:oid:2.16.840.1.113883.19.5, value: "1" }] }
team: [{ key: op, role: operator, name: Dr Ilse Branquinho }]
indication: { text: Hydronephrosis }
images:
${files.map(file => `  - { study: 2.25.12345, file: "${file}" }`).join('\n')}
report: { status: preliminary, author: op }
`;

export function recordOf(...files: string[]): CaseRecord {
  const { record, findings } = parseCase(caseText(...files));
  if (!record) throw new Error(findings.map(f => messageOf(f)).join('; '));
  return record;
}
