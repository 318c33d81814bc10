import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { audiences } from '../../../src/report/options.js';
import { examplesFolder } from '../../support/examples.js';
import { lacking, pagesOf } from './support.js';

describe('sections that a site adds', () => {
  const folder = mkdtempSync(join(tmpdir(), 'casetally-more-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it.skipIf(lacking !== undefined).each(audiences)(
    'stand in the PDF of %s, before the caution',
    async audience => {
      mkdirSync(join(folder, 'templates'), { recursive: true });
      writeFileSync(
        join(folder, 'templates', `${audience}.yaml`),
        'add: [{ key: house, title: House rules, text: [Sheets are kept for a year.] }]',
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
      // The end of a page may come between.
      expect(text).toMatch(/House rules Sheets are kept for a year\. .{0,160}(?:This report|Please) /);
    },
  );
});
