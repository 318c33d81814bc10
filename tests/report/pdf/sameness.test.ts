import { SaxesParser } from 'saxes';
import { afterEach, describe, expect, it } from 'vitest';
import { defaultLimits } from '../../../src/clinical/default-limits.js';
import { languages } from '../../../src/findings/languages.js';
import { lexicon } from '../../../src/findings/say.js';
import { wordsOf } from '../../../src/report/check/check.js';
import { audiences } from '../../../src/report/options.js';
import { dosePanelSvg } from '../../../src/report/pictures/dose.js';
import { documentOf } from '../../../src/report/view/document.js';
import { picture } from '../../support/report/picture.js';
import { render, renderWith } from '../../support/report/reports.js';
import { allCases, full, pdfOf, tight } from './support.js';

/** All words of a page's body. */
function pageWords(page: string): string {
  const parser = new SaxesParser();
  let inBody = false;
  let text = '';
  parser.on('opentag', ({ name }) => {
    inBody ||= name === 'body';
  });
  parser.on('text', part => {
    if (inBody) text += part;
  });
  parser.write(page).close();
  return text;
}

describe('a PDF says what the HTML page says, word for word and in the same order', () => {
  const rows = allCases.flatMap(one =>
    languages.flatMap(language => audiences.map(audience => [one.name, language, audience, one] as const)),
  );
  it.each(rows)('%s, %s, %s', (_name, language, audience, one) => {
    const view = one.view(language);
    const printed = tight(wordsOf(documentOf(view, { audience })).join(''));
    expect(printed.length).toBeGreaterThan(500);
    expect(printed).toBe(tight(pageWords(render(view, audience, 'html'))));
  });
});

describe('with pictures and the dose panel', () => {
  it.each(languages)('a PDF has their captions where the page has them, %s', language => {
    const view = full.view(language);
    const options = {
      pictures: new Map([['images[0]', picture]]),
      doseSvg: dosePanelSvg(full.record, defaultLimits.radiation, language),
    };
    const { say } = lexicon(language);
    const page = renderWith(view, { audience: 'record', format: 'html', ...options });
    const printed = tight(wordsOf(documentOf(view, { audience: 'record', ...options })).join(''));
    expect(printed).toContain(tight(say('page.dose')));
    expect(printed).toContain(tight(say('picture.note')));
    // What is drawn inside the panel is not text of the page.
    expect(printed).toBe(tight(pageWords(page.replace(/<svg[\s\S]*?<\/svg>/g, ''))));
  });
});

describe('the same case gives the same bytes', () => {
  const zone = process.env['TZ'];
  afterEach(() => {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  });
  it.each(['UTC', 'America/Los_Angeles', 'Asia/Kolkata', 'Pacific/Auckland'])('in %s', async name => {
    const here = await Promise.all(audiences.map(audience => pdfOf(full, audience)));
    process.env['TZ'] = name;
    expect(new Date(2024, 0, 1).getTimezoneOffset() === 0).toBe(name === 'UTC');
    // In another order, so that nothing is carried over from one document to the next.
    for (const audience of [...audiences].reverse())
      expect(
        Buffer.compare(await pdfOf(full, audience), here[audiences.indexOf(audience)] ?? Buffer.alloc(0)),
      ).toBe(0);
  });
});
