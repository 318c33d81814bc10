import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { CasetallyError } from '../../findings/errors.js';
import type { PdfMaker } from './options.js';

let maker: Promise<PdfMaker> | undefined;

/** Loads the PDF library and the fonts, once: an edge, called only where a PDF is made, for it takes a while. */
export function loadPdf(): Promise<PdfMaker> {
  maker ??= load();
  return maker;
}

async function load(): Promise<PdfMaker> {
  const require = createRequire(import.meta.url);
  const [{ pdfMaker }, regular, bold] = await Promise.all([
    import('./render.js'),
    font(require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf')),
    font(require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf')),
  ]);
  return pdfMaker({ regular, bold });
}

async function font(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (cause) {
    throw new CasetallyError('file-unreadable', `The font ${path} cannot be read.`, { cause });
  }
}
