import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { CasetallyError, reason } from '../../findings/errors.js';
import { headerOf } from '../pictures/header.js';

/** Symbologies that device labels are printed in. */
const FORMATS = [
  'DataMatrix',
  'Code128',
  'QRCode',
  'Code39',
  'DataBar',
  'DataBarExpanded',
  'EAN13',
  'UPCA',
  'ITF14',
] as const;

/** Photos with more than this are not read: a label fills the picture of any camera. */
const PIXELS = 60_000_000;
const BYTES = 30 * 1024 * 1024;

let ready: Promise<typeof import('zxing-wasm/reader')> | undefined;

/** The reader, with its program from the package on the disk: by itself it would fetch it from the network. */
function reader(): Promise<typeof import('zxing-wasm/reader')> {
  ready ??= (async () => {
    const zxing = await import('zxing-wasm/reader');
    const file = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
    const { buffer, byteOffset, byteLength } = await readFile(file);
    await zxing.prepareZXingModule({
      overrides: { wasmBinary: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer },
      fireImmediately: true,
    });
    return zxing;
  })();
  return ready;
}

/**
 * The symbols in a photo of labels, as a scanner would send them, from top to bottom.
 * @throws CasetallyError 'file-unreadable' for what is no JPEG or PNG, or larger than any photo of a label.
 */
export async function symbolsIn(bytes: Uint8Array, name: string): Promise<readonly string[]> {
  const refuse = (why: string) =>
    new CasetallyError('file-unreadable', `${name} cannot be read as a photo of labels: ${why}.`);
  if (bytes.length > BYTES) throw refuse(`it has ${bytes.length} bytes, and ${BYTES} at most are read`);
  const header = headerOf(bytes);
  if (!header) throw refuse('it is no JPEG and no PNG');
  const pixels = header.width * header.height;
  if (pixels > PIXELS) throw refuse(`it has ${pixels} pixels, and ${PIXELS} at most are read`);
  const zxing = await reader();
  let found: Awaited<ReturnType<typeof zxing.readBarcodes>>;
  try {
    found = await zxing.readBarcodes(bytes, { formats: [...FORMATS], tryHarder: true, textMode: 'Plain' });
  } catch (error) {
    throw refuse(reason(error));
  }
  return found
    .filter(({ isValid }) => isValid)
    .toSorted(
      (a, b) => a.position.topLeft.y - b.position.topLeft.y || a.position.topLeft.x - b.position.topLeft.x,
    )
    .map(
      ({ symbologyIdentifier, text }) => `${GS1.has(symbologyIdentifier) ? symbologyIdentifier : ''}${text}`,
    );
}

/** Symbologies that say that GS1 elements follow. */
const GS1 = new Set([']C1', ']d2', ']Q3', ']e0', ']J1']);
