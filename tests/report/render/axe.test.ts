import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../../src/clinical/default-limits.js';
import { audiences } from '../../../src/report/options.js';
import { dosePanelSvg } from '../../../src/report/pictures/dose.js';
import { fullStates, read } from '../../support/report/assess.js';
import { bareCase, fullCase } from '../../support/report/cases.js';
import { picture } from '../../support/report/picture.js';
import { render, renderWith, viewOf } from '../../support/report/reports.js';

/** Rules of WCAG 2.2 A and AA by axe-core, in Chromium. Skipped, and said so, where there is no Chromium. */
const chromium = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
  existsSync,
);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly impact: string;
  readonly nodes: readonly { readonly html: string }[];
}
interface Outcome {
  readonly violations: readonly Violation[];
  readonly passes: readonly { readonly id: string }[];
}

function check(page: string, name: string): Outcome {
  const folder = mkdtempSync(join(tmpdir(), 'casetally-axe-'));
  const run = `axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(r => {
    document.body.innerHTML = '<pre id="axe-result"></pre>';
    document.getElementById('axe-result').textContent = 'RESULT' + JSON.stringify({ violations: r.violations, passes: r.passes.map(p => ({ id: p.id })) }) + 'END';
  });`;
  // The page forbids scripts; the checker is one, so it comes with that line taken out.
  const tested = page
    .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '')
    .replace('</body>', () => `<script>${axe}</script><script>${run}</script></body>`);
  try {
    const file = join(folder, `${name}.html`);
    writeFileSync(file, tested);
    const dom = execFileSync(
      chromium ?? '',
      [
        '--headless',
        '--no-sandbox',
        '--disable-gpu',
        `--user-data-dir=${folder}/profile`,
        '--virtual-time-budget=20000',
        '--dump-dom',
        `file://${file}`,
      ],
      { encoding: 'utf8', maxBuffer: 50_000_000, stdio: ['ignore', 'pipe', 'ignore'], timeout: 60_000 },
    );
    const json = /RESULT(.*)END<\/pre>/s.exec(dom)?.[1];
    if (json === undefined) throw new Error('axe gave no result');
    const outcome: Outcome = JSON.parse(
      json
        .replace(/&lt;/g, '<')
        .replace(/&gt;/g, '>')
        .replace(/&nbsp;/g, ' ')
        .replace(/&amp;/g, '&'),
    );
    return outcome;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const faults = (outcome: Outcome) =>
  outcome.violations.map(v => `${v.id} (${v.impact}): ${v.nodes[0]?.html}`);

describe.skipIf(chromium === undefined)('WCAG 2.2 AA by axe-core', () => {
  it('finds a planted fault', () => {
    const page = render(viewOf(bareCase), 'referrer', 'html').replace('--soft: #4b545b', '--soft: #cccccc');
    expect(faults(check(page, 'planted')).join()).toContain('color-contrast');
  });

  it.each(audiences)('%s', audience => {
    const outcome = check(render(viewOf(fullCase, fullStates), audience, 'html'), audience);
    expect(faults(outcome)).toEqual([]);
    expect(outcome.passes.map(p => p.id)).toEqual(
      expect.arrayContaining(['color-contrast', 'document-title', 'html-has-lang']),
    );
  });

  it('the full report with pictures', () => {
    const page = renderWith(viewOf(fullCase, fullStates), {
      audience: 'record',
      format: 'html',
      pictures: new Map([['images[0]', picture]]),
      doseSvg: dosePanelSvg(read(fullCase), defaultLimits.radiation, 'en-GB'),
    });
    const outcome = check(page, 'pictures');
    expect(faults(outcome)).toEqual([]);
    expect(outcome.passes.map(p => p.id)).toContain('image-alt');
    expect(faults(check(page.replace(/ alt="[^"]*"/, ''), 'no-alt')).join()).toContain('image-alt');
  });
});
