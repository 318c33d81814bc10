import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../../src/cli/commands/check.js';
import { exitCodes } from '../../../src/cli/exit.js';
import { findingRow, messageOf, stops } from '../../../src/findings/finding.js';
import { readPictures } from '../../../src/pipeline/pictures/read.js';
import { parseCase } from '../../../src/record/parse.js';
import type { StoredPicture } from '../../../src/report/pictures/stored.js';
import {
  caseText,
  halves,
  header,
  Jimp,
  markersOf,
  recordOf,
  SECRET,
  withChunk,
  withFrame,
  withHeader,
  withMetadata,
  withScans,
  withText,
} from './files.js';

const root = mkdtempSync(join(tmpdir(), 'casetally-pictures-'));
const folder = join(root, 'case');
const put = (name: string, bytes: Uint8Array | string) => writeFileSync(join(folder, name), bytes);

async function made(name: string): Promise<StoredPicture> {
  const { pictures, findings } = await readPictures(recordOf(name), folder);
  const picture = pictures.get('images[0]');
  if (!picture) throw new Error(findings.map(f => messageOf(f)).join('; '));
  return picture;
}

const pixelOf = async ({ jpeg }: StoredPicture, x: number, y: number) => {
  const image = await Jimp.fromBuffer(Buffer.from(jpeg));
  return [...image.bitmap.data.subarray((y * image.width + x) * 4, (y * image.width + x) * 4 + 3)];
};

beforeAll(async () => {
  mkdirSync(join(folder, 'below'), { recursive: true });
  const small = await halves('image/png', 40, 20);
  put('small.png', small);
  put('below/small.PNG', small);
  put('text.png', withText(small));
  put('clear.png', await halves('image/png', 16, 16, [0, 0, 0, 0], [200, 0, 0]));
  put('wide.jpg', await halves('image/jpeg', 2400, 600));
  put('tall.png', await halves('image/png', 300, 1800));
  for (const n of [1, 3, 6, 8]) put(`turned-${n}.jpg`, withMetadata(await halves('image/jpeg', 64, 32), n));
  put('thread.png', await halves('image/png', 5000, 1));
  put('words.png', 'This is no picture.');
  put('half.jpg', (await halves('image/jpeg', 64, 32)).subarray(0, 300));
  put('stub.jpg', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0x00]));
  put('cut.png', small.subarray(0, small.length - 30));
  put(
    'bomb.png',
    withHeader(small, header => header.writeUInt32BE(60_000, 0) && header.writeUInt32BE(60_000, 4)),
  );
  put(
    'laced.png',
    withHeader(small, header => header.writeUInt8(1, 12)),
  );
  // A second header with another size, which the decoder would believe.
  put('double.png', withChunk(small, 'IHDR', header(60_000, 60_000, small)));
  // acTL: number of frames and of plays (PNG third edition, 11.3.6).
  put('moving.png', withChunk(small, 'acTL', Buffer.from([0, 0, 0, 2, 0, 0, 0, 0])));
  const photo = await halves('image/jpeg', 64, 32);
  // SOF3 is lossless, and precision is the byte after marker and length (ISO/IEC 10918-1, table B.1 and B.2.2).
  put(
    'lossless.jpg',
    withFrame(photo, frame => frame.writeUInt8(0xc3, 1)),
  );
  put(
    'deep.jpg',
    withFrame(photo, frame => frame.writeUInt8(12, 4)),
  );
  put('scans.jpg', withScans(photo, 200));
  put('heavy.png', small);
  truncateSync(join(folder, 'heavy.png'), 20_000_001);
  mkdirSync(join(folder, 'folder.png'));
  execFileSync('mkfifo', [join(folder, 'pipe.png')]);
  writeFileSync(join(root, 'outside.png'), small);
  symlinkSync(join(root, 'outside.png'), join(folder, 'link.png'));
  symlinkSync(join(folder, 'small.png'), join(folder, 'inner.png'));
});

afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('a picture that was read', () => {
  it('the files of this test do hold what must not come through', async () => {
    const { readFileSync } = await import('node:fs');
    for (const name of ['turned-6.jpg', 'text.png'])
      expect(readFileSync(join(folder, name)).includes(SECRET), name).toBe(true);
    expect(markersOf(readFileSync(join(folder, 'turned-6.jpg')))).toEqual(
      expect.arrayContaining(['ffe1', 'fffe']),
    );
  });

  it.each(['turned-1.jpg', 'turned-6.jpg', 'text.png'])(
    '%s is written anew without its metadata',
    async name => {
      const { jpeg } = await made(name);
      const bytes = Buffer.from(jpeg);
      expect(bytes.includes(SECRET)).toBe(false);
      expect(bytes.includes('Exif')).toBe(false);
      // Nothing but JFIF, tables, frame and scan (ISO/IEC 10918-1, table B.1); nothing behind the end of the image.
      expect(markersOf(jpeg).filter(m => !['ffe0', 'ffdb', 'ffc0', 'ffc4', 'ffda'].includes(m))).toEqual([]);
      expect(bytes.subarray(-2).toString('hex')).toBe('ffd9');
    },
  );

  // Where the first column and row of the file belong: CIPA DC-008 (Exif), tag Orientation, 1, 3, 6 and 8. The file is
  // white on its left.
  it.each([
    [1, 64, 32, [2, 16]],
    [3, 64, 32, [61, 16]],
    [6, 32, 64, [16, 2]],
    [8, 32, 64, [16, 61]],
  ] as const)('orientation %i is kept in the pixels', async (orientation, width, height, [x, y]) => {
    const picture = await made(`turned-${orientation}.jpg`);
    expect([picture.width, picture.height]).toEqual([width, height]);
    for (const value of await pixelOf(picture, x, y)) expect(value).toBeGreaterThan(230);
    for (const value of await pixelOf(picture, width - 1 - x, height - 1 - y)) expect(value).toBeLessThan(25);
  });

  it.each([
    ['wide.jpg', 1000, 250],
    ['tall.png', 167, 1000],
    ['thread.png', 1000, 1],
    ['small.png', 40, 20],
    ['below/small.PNG', 40, 20],
    ['inner.png', 40, 20],
  ])('%s becomes %i x %i pixels', async (name, width, height) => {
    const picture = await made(name);
    expect([picture.width, picture.height]).toEqual([width, height]);
    const again = await Jimp.fromBuffer(Buffer.from(picture.jpeg));
    expect([again.width, again.height, again.mime]).toEqual([width, height, 'image/jpeg']);
  });

  it('is white where the file can be seen through', async () => {
    const picture = await made('clear.png');
    for (const value of await pixelOf(picture, 2, 8)) expect(value).toBeGreaterThan(240);
    expect((await pixelOf(picture, 13, 8))[0]).toBeGreaterThan(170);
    expect((await pixelOf(picture, 13, 8))[1]).toBeLessThan(40);
  });

  it('is the same bytes each time', async () => {
    expect(Buffer.compare((await made('wide.jpg')).jpeg, (await made('wide.jpg')).jpeg)).toBe(0);
  });
});

describe('a picture that cannot be shown', () => {
  const faults: readonly (readonly [string, string, RegExp])[] = [
    ['nowhere.png', 'picture.not-read', /no such file/],
    ['folder.png', 'picture.not-read', /no file/],
    ['pipe.png', 'picture.not-read', /no file/],
    ['small.png/more.png', 'picture.not-read', /not a folder/],
    ['link.png', 'picture.outside', /out of the folder/],
    ['words.png', 'picture.wrong-type', /neither a JPEG nor a PNG/],
    ['heavy.png', 'picture.too-big', /20\.0 MB; pictures of up to 20 MB/],
    ['bomb.png', 'picture.too-big', /60000 × 60000 pixels/],
    ['laced.png', 'picture.damaged', /interlaced/],
    ['double.png', 'picture.damaged', /two headers/],
    ['moving.png', 'picture.damaged', /animated/],
    ['lossless.jpg', 'picture.damaged', /lossless/],
    ['deep.jpg', 'picture.damaged', /12 bits/],
    ['scans.jpg', 'picture.damaged', /more than 200 scans/],
    ['half.jpg', 'picture.damaged', /./],
    ['stub.jpg', 'picture.damaged', /size/],
    ['cut.png', 'picture.damaged', /./],
  ];
  it.each(faults)('%s: %s', async (file, code, message) => {
    const { pictures, findings } = await readPictures(recordOf('small.png', file), folder);
    expect([...pictures.keys()]).toEqual(['images[0]']);
    expect(findings).toHaveLength(1);
    expect(findings.map(findingRow)[0]).toMatchObject({
      code,
      severity: 'warning',
      path: 'images[1].file',
      message: expect.stringMatching(message),
      remedy: expect.stringMatching(/\w+/),
    });
  });

  it('twelve are read, the next ones are named', async () => {
    const files = Array.from({ length: 14 }, () => 'small.png');
    const { pictures, findings } = await readPictures(recordOf(...files), folder);
    expect(pictures.size).toBe(12);
    expect(findings.map(f => [f.code, f.path])).toEqual([
      ['picture.too-many', 'images[12].file'],
      ['picture.too-many', 'images[13].file'],
    ]);
  });

  it('is told with its line by check, which does not fail for it', async () => {
    put('case.yaml', caseText('small.png', 'nowhere.png'));
    const said: string[] = [];
    const take = (text: string) => void said.push(text);
    const code = await check([join(folder, 'case.yaml')], {}, { out: take, err: take, color: false });
    expect(code).toBe(exitCodes.ok);
    expect(said.join('')).toMatch(
      /^warning {2}[\s\S]*?\(picture\.not-read,\s+images\[1\]\.file\)\n {2}8 \| /m,
    );
    expect(said.join('')).not.toContain('images[0].file');
  });
});

describe('the name of a picture', () => {
  it.each(['a.png', 'A b (2).JPEG', 'below/deeper/film-1.jpg', 'röntgen/Bild_1.Png'])('%s is taken', name => {
    expect(recordOf(name).images?.[0]?.file).toBe(name);
  });
  it.each([
    '/etc/a.png',
    '../a.png',
    'below/../../a.png',
    './a.png',
    'below//a.png',
    'C:/a.png',
    String.raw`..\\a.png`,
    '~/a.png',
    '.hidden.png',
    'a.gif',
    'a.png.exe',
    'png',
    'https://pictures.example/a.png',
    'a.png\\n',
  ])('%s is refused', name => {
    const { record, findings } = parseCase(caseText(name));
    expect(record).toBeUndefined();
    expect(findings.filter(stops).map(f => [f.code, f.path, f.line])).toEqual([
      ['record.bad-text', 'images[0].file', 7],
    ]);
  });
});
