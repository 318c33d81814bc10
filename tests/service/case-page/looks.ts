import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { Tab } from '../../support/browser.js';
import { sampled } from '../../support/sampled.js';

const SIZES: readonly (readonly [width: number, height: number])[] = [
  [390, 844],
  [820, 1180],
  [1280, 800],
];
const looks = sampled(
  'looks at the case page',
  SIZES.flatMap(size => [false, true].map(dark => ({ size, dark }))),
  3,
);

/** Where to put a picture of each state that is looked at, for a person to look at too. */
const pictures = process.env['CASETALLY_LOOK'];
let taken = 0;

async function picture(tab: Tab, where: string): Promise<void> {
  if (pictures === undefined) return;
  mkdirSync(pictures, { recursive: true });
  taken += 1;
  const test = (expect.getState().currentTestName ?? 'page').split(' > ').at(-1) ?? '';
  const name = `${test} ${taken} ${where}`.replace(/\W+/g, '-').slice(0, 120);
  writeFileSync(join(pictures, `${name}.png`), await tab.picture());
}

/** Faults by axe-core in light and dark at three widths, what is too small to touch, and what runs off the page. */
export async function faultsOf(tab: Tab): Promise<readonly string[]> {
  const faults: string[] = [];
  for (const { size, dark } of looks) {
    await tab.size(...size);
    await tab.dark(dark);
    const { faults: found } = await tab.axe();
    // 48 px: for gloves and one hand, twice what WCAG 2.2 asks (2.5.8: 24 px).
    const small = await tab.value<string[]>(
      `[...document.querySelectorAll('button, summary, input, textarea, select, a')]
        .filter(one => one.getClientRects().length > 0)
        .filter(one => { const { width, height } = one.getBoundingClientRect(); return width < 48 || height < 48; })
        .map(one => 'smaller than 48 px: ' + one.outerHTML.slice(0, 80))`,
    );
    const wide = await tab.value<boolean>('document.documentElement.scrollWidth > innerWidth');
    const where = `${size[0]} ${dark ? 'dark' : 'light'}`;
    await picture(tab, where);
    faults.push(
      ...[...found, ...small, ...(wide ? ['runs off the page'] : [])].map(one => `${where}: ${one}`),
    );
  }
  await tab.dark(false);
  await tab.size(820, 1180);
  return faults;
}
