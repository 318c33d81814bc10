import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Font } from 'fontkit';
import type * as HarfBuzz from 'harfbuzzjs';
import { CasetallyError } from '../../findings/errors.js';
import type { PdfMaker, ScriptCuts } from './options.js';
import { type ScriptFont, scriptFonts } from './script-fonts.js';

const makers = new Map<string, Promise<PdfMaker>>();

/**
 * Loads the PDF library and the fonts, once: an edge, called only where a PDF is made, for it takes a while. Fonts for
 * further scripts are those of `scriptFonts` that are installed; nothing is ever fetched.
 *
 * @param folders from where packages of fonts are looked for, as Node looks for any
 * @throws CasetallyError 'file-unreadable' for a package that is not as it should be
 */
export function loadPdf(...folders: readonly string[]): Promise<PdfMaker> {
  const from = folders.length > 0 ? folders : [process.cwd()];
  const key = JSON.stringify(from);
  const maker = makers.get(key) ?? load(from);
  makers.set(key, maker);
  return maker;
}

async function load(folders: readonly string[]): Promise<PdfMaker> {
  const require = createRequire(import.meta.url);
  const more = scriptFonts.flatMap(font => {
    const place = placeOf(font, folders);
    return place ? [{ font, place }] : [];
  });
  // Only who has such fonts waits for what shapes their text.
  const [{ pdfMaker }, regular, bold, shape, hb] = await Promise.all([
    import('./render.js'),
    file(require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf')),
    file(require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf')),
    import('./shape.js'),
    more.length > 0 ? import('harfbuzzjs') : undefined,
  ]);
  const cuts = hb ? more.map(({ font, place }) => scriptCuts(font, place, hb, shape.shapedFont)) : [];
  return pdfMaker({ regular, bold }, cuts);
}

/** Files of a package that is installed. */
interface Place {
  readonly regular: string;
  readonly bold: string;
}

function placeOf({ name, file: start }: ScriptFont, folders: readonly string[]): Place | undefined {
  for (const folder of folders) {
    const { resolve } = createRequire(join(folder, 'any.js'));
    let home: string;
    try {
      home = resolve(`${name}/package.json`);
    } catch {
      continue;
    }
    try {
      return {
        regular: resolve(`${name}/400Regular/${start}_400Regular.ttf`),
        bold: resolve(`${name}/700Bold/${start}_700Bold.ttf`),
      };
    } catch (cause) {
      throw new CasetallyError(
        'file-unreadable',
        `The package ${name} at ${home} does not have the fonts ${start}_400Regular.ttf and ${start}_700Bold.ttf: install version 0.4 of it, or remove it.`,
        { cause },
      );
    }
  }
  return undefined;
}

function scriptCuts(
  { name, signs, own }: ScriptFont,
  { regular, bold }: Place,
  hb: typeof HarfBuzz,
  shaped: (bytes: Uint8Array, hb: typeof import('harfbuzzjs')) => Font,
): ScriptCuts {
  const open = (path: string): Font => {
    try {
      return shaped(readFileSync(path), hb);
    } catch (cause) {
      throw new CasetallyError(
        'file-unreadable',
        `The font ${path} cannot be read: install ${name} again, or remove it.`,
        { cause },
      );
    }
  };
  return {
    ...{ name, signs },
    ...(own && { own }),
    open: () => ({ regular: open(regular), bold: open(bold) }),
  };
}

async function file(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (cause) {
    throw new CasetallyError('file-unreadable', `The font ${path} cannot be read.`, { cause });
  }
}
