import { createJimp } from '@jimp/core';
import jpeg from '@jimp/js-jpeg';
import png from '@jimp/js-png';
import { methods as resize } from '@jimp/plugin-resize';
import type { StoredPicture } from '../../report/pictures/stored.js';

/** What a picture may be and becomes. */
export interface ShrinkOptions {
  /** Longer side of what is made, in pixels. */
  readonly longest: number;
  /** Most pixels of what is decoded, in millions. */
  readonly megapixels: number;
  /** The file is a JPEG of red, green and blue. */
  readonly rgb?: boolean;
}

const QUALITY = 80;
/** Of the JPEG decoder, in MB; enough for 25 million pixels in full colour. */
const MEMORY = 900;

const Jimp = createJimp({ formats: [jpeg, png], plugins: [resize] });

/**
 * Decodes a picture, turns it as its metadata say, makes it smaller where it is too large, and writes it anew from its
 * pixels alone: nothing else of the file comes through. Throws what the library throws for a damaged file.
 */
export async function shrink(
  bytes: Uint8Array,
  { longest, megapixels, rgb = false }: ShrinkOptions,
): Promise<StoredPicture> {
  const image = await Jimp.fromBuffer(Buffer.from(bytes), {
    'image/jpeg': {
      maxMemoryUsageInMB: MEMORY,
      maxResolutionInMP: megapixels,
      // A part that is missing must not become a grey patch.
      tolerantDecoding: false,
      ...(rgb && { colorTransform: false }),
    },
  });
  // JPEG knows no transparency: what can be seen through becomes white, as the paper is.
  image.background = 0xff_ff_ff_ff;
  if (Math.max(image.width, image.height) > longest)
    image.resize(image.width >= image.height ? { w: longest } : { h: longest });
  const made = await image.getBuffer('image/jpeg', { quality: QUALITY });
  return { jpeg: new Uint8Array(made), width: image.width, height: image.height };
}
