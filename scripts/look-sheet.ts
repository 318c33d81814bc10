import { readFileSync, writeFileSync } from 'node:fs';
import { createJimp } from '@jimp/core';
import png from '@jimp/js-png';
import { methods as resize } from '@jimp/plugin-resize';

const Jimp = createJimp({ formats: [png], plugins: [resize] });

/** Pictures are brought to this width, and cut where they are longer than four times that. */
const WIDTH = 400;
const GAP = 10;
const COLUMNS = 6;

/** Lays pictures side by side, in rows as high as their highest. */
export async function contactSheet(files: readonly string[], out: string): Promise<void> {
  const read = async (file: string) => (await Jimp.fromBuffer(readFileSync(file))).resize({ w: WIDTH });
  const small = await Promise.all(files.map(read));
  const rows = [];
  for (let at = 0; at < small.length; at += COLUMNS) rows.push(small.slice(at, at + COLUMNS));
  const heightOf = (row: typeof small) => Math.min(WIDTH * 4, Math.max(...row.map(({ height }) => height)));
  const height = rows.reduce((total, row) => total + heightOf(row) + GAP, GAP);
  const sheet = new Jimp({ width: GAP + COLUMNS * (WIDTH + GAP), height, color: 0x888888ff });
  let top = GAP;
  for (const row of rows) {
    for (const [n, { bitmap }] of row.entries()) {
      const left = GAP + n * (WIDTH + GAP);
      for (let y = 0; y < Math.min(bitmap.height, heightOf(row)); y++)
        bitmap.data.copy(
          sheet.bitmap.data,
          ((top + y) * sheet.bitmap.width + left) * 4,
          y * bitmap.width * 4,
          (y + 1) * bitmap.width * 4,
        );
    }
    top += heightOf(row) + GAP;
  }
  writeFileSync(out, await sheet.getBuffer('image/png'));
}
