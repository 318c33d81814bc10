/**
 * `npm run look -- [case] [--language de] [--audience ward]`: draws every example and four hard cases as people see them,
 * PDF by page and HTML at three widths and in the dark, into `out/look`, with a contact sheet for each case.
 * Needs Chromium and poppler (pdftoppm).
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { languages } from '../src/findings/languages.js';
import { checkCase } from '../src/pipeline/check.js';
import { prepareCase } from '../src/pipeline/prepare.js';
import { loadTools } from '../src/pipeline/tools.js';
import { audiences } from '../src/report/options.js';
import { loadPdf } from '../src/report/pdf/load.js';
import { unconfiguredSite } from '../src/site/site.js';
import { chromium, openTab, type Tab } from '../tests/support/browser.js';
import { lookCases } from './look-cases.js';
import { contactSheet } from './look-sheet.js';

const { values: flags, positionals } = parseArgs({
  allowPositionals: true,
  options: { language: { type: 'string', default: 'en-GB' }, audience: { type: 'string' } },
});
const language = languages.find(one => one === flags.language);
if (!language) throw new Error(`--language is one of ${languages.join(', ')}`);
if (chromium === undefined) throw new Error('Chromium is not installed');

const out = join(import.meta.dirname, '..', 'out', 'look', language);
const widths = [320, 390, 820] as const;
const tools = { ...loadTools('0.0.0'), pdf: await loadPdf() };
const cases = lookCases().filter(
  ({ name }) => positionals.length === 0 || positionals.some(p => name.includes(p)),
);
const tab = await openTab();
for (const { name, record: data } of cases) {
  const folder = join(out, name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const site = { ...unconfiguredSite, language };
  const { record, assessment } = checkCase(JSON.stringify(data), site);
  if (!record || !assessment) throw new Error(`${name} is not whole`);
  const { reports } = prepareCase(record, assessment, site, tools);
  for (const audience of audiences) {
    const report = reports[audience];
    if (!report || (flags.audience !== undefined && flags.audience !== audience)) continue;
    const path = join(folder, audience);
    writeFileSync(`${path}.txt`, report.text);
    writeFileSync(`${path}.html`, report.html);
    writeFileSync(`${path}.pdf`, report.pdf ?? '');
    execFileSync('pdftoppm', ['-r', '60', '-png', `${path}.pdf`, `${path}-page`]);
    await shots(tab, path);
  }
  const pictures = readdirSync(folder)
    .filter(file => file.endsWith('.png'))
    .sort();
  await contactSheet(
    pictures.map(file => join(folder, file)),
    join(out, `${name}.png`),
  );
  console.log(`${name}: ${pictures.length} pictures`);
}
await tab.close();

/** The page at each width, and in the dark; what scrolls sideways is said. */
async function shots(page: Tab, path: string): Promise<void> {
  await page.go(pathToFileURL(`${path}.html`).href);
  for (const width of widths) {
    await page.size(width, 900);
    const over = await page.value<number>('document.documentElement.scrollWidth - innerWidth');
    if (over > 0) console.log(`${path}.html scrolls sideways by ${over} px at ${width}`);
    writeFileSync(`${path}-web-${width}.png`, await page.picture());
  }
  await page.dark(true);
  writeFileSync(`${path}-web-dark.png`, await page.picture());
  await page.dark(false);
}
