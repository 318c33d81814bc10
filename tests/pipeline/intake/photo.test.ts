import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { prepareZXingModule, writeBarcode } from 'zxing-wasm/writer';
import { decodeScans } from '../../../src/devices/labels/scans.js';
import { symbolsIn } from '../../../src/pipeline/intake/photo.js';

/* Symbols are drawn by the writer of zxing-wasm, a general library, and read from the picture. */
async function drawn(text: string, format: 'DataMatrix' | 'Code128' | 'QRCode'): Promise<Uint8Array> {
  const file = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/writer/zxing_writer.wasm'));
  await prepareZXingModule({
    overrides: {
      wasmBinary: file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength) as ArrayBuffer,
    },
    fireImmediately: true,
  });
  const { image, error } = await writeBarcode(text, { format, scale: 6 });
  return new Uint8Array(await (image ?? expect.fail(error)).arrayBuffer());
}

describe('a photo of a label', () => {
  it.each(['DataMatrix', 'Code128', 'QRCode'] as const)(
    'gives what a scanner would send: %s',
    async format => {
      const text = '+H123ABC01234567890D';
      expect(await symbolsIn(await drawn(text, format), 'photo.png')).toEqual([text]);
    },
  );

  it('keeps the signs that part GS1 elements', async () => {
    const png = await drawn('0109520005001228172705311 0IN1815'.replace(' ', ''), 'DataMatrix');
    const [symbol = ''] = await symbolsIn(png, 'photo.png');
    expect(decodeScans([symbol], { today: '2026-06-01' })[0]).toMatchObject({ di: '09520005001228' });
  });

  it('without a symbol gives none', async () => {
    const png = Buffer.from(
      'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGP4DwABAQEAsuYOkgAAAABJRU5ErkJggg==',
      'base64',
    );
    expect(await symbolsIn(png, 'photo.png').catch((error: Error) => error.message)).toEqual(
      expect.toSatisfy(said => (Array.isArray(said) ? said.length === 0 : /photo\.png/.test(String(said)))),
    );
  });

  it.each([
    ['no picture', Buffer.from('casetally: 1\n'), 'no JPEG and no PNG'],
    ['a picture of a billion pixels', huge(), 'pixels'],
    ['too many bytes', Buffer.alloc(31 * 1024 * 1024), 'bytes'],
  ])('%s is refused', async (_, bytes, why) => {
    await expect(symbolsIn(bytes, 'photo.png')).rejects.toThrow(why);
  });

  it('cut anywhere, it is refused or has no symbol', async () => {
    const png = await drawn('+H123ABC01234567890D', 'DataMatrix');
    for (let length = 40; length < png.length - 20; length += 97) {
      const found = await symbolsIn(png.subarray(0, length), 'photo.png').catch((error: Error) => error);
      expect(found instanceof Error ? found.name : 'CasetallyError').toBe('CasetallyError');
    }
  });
});

function huge(): Buffer {
  const header = Buffer.alloc(64);
  Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]).copy(header);
  header.writeUInt32BE(13, 8);
  header.write('IHDR', 12, 'latin1');
  header.writeUInt32BE(40_000, 16);
  header.writeUInt32BE(40_000, 20);
  header[24] = 8;
  return header;
}
