import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromium } from '../../support/browser.js';
import { BEGUN, CaseDesk, type Page } from './desk.js';

/* A scanner that types, as one hangs on a tablet: fast keys with Enter at the end, outside of a field. */

const desk = new CaseDesk();
beforeAll(() => desk.start());
afterAll(() => desk.end());

const said = (page: Page, text: string) =>
  page.tab.until(
    `document.querySelector('.scanned [role="status"]')?.textContent.includes(${JSON.stringify(text)})`,
    text,
  );

// GS1 General Specifications: (01) identifier, (10) lot, (17) expiry, (21) serial number; check digits worked out by hand.
const WIRE = '(01)09506000117843(17)291231(10)1234AB';
const STENT = '(01)09506000117850(17)291231(21)S-77';

describe.skipIf(!chromium)('a scanned label', () => {
  it('goes to the one device of its kind that has none, and asks when it comes again', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.scan(WIRE);
      await said(page, 'What is it?');
      await page.type('#what-is-it', 'guidew');
      await page.press('guidewire', '.scanned');
      await said(page, 'On the table now: 0.035 in guidewire');
      await page.saved();
      expect((await desk.record(id)).devices?.['wire']).toMatchObject({ label: WIRE });
      await page.scan(WIRE);
      await said(page, 'One more of the same');
      await page.press('One more', '.scanned');
      await said(page, 'One more of:');
      await page.saved();
      expect((await desk.record(id)).devices?.['wire']).toMatchObject({ label: WIRE, count: 2 });
      await page.scan(WIRE);
      await said(page, 'One more of the same');
      await page.press('The same one', '.scanned');
      await said(page, 'Not counted again');
      await page.saved();
      const record = await desk.record(id);
      expect(record.devices?.['wire']).toMatchObject({ count: 2 });
      expect(Object.keys(record.devices ?? {})).toHaveLength(4);
      expect(JSON.stringify(record['sources'])).toContain('"scan"');
    } finally {
      await page.close();
    }
  });

  it('that the catalogue of the site knows is on the table at once; while the service is away the page asks', async () => {
    const id = await desk.begin('casetally: 1\n');
    const page = await desk.open(id);
    try {
      await page.scan('(01)09506000117867(10)A1');
      await said(page, 'On the table: guidewire');
      await page.saved();
      expect((await desk.record(id)).devices).toEqual({
        guidewire: {
          ...{ kind: 'guidewire', description: 'hydrophilic, angled tip' },
          label: '(01)09506000117867(10)A1',
        },
      });
      await desk.halt();
      await page.scan('(01)09506000117874(10)A1');
      await said(page, 'What is it?');
      await desk.start();
    } finally {
      await page.close();
    }
  });

  it('with a serial number is one device, whoever scanned it first', async () => {
    const id = await desk.begin(`${BEGUN}  stent: { kind: stent, label: "${STENT}" }\n`);
    const page = await desk.open(id);
    try {
      await page.scan(STENT);
      await said(page, 'One serial number is one device');
      await page.press('Close', '.scanned');
      expect(await page.tab.value('document.querySelector(".scanned")')).toBe(null);
      expect(Object.keys((await desk.record(id)).devices ?? {})).toHaveLength(5);
    } finally {
      await page.close();
    }
  });

  it('of two symbols becomes one device, in whichever order they come', async () => {
    const id = await desk.begin('casetally: 1\n');
    const page = await desk.open(id);
    try {
      await page.scan('(17)291231(10)LOT9');
      await said(page, 'Now scan the other label');
      await page.scan('(01)09506000117843');
      await said(page, 'What is it?');
      await page.type('#what-is-it', 'microcath');
      await page.press('microcatheter', '.scanned');
      await page.until('on the table', ['microcatheter']);
      await page.saved();
      const [device] = Object.values((await desk.record(id)).devices ?? {});
      expect(device).toMatchObject({ kind: 'microcatheter', label: '(01)09506000117843(17)291231(10)LOT9' });
    } finally {
      await page.close();
    }
  });

  it('does not press the button that has the focus', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.tab.value('document.querySelector(\'[data-device="needle"] .act\').focus(), 0');
      // As the browser does it: a key that nobody holds back presses the button.
      await page.tab.value(`for (const key of [...'nonsense label', 'Enter']) {
        const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
        if (document.activeElement.dispatchEvent(event) && key === 'Enter') document.activeElement.click();
      } 0`);
      await said(page, 'This label cannot be read');
      expect(await page.tray('in the patient')).toEqual([]);
    } finally {
      await page.close();
    }
  });

  it('in a field is one too, and what was typed there stays; what is no label is left to the field', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    /** As the browser does it: a key that nobody holds back is typed. */
    const scanInto = (text: string) =>
      page.tab.value(`for (const key of [...${JSON.stringify(text)}, 'Enter']) {
        const field = document.activeElement;
        const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
        if (!field.dispatchEvent(event) || key.length > 1) continue;
        field.setRangeText(key, field.selectionEnd, field.selectionEnd, 'end');
        field.dispatchEvent(new InputEvent('input', { bubbles: true }));
      } 0`);
    try {
      await page.press('Record', '.views');
      await page.press('Add: Access', '.sheet');
      // What is added waits to be told.
      const site = '[data-path="access[0].site"] input';
      await page.tab.until(`document.activeElement === document.querySelector('${site}')`, 'the focus');
      await page.tab.paste('Right flank');
      await scanInto(STENT);
      await said(page, 'What is it?');
      expect(await page.tab.value(`document.querySelector('${site}').value`)).toBe('Right flank');
      await scanInto(' above the crest');
      await page.saved();
      expect((await desk.record(id))['access']).toEqual([
        { key: 'access', site: 'Right flank above the crest' },
      ]);
    } finally {
      await page.close();
    }
  });
});

describe.skipIf(!chromium)('a device without a label', () => {
  it('is found by what is typed, or taken as it is typed', async () => {
    const id = await desk.begin('casetally: 1\n');
    const page = await desk.open(id, { language: 'de' });
    try {
      await page.press('Nach Namen');
      await page.type('#add-device', 'führungsd');
      await page.press('Führungsdraht', '.add-device');
      await page.until('on the table', ['Führungsdraht']);
      await page.type('#add-device', 'trousse maison', 'Enter');
      await page.tab.until(
        'document.querySelectorAll(".tray-on-the-table .row").length === 2',
        'two devices',
      );
      await page.saved();
      expect((await desk.record(id)).devices).toEqual({
        guidewire: { kind: 'guidewire' },
        'trousse-maison': { kind: 'trousse maison' },
      });
    } finally {
      await page.close();
    }
  });

  it('comes from a kit of the site, of which nothing else is asserted', async () => {
    const id = await desk.begin('casetally: 1\ncase: { kind: biopsy }\n');
    const page = await desk.open(id);
    try {
      await page.press('Add a kit');
      await page.press('Biopsy', '.adding');
      await page.tab.until('document.querySelectorAll(".tray-on-the-table .row").length > 2', 'the kit');
      await page.saved();
      const record = await desk.record(id);
      expect(Object.keys(record.devices ?? {})).toEqual(['coaxial', 'biopsy', 'plug']);
      expect((await desk.draft(id)).text).not.toContain('\r');
      expect([record.events, record['drugs'], record['aftercare']]).toEqual([
        undefined,
        undefined,
        undefined,
      ]);
    } finally {
      await page.close();
    }
  });
});
