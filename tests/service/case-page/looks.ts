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
    faults.push(
      ...[...found, ...small, ...(wide ? ['runs off the page'] : [])].map(one => `${where}: ${one}`),
    );
  }
  await tab.dark(false);
  await tab.size(820, 1180);
  return faults;
}
