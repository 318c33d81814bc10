import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromium } from '../../support/browser.js';
import { BEGUN, CaseDesk, type Page } from './desk.js';

/* The page itself is opened while the service is away: a tablet that was restarted, a tab that was closed. */

const desk = new CaseDesk();
beforeAll(() => desk.start());
afterAll(() => desk.end());

/** The browser has the files of the page, and asks for them through what keeps them. */
const kept = async ({ tab }: Page) => {
  await tab.until('navigator.serviceWorker?.controller', 'the files to be kept');
  await tab.until(
    `caches.open('casetally-page').then(cache => cache.keys()).then(keys => keys.length > 4)`,
    'the files of the page',
  );
};

/** Loads the page anew. */
const again = async ({ tab }: Page) => {
  await tab.value('globalThis.former = true, setTimeout(() => location.reload(), 0), 0');
  await tab.until('!globalThis.former && document.readyState === "complete"', 'the page');
};

describe.skipIf(!chromium)('the case page while the service is away', () => {
  it('opens with what was not saved, goes on, and brings it all in once the service is back', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id, { language: 'de' });
    try {
      await kept(page);
      await desk.halt();
      await page.touch('[data-device="needle"] .act');
      await page.tab.until('document.querySelector(".saving-away")', 'no connection');
      await again(page);
      await page.tab.until(
        `document.querySelector('.tray-in-the-patient [data-device="needle"]')`,
        'the needle',
      );
      expect(await page.tab.value('document.documentElement.lang')).toBe('de');
      await page.touch('[data-device="wire"] .act');
      await page.tab.until(`document.querySelector('.tray-in-the-patient [data-device="wire"]')`, 'the wire');
      await desk.start();
      await page.tab.value('dispatchEvent(new Event("online")), 0');
      await page.saved();
      const { events } = await desk.record(id);
      expect(events?.map(one => [one['do'], one['device']])).toEqual([
        ['puncture', 'needle'],
        ['insert', 'wire'],
      ]);
      expect(
        await page.tab.value(`caches.open('casetally-page')
          .then(async cache => Promise.all((await cache.keys()).map(async key => (await cache.match(key)).text())))
          .then(texts => texts.join().match(/HB-0193|Quintanar|Nurse Aho/g))`),
      ).toBe(null);
    } finally {
      await page.close();
    }
  });

  it('says that it is away where nothing of the case is here, and opens it once it is back', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await kept(page);
      await page.saved();
      await desk.halt();
      await again(page);
      await page.tab.until('document.querySelector(".not [role=alert]")', 'a reason');
      expect(await page.tab.value('document.querySelector(".not [role=alert]").textContent')).toContain(
        'does not answer',
      );
      await desk.start();
      await page.press('Try again');
      await page.tab.until(
        `document.querySelector('.tray-on-the-table [data-device="needle"]')`,
        'the needle',
      );
    } finally {
      await page.close();
    }
  });
});
