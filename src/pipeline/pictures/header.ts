import { type Message, message } from '../../findings/message.js';

/** What a picture file says of itself before it is decoded. */
export interface PictureHeader {
  readonly type: 'image/jpeg' | 'image/png';
  /** In pixels; 0 where the file ends before it is said. */
  readonly width: number;
  readonly height: number;
  /** Why it is not decoded though it may be whole: the end of a sentence. */
  readonly fault?: Message;
  /** A JPEG of red, green and blue, where others hold brightness and two differences of colour. */
  readonly rgb?: boolean;
}

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
/** Each scan of a progressive JPEG goes over the whole picture; encoders make about ten. */
const MOST_SCANS = 200;

/**
 * Type and size of a picture without decoding it, so that one of a few bytes and a billion pixels is known before it
 * takes any memory, and what would be decoded wrongly or without end. Undefined for anything but JPEG and PNG.
 */
export function headerOf(bytes: Uint8Array): PictureHeader | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (PNG.every((byte, index) => bytes[index] === byte)) return pngHeader(view);
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return jpegHeader(view, bytes);
  return undefined;
}

/** The IHDR chunk comes first: width, height, depth, colour, compression, filter, interlace (ISO/IEC 15948, 11.2.2). */
function pngHeader(view: DataView): PictureHeader {
  if (view.byteLength < 33) return { type: 'image/png', width: 0, height: 0 };
  const fault = pngFault(view);
  return {
    type: 'image/png',
    width: view.getUint32(16),
    height: view.getUint32(20),
    ...(fault !== undefined && { fault }),
  };
}

/** Goes from chunk to chunk: length, name, data, checksum (ISO/IEC 15948, 5.3). */
function pngFault(view: DataView): Message | undefined {
  // The decoder would unpack an interlaced file without a limit.
  if (view.getUint8(28) !== 0) return message('picture.interlaced');
  for (let at = 33; at + 8 <= view.byteLength; at += 12 + view.getUint32(at)) {
    const name = String.fromCharCode(...[4, 5, 6, 7].map(i => view.getUint8(at + i)));
    // The decoder would believe the last one, whose size nobody has looked at.
    if (name === 'IHDR') return message('picture.twoHeaders');
    if (name === 'acTL') return message('picture.animated');
  }
  return undefined;
}

/** Goes from marker to marker up to the frame header (ISO/IEC 10918-1, annex B.1 and B.2.2). */
function jpegHeader(view: DataView, bytes: Uint8Array): PictureHeader {
  let at = 2;
  let jfif = false;
  let adobe: number | undefined;
  while (at + 10 <= view.byteLength && view.getUint8(at) === 0xff) {
    const marker = view.getUint8(at + 1);
    if (isFrame(marker)) {
      const fault = jpegFault(marker, view.getUint8(at + 4), bytes);
      const ids = [...bytes.subarray(at + 10, at + 10 + 3 * view.getUint8(at + 9))].filter(
        (_, i) => i % 3 === 0,
      );
      return {
        type: 'image/jpeg',
        width: view.getUint16(at + 7),
        height: view.getUint16(at + 5),
        rgb: ids.length === 3 && !jfif && (adobe === undefined ? named(ids) : adobe === 0),
        ...(fault !== undefined && { fault }),
      };
    }
    const word = String.fromCharCode(...bytes.subarray(at + 4, at + 9));
    if (marker === 0xe0 && word === 'JFIF\0') jfif = true;
    if (marker === 0xee && word === 'Adobe') adobe = bytes[at + 15];
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return { type: 'image/jpeg', width: 0, height: 0 };
}

/** SOF0 to SOF15, between which DHT, JPG and DAC have their numbers, and SOF55 of JPEG-LS (ISO/IEC 14495-1). */
const isFrame = (marker: number) =>
  (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc) ||
  marker === 0xf7;

/** What decoders of pictures for the screen cannot read, or would read wrongly: both come from medical archives. */
function jpegFault(marker: number, bits: number, bytes: Uint8Array): Message | undefined {
  if (marker > 0xc2) return message('picture.otherCoding');
  if (bits !== 8) return message('picture.bits', { bits: `${bits}` });
  // In coded data 0xFF is followed by 0 or a restart marker, so that these are scans, but for chance in metadata.
  let scans = 0;
  for (let at = bytes.indexOf(0xff); at !== -1 && scans <= MOST_SCANS; at = bytes.indexOf(0xff, at + 1))
    if (bytes[at + 1] === 0xda) scans += 1;
  return scans > MOST_SCANS ? message('picture.scans', { n: `${MOST_SCANS}` }) : undefined;
}

/** Components named R, G and B: how encoders mark such a file without saying so. */
const named = (ids: readonly number[]) => String.fromCharCode(...ids) === 'RGB';
