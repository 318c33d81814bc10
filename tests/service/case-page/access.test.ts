import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromium, openTab, type Tab } from '../../support/browser.js';
import { exampleText } from '../../support/examples.js';
import { BEGUN, CaseDesk } from './desk.js';
import { faultsOf } from './looks.js';

/* For everybody: keys alone, screen readers, dark rooms, three widths, gloves. */

const desk = new CaseDesk();
let tab: Tab;
beforeAll(async () => {
  await desk.start();
  if (chromium) tab = await openTab();
});
afterAll(async () => {
  await tab?.close();
  await desk.end();
});

describe.skipIf(!chromium)('every state of the page', () => {
  it('of an empty case', async () => {
    const page = await desk.open(await desk.begin('casetally: 1\n'), { given: tab });
    expect(await faultsOf(page.tab)).toEqual([]);
  });

  it('in the middle of a case, with a row open, a proposal and a question of the scanner', async () => {
    const text = exampleText('cut-locking-drain.yaml');
    const page = await desk.open(await desk.begin(text), { given: tab });
    await page.touch('.tray-in-the-patient .row-open, .tray-out .row-open');
    await page.type('#line', '23:10 flushed the drain with 10 mL of saline', 'Enter');
    await page.tab.until('document.querySelector(".proposed")', 'a proposal');
    await page.tab.value(`document.activeElement.blur(), [...'(01)09506000117850(17)291231(21)S-77', 'Enter'].forEach(key =>
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }))), 0`);
    await page.tab.until('document.querySelector(".scanned")', 'a question');
    expect(await faultsOf(page.tab)).toEqual([]);
  });

  it('on every sheet', async () => {
    const page = await desk.open(await desk.begin(exampleText('biliary-drainage-and-stent.yaml')), {
      given: tab,
    });
    await page.press('Record', '.views');
    await page.tab.until('document.querySelectorAll(".sheet-names button").length > 10', 'sheets');
    const count = await page.tab.value<number>('document.querySelectorAll(".sheet-names button").length');
    await page.tab.size(390, 844);
    for (let n = 1; n <= count; n += 1) {
      await page.touch(`.sheet-names button:nth-child(${n})`);
      await page.tab.until('document.querySelector(".sheet")', 'a sheet');
      await page.tab.value('document.querySelectorAll("details").forEach(one => { one.open = true; }), 0');
      await page.tab.value('document.querySelector(".sheet .entry .row-open")?.click(), 0');
      expect((await page.tab.axe()).faults).toEqual([]);
      const wide = await page.tab.value(
        `[...document.querySelectorAll('main *')].filter(one => one.getBoundingClientRect().right > innerWidth + 1)
          .map(one => one.outerHTML.slice(0, 100))`,
      );
      expect(wide).toEqual([]);
    }
    expect(await faultsOf(page.tab)).toEqual([]);
  });

  it('with findings, and as text', async () => {
    const page = await desk.open(await desk.begin(exampleText('mistaken.yaml')), { given: tab });
    await page.press('Check', '.views');
    await page.tab.until('document.querySelectorAll(".findings li").length > 3', 'findings');
    expect(await faultsOf(page.tab)).toEqual([]);
    await page.press('Text', '.views');
    expect(await faultsOf(page.tab)).toEqual([]);
  });
});

describe.skipIf(!chromium)('keys alone', () => {
  it('write an event, take it back, and reach every part', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id, { given: tab });
    const to = async (test: string, what: string) => {
      for (let n = 0; n < 80; n += 1) {
        if (await page.tab.value<boolean>(`Boolean((one => ${test})(document.activeElement))`)) return;
        await page.tab.press('Tab');
      }
      throw new Error(`the keys never came to ${what}`);
    };
    await to('one.closest("[data-device=needle]") && one.className === "act"', 'the usual act');
    await page.tab.press('Enter');
    await page.until('in the patient', ['21 G access needle']);
    await page.tab.value('document.activeElement.blur(), 0');
    await to('one.textContent === "Undo"', 'undo');
    await page.tab.press(' ');
    await page.until('in the patient', []);
    await to('one.closest("[data-device=wire]") && one.className === "row-open"', 'a row');
    await page.tab.press('Enter');
    await to('one.dataset.do === "insert" && one.closest(".row-more")', 'an offer');
    await page.tab.press('Enter');
    await to('one.className === "main"', 'what writes it');
    await page.tab.press('Enter');
    await page.until('in the patient', ['0.035 in guidewire']);
    await to('one.id === "line"', 'the line');
    await page.saved();
    expect((await desk.record(id)).events).toMatchObject([{ do: 'insert', device: 'wire' }]);
  });
});
