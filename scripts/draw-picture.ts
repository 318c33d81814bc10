import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createJimp } from '@jimp/core';
import png from '@jimp/js-png';

/*
 * Draws the picture of examples/pictures: a grey test pattern in the manner of a spot film, with a step wedge and a bright
 * curve for a drain. It shows nobody.
 */
const WIDTH = 480;
const HEIGHT = 360;
const STEPS = 8;

/** Grey of one point, 0 to 255. */
function grey(x: number, y: number): number {
  if (y >= HEIGHT - 40) return Math.round((Math.floor((x * STEPS) / WIDTH) * 255) / (STEPS - 1));
  const [dx, dy] = [(x - WIDTH / 2) / 210, (y - 160) / 150];
  const distance = Math.hypot(dx, dy);
  if (distance > 1) return 8;
  const curve = 150 + 70 * Math.sin(x / 70);
  const drain = Math.abs(y - curve) < 4 && x > 110 && x < 380;
  return drain ? 232 : 56 + 8 * Math.floor(12 * (1 - distance));
}

const Jimp = createJimp({ formats: [png] });
const image = new Jimp({ width: WIDTH, height: HEIGHT, color: 0x000000ff });
for (let y = 0; y < HEIGHT; y++)
  for (let x = 0; x < WIDTH; x++) {
    const g = grey(x, y);
    image.bitmap.data.set([g, g, g, 255], (y * WIDTH + x) * 4);
  }
const bytes = await image.getBuffer('image/png', { colorType: 0, deflateLevel: 9 });
writeFileSync(fileURLToPath(new URL('../examples/pictures/check.png', import.meta.url)), bytes);
