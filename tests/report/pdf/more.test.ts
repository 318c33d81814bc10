import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { audiences } from '../../../src/report/options.js';
import { moreItems } from '../../../src/report/pdf/more.js';
import { examplesFolder } from '../../support/examples.js';
import { lacking, pagesOf } from './support.js';

describe('sections that a site adds', () => {
  it('are headings where a rule stands under a line, and paragraphs between blank lines', () => {
    expect(moreItems('\n\nHouse rules\n-----------\nOne.\nTwo.\n\n\nThree.\n')).toEqual([
      { kind: 'heading', text: 'House rules' },
      { kind: 'text', lines: ['One.', 'Two.'], look: 'plain' },
      { kind: 'text', lines: ['Three.'], look: 'plain' },
    ]);
    expect(moreItems(' \n\n')).toEqual([]);
  });

  const folder = mkdtempSync(join(tmpdir(), 'casetally-more-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it.skipIf(lacking !== undefined).each(audiences)(
    'stand in the PDF of %s, before the caution',
    async audience => {
      mkdirSync(join(folder, 'templates', audience, 'more'), { recursive: true });
      writeFileSync(
        join(folder, 'templates', audience, 'more', 'text.hbs'),
        '\n{{heading "House rules"}}\n{{para "Sheets are kept for a year."}}\n',
      );
      const site = readFileSync(join(examplesFolder, 'site.yaml'), 'utf8');
      writeFileSync(
        join(folder, 'site.yaml'),
        site.replace('\ncasetallySite', '\nreport: { templates: templates }\ncasetallySite'),
      );
      const pdf = join(folder, `${audience}.pdf`);
      const quiet = { out: () => {}, err: () => {}, color: false };
      const example = join(examplesFolder, 'liver-biopsy.yaml');
      const asked = [
        '--audience',
        audience,
        '--format',
        'pdf',
        '--site',
        join(folder, 'site.yaml'),
        '--out',
        pdf,
      ];
      expect(await run(['report', example, ...asked], quiet)).toBe(0);
      const text = pagesOf(readFileSync(pdf)).join(' ').replace(/\s+/g, ' ');
      expect(text).toMatch(/House rules Sheets are kept for a year\. (?:This|Please) /);
    },
  );
});
