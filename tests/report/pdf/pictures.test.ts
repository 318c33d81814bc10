import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../../src/clinical/default-limits.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { audiences } from '../../../src/report/options.js';
import { createdAt } from '../../../src/report/pdf/created.js';
import { loadPdf } from '../../../src/report/pdf/load.js';
import { dosePanelSvg } from '../../../src/report/pictures/dose.js';
import type { StoredPicture } from '../../../src/report/pictures/stored.js';
import { type DocumentOptions, documentOf } from '../../../src/report/view/document.js';
import { halves } from '../../pipeline/pictures/files.js';
import { assessment, fullStates } from '../../support/report/assess.js';
import { caseOf, full, lacking, type PdfCase, pagesOf, poppler, tight } from './support.js';

const skipped = lacking === undefined ? '' : ` SKIPPED, ${lacking}`;
const [first] = full.record.images ?? [];
if (!first) throw new Error('the full case names no picture');

/** The full case with images of these descriptions. */
const caseWith = (...descriptions: readonly string[]): PdfCase =>
  caseOf(
    'pictures',
    {
      ...full.record,
      images: descriptions.map(description => ({ ...first, description })),
    } satisfies CaseRecord,
    record => assessment(record, fullStates),
  );

async function pictureOf(width: number, height: number): Promise<StoredPicture> {
  return { jpeg: new Uint8Array(await halves('image/jpeg', width, height)), width, height };
}

async function pdfWith(
  one: PdfCase,
  pictures: readonly StoredPicture[],
  more: Partial<DocumentOptions> = {},
): Promise<Uint8Array> {
  const maker = await loadPdf();
  const document = documentOf(one.view(), {
    audience: 'record',
    timelineSvg: one.timeline,
    doseSvg: dosePanelSvg(one.record, defaultLimits.radiation, 'en-GB'),
    pictures: new Map(pictures.map((picture, index) => [`images[${index}]`, picture])),
    ...more,
  });
  return maker.render(document, { created: createdAt(one.record) });
}

/** Page and width in pixels of each picture. */
const imagesOf = (pdf: Uint8Array): { page: number; width: number }[] =>
  [...poppler('pdfimages', ['-list'], pdf).matchAll(/^ +(\d+) +\d+ image +(\d+) /gm)].map(
    ([, page, width]) => ({
      page: Number(page),
      width: Number(width),
    }),
  );

describe.skipIf(lacking !== undefined)(`stored pictures in the PDF, read back with poppler${skipped}`, () => {
  it('stand in the full report alone, as they are, with words for who cannot see them', async () => {
    const picture = await pictureOf(300, 200);
    for (const audience of audiences) {
      const pdf = await pdfWith(caseWith('Last run'), [picture], { audience });
      expect(imagesOf(pdf)).toHaveLength(audience === 'record' ? 1 : 0);
      if (audience !== 'record') continue;
      expect(Buffer.from(pdf).includes(Buffer.from(picture.jpeg))).toBe(true);
      expect(Buffer.from(pdf).toString('latin1')).toContain('/Alt (Stored image: Last run');
      const tags = poppler('pdfinfo', ['-struct-text'], pdf);
      expect(tags).toMatch(/^ *Figure\n *Caption\n *"Last run, /m);
      poppler('pdftoppm', ['-r', '30', '-png'], pdf);
    }
  });

  it('never part from their captions, two by two, in order', async () => {
    const names = Array.from({ length: 12 }, (_, i) => `Film number ${i + 1}`);
    const shapes = names.map((_, i) => pictureOf(200 + i, [600, 90, 300, 200][i % 4] ?? 1));
    const pdf = await pdfWith(caseWith(...names), await Promise.all(shapes));
    const images = imagesOf(pdf);
    expect(images.map(image => image.width)).toEqual(names.map((_, i) => 200 + i));
    const pages = pagesOf(pdf);
    // Each name stands twice: in the table, then as the caption.
    for (const [index, { page }] of images.entries()) {
      const caption = new RegExp(`Film number ${index + 1}, `);
      expect(pages.findIndex(text => caption.test(text)) + 1, names[index]).toBe(page);
    }
    for (let i = 0; i < images.length; i += 2) expect(images[i]?.page).toBe(images[i + 1]?.page);
    expect(new Set(images.map(image => image.page)).size).toBeGreaterThan(1);
    const note = pages.findIndex(text => tight(text).includes('Reducedcopies,tolookatonly'));
    expect(note + 1).toBe(images.at(-1)?.page);
  });

  it('have a description of 10,000 characters whole in the table, and short under the picture', async () => {
    const long = 'stent '.repeat(1_667).trim();
    const pdf = await pdfWith(caseWith(long, 'Second'), [await pictureOf(64, 64), await pictureOf(64, 64)]);
    const text = pagesOf(pdf).join('');
    expect(text.match(/\bstent\b/g)?.length).toBeGreaterThanOrEqual(1_667);
    // Every word lies on its page.
    const boxes = poppler('pdftotext', ['-bbox'], pdf);
    const heights = [...boxes.matchAll(/<page width="[\d.]+" height="([\d.]+)">([\s\S]*?)<\/page>/g)];
    expect(heights.length).toBe(pagesOf(pdf).length);
    for (const [, height, words = ''] of heights)
      for (const [, bottom] of words.matchAll(/yMax="([\d.]+)"/g))
        expect(Number(bottom)).toBeLessThan(Number(height));
    expect(imagesOf(pdf)).toHaveLength(2);
  });

  it('are the same bytes each time', async () => {
    const make = async () =>
      pdfWith(caseWith('One', 'Two'), [await pictureOf(80, 60), await pictureOf(60, 80)]);
    expect(Buffer.compare(await make(), await make())).toBe(0);
  });
});

describe.skipIf(lacking !== undefined)(`the dose panel in the PDF, read back with poppler${skipped}`, () => {
  it('stands after the dose in the full report alone', async () => {
    for (const audience of audiences) {
      const pdf = await pdfWith(full, [], { audience });
      const text = tight(pagesOf(pdf).join(''));
      const at = text.indexOf(tight('Radiation dose against levels'));
      if (audience !== 'record') {
        expect(at).toBe(-1);
        continue;
      }
      expect(at).toBeGreaterThan(text.indexOf(tight('Contrast and radiation')));
      expect(text.indexOf(tight('under the levels'), at)).toBeGreaterThan(at);
      // Text with letters beyond ASCII is UTF-16 in a PDF (ISO 32000-1, 7.9.2.2).
      const alt = Buffer.from(
        'Air kerma at the reference point: 212 mGy, under the levels',
        'utf16le',
      ).swap16();
      expect(Buffer.from(pdf).includes(alt)).toBe(true);
      expect(poppler('pdfinfo', ['-struct-text'], pdf)).toMatch(
        /^ *Figure\n *Caption\n *"Radiation dose against levels/m,
      );
    }
  });

  it('is left out where no figure was recorded', async () => {
    const pdf = await pdfWith(full, [], { doseSvg: '' });
    expect(tight(pagesOf(pdf).join(''))).not.toContain(tight('Radiation dose against levels'));
  });
});
