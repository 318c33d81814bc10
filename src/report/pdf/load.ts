import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { CasetallyError } from '../../findings/errors.js';
import type { PdfMaker } from './options.js';

const FACE = 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed';

/** Loads the PDF library and the fonts: an edge, called only where a PDF is made, for it takes a while. */
export async function loadPdf(): Promise<PdfMaker> {
  const { resolve } = createRequire(import.meta.url);
  const font = async (name: string) => {
    try {
      return await readFile(resolve(name));
    } catch (cause) {
      throw new CasetallyError('file-unreadable', `The font ${name} cannot be read.`, { cause });
    }
  };
  const [{ pdfMaker }, regular, bold] = await Promise.all([
    import('./render.js'),
    font(`${FACE}.ttf`),
    font(`${FACE}-Bold.ttf`),
  ]);
  return pdfMaker({ regular, bold });
}
