import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { report } from '../../../src/cli/commands/report.js';
import { exitCodes } from '../../../src/cli/exit.js';
import { messageOf } from '../../../src/findings/finding.js';
import { readPictures } from '../../../src/pipeline/pictures/read.js';
import type { ReadPictures } from '../../../src/report/pictures/stored.js';
import { asRgb, caseText, halves, Jimp, recordOf } from './files.js';

/*
 * The files of tests/support/pictures were written by ImageMagick 6.9.11 with libjpeg-turbo 2.1.5 and libpng 1.6.39, from one picture of
 * 48 x 32 pixels: left half rgb(220,120,40), right half rgb(20,60,160). What those files hold was read back with the
 * same programs.
 */
const made = join(import.meta.dirname, '../../support/pictures');
const names = readdirSync(made).sort();
const folder = mkdtempSync(join(tmpdir(), 'casetally-formats-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Color = readonly [number, number, number];
const LEFT: Color = [220, 120, 40];
const RIGHT: Color = [20, 60, 160];
/** Its brightness as ImageMagick reads it back: gray(135) and gray(59). */
const GREYS: readonly [Color, Color] = [
  [135, 135, 135],
  [59, 59, 59],
];
const expected: Readonly<Record<string, readonly [Color, Color]>> = {
  'alpha.png': [LEFT, RIGHT],
  'cmyk.jpg': [LEFT, RIGHT],
  'deep-grey.png': GREYS,
  'deep.png': [LEFT, RIGHT],
  'grey-alpha.png': GREYS,
  'grey.jpg': GREYS,
  'one-bit.png': [
    [255, 255, 255],
    [0, 0, 0],
  ],
  'palette.png': [LEFT, RIGHT],
  'progressive.jpg': [LEFT, RIGHT],
  'restarts.jpg': [LEFT, RIGHT],
  'subsampled.jpg': [LEFT, RIGHT],
};

const reading = (bytes: Uint8Array, name = 'one.png'): Promise<ReadPictures> => {
  writeFileSync(join(folder, name), bytes);
  return readPictures(recordOf(name), folder);
};

/** Colours in the middle of each half of what was made. */
async function colorsOf({ pictures, findings }: ReadPictures): Promise<number[][]> {
  const picture = pictures.get('images[0]');
  if (!picture) throw new Error(findings.map(f => messageOf(f)).join('; '));
  const image = await Jimp.fromBuffer(Buffer.from(picture.jpeg));
  const at = (x: number) => (Math.floor(image.height / 2) * image.width + Math.floor(x * image.width)) * 4;
  return [0.25, 0.75].map(x => [...image.bitmap.data.subarray(at(x), at(x) + 3)]);
}

function expectNear(found: readonly number[][], wanted: readonly (readonly number[])[]): void {
  const off = found.map((color, i) =>
    Math.max(...color.map((value, j) => Math.abs(value - (wanted[i]?.[j] ?? 999)))),
  );
  expect(Math.max(...off), JSON.stringify(found)).toBeLessThan(8);
}

describe('pictures as other programs write them', () => {
  it('are all looked at', () => {
    expect(names).toEqual(Object.keys(expected).sort());
  });

  it.each(names)('%s has its colours', async name => {
    expectNear(await colorsOf(await reading(readFileSync(join(made, name)))), expected[name] ?? []);
  });

  // White is brightness 255 and no difference of colour (128, 128): ITU-T T.871, section 7. Taken as red, green and blue
  // it is what stands here; ImageMagick shows srgb(255,128,128) and srgb(0,128,128).
  it('a JPEG of red, green and blue is not taken for one of brightness and colour', async () => {
    const file = asRgb(await halves('image/jpeg', 64, 32));
    expectNear(await colorsOf(await reading(file)), [
      [255, 128, 128],
      [0, 128, 128],
    ]);
  });
});

describe('damaged files give a finding and no exception', () => {
  it.each(names)('%s, cut at any length', async name => {
    const whole = readFileSync(join(made, name));
    const codes = new Set<string>();
    for (let length = 0; length < whole.length; length += 1 + (length % 3)) {
      const { pictures, findings } = await reading(whole.subarray(0, length));
      expect(pictures.size, `${length} bytes`).toBe(0);
      expect(findings, `${length} bytes`).toHaveLength(1);
      for (const found of findings) {
        codes.add(found.code);
        expect(messageOf(found)).not.toMatch(/undefined|not a function|NaN/);
      }
    }
    expect([...codes].sort()).toEqual(['picture.damaged', 'picture.wrong-type']);
  });

  it.each(names)('%s, with bytes changed', async name => {
    const whole = readFileSync(join(made, name));
    let seed = 7;
    const next = (below: number) => {
      // Numerical Recipes' generator: the same faults on each run.
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return Math.floor((seed / 2 ** 32) * below);
    };
    for (let turn = 0; turn < 60; turn++) {
      const file = Buffer.from(whole);
      for (let count = 0; count <= turn % 3; count++) file[next(file.length)] = next(256);
      const { pictures, findings } = await reading(file);
      expect(pictures.size + findings.length).toBe(1);
      for (const f of findings) expect(messageOf(f)).not.toMatch(/undefined|not a function|NaN/);
    }
  });
});

describe('a report of a case with such files', () => {
  beforeAll(() => {
    writeFileSync(join(folder, 'good.jpg'), readFileSync(join(made, 'grey.jpg')));
    writeFileSync(join(folder, 'cut.jpg'), readFileSync(join(made, 'grey.jpg')).subarray(0, 150));
    writeFileSync(join(folder, 'case.yaml'), caseText('cut.jpg', 'good.jpg', 'gone.jpg'));
  });

  it.each(['html', 'pdf'] as const)(
    '%s shows those that can be read, and says which cannot',
    async format => {
      const said: string[] = [];
      const parts: Uint8Array[] = [];
      const text: string[] = [];
      const code = await report(
        join(folder, 'case.yaml'),
        { audience: 'record', format },
        {
          out: part => void text.push(part),
          err: part => void said.push(part),
          bytes: part => void parts.push(part),
          color: false,
        },
      );
      expect(code).toBe(exitCodes.ok);
      expect(said.join('')).toMatch(/^warning 7:\d+ {2}[\s\S]*?\(picture\.damaged,/m);
      expect(said.join('')).toMatch(/^warning 9:\d+ {2}[\s\S]*?\(picture\.not-read,/m);
      const shown =
        format === 'html'
          ? text.join('').match(/<img src="data:image\/jpeg;base64,/g)
          : Buffer.concat(parts)
              .toString('latin1')
              .match(/\/Subtype \/Image/g);
      expect(shown).toHaveLength(1);
    },
  );
});
