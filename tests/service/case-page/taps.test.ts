import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromium } from '../../support/browser.js';
import { BEGUN, CaseDesk } from './desk.js';

/* The case page as somebody beside the table uses it, worked by mouse in Chromium. */

const desk = new CaseDesk();
beforeAll(() => desk.start());
afterAll(() => desk.end());

const TIME = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;

describe.skipIf(!chromium)('a touch', () => {
  it('writes the usual event at once, with the time of now, and can be taken back', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.touch('[data-device="needle"] .act');
      await page.until('in the patient', ['21 G access needle']);
      await page.touch('[data-device="wire"] .act');
      await page.until('in the patient', ['21 G access needle', '0.035 in guidewire']);
      // The wire and what it runs through both say so.
      expect(await page.tab.value('document.querySelector(".tray-in-the-patient").textContent')).toMatch(
        /On it: 0\.035 in guidewire.*through 21 G access needle/s,
      );
      await page.touch('.tray-in-the-patient [data-device="needle"] .act');
      await page.until('out', ['21 G access needle']);
      await page.saved();
      const before = await desk.record(id);
      expect(before.events?.map(({ at: _, ...rest }) => rest)).toEqual([
        { do: 'puncture', device: 'needle' },
        { do: 'insert', device: 'wire', through: 'needle' },
        { do: 'remove', device: 'needle', over: 'wire' },
      ]);
      // The case is of another day: times alone would be read as of that day.
      for (const { at } of before.events ?? []) {
        expect(at).toMatch(TIME);
        const there = new Date(`${at}:00+03:00`).getTime();
        expect(Math.abs(Date.now() - there)).toBeLessThan(180_000);
      }
      expect(
        await page.tab.value('[...document.querySelectorAll(".events .said")].map(e => e.textContent)'),
      ).toEqual([
        'Punctured with 21 G access needle',
        'Inserted 0.035 in guidewire through 21 G access needle',
        'Removed 21 G access needle over 0.035 in guidewire',
      ]);
      await page.press('Undo');
      await page.until('out', []);
      await page.press('Redo');
      await page.until('out', ['21 G access needle']);
      await page.saved();
      expect((await desk.draft(id)).text).toContain('do: remove');
      expect(page.tab.complaints()).toEqual([]);
    } finally {
      await page.close();
    }
  });

  it('shows the rest where something cannot be read, says what, and leads to it', async () => {
    const id = await desk.begin(`${BEGUN}  cobra: { kind: angiographic catheter, size: 5 furlongs }\n`);
    const page = await desk.open(id);
    try {
      await page.until('on the table', [
        ...['21 G access needle', '0.035 in guidewire', '7 Fr introducer sheath', 'coil × 4'],
        'angiographic catheter',
      ]);
      const said = () => page.tab.value<string>('document.querySelector(".unread").textContent');
      expect(await said()).toMatch(/^Shown without what cannot be read:.*furlongs/);
      await page.press('Go to devices.cobra.size', '.unread');
      await page.tab.until('document.activeElement?.value === "5 furlongs"', 'its field has the focus');
    } finally {
      await page.close();
    }
  });

  it('says what comes out together with it', async () => {
    const id = await desk.begin(`${BEGUN}  cobra: { kind: angiographic catheter, size: 5 Fr }
events:
  - { at: "09:00", do: insert, device: wire }
  - { at: "09:01", do: insert, device: cobra, over: wire }
`);
    const page = await desk.open(id);
    try {
      await page.touch('[data-device="cobra"] .row-open');
      await page.press('Remove', '[data-device="cobra"]');
      // It takes no room until it is asked for, and is never chosen beforehand.
      await page.touch('[data-device="cobra"] .together summary');
      expect(await page.tab.value('document.querySelector("[data-with=wire]").ariaPressed')).toBe('false');
      await page.touch('[data-with="wire"]');
      await page.press('Record: Remove', '[data-device="cobra"]');
      await page.until('out', ['0.035 in guidewire', '5 Fr angiographic catheter']);
      await page.saved();
      const last = (await desk.record(id)).events?.at(-1);
      expect({ ...last, at: '' }).toEqual({ at: '', do: 'remove', device: 'cobra', with: ['wire'] });
      expect(await page.tab.value('[...document.querySelectorAll(".events .said")].at(-1).textContent')).toBe(
        'Removed 5 Fr angiographic catheter together with 0.035 in guidewire',
      );
      expect(page.tab.complaints()).toEqual([]);
    } finally {
      await page.close();
    }
  });

  it('asks where there is a choice, how many where there are several, and what else may be said', async () => {
    const id = await desk.begin(`${BEGUN}  two: { kind: guidewire, diameter: 0.018 in }
  cobra: { kind: angiographic catheter, size: 5 Fr }
events:
  - { at: "09:00", do: insert, device: wire }
  - { at: "09:01", do: insert, device: two }
`);
    const page = await desk.open(id);
    try {
      await page.touch('[data-device="cobra"] .row-open');
      await page.press('Insert', '[data-device="cobra"]');
      // The one that moved last is chosen; the other can be.
      const over = '[data-device="cobra"] .offer-form fieldset [aria-pressed="true"]';
      expect(await page.tab.value(`document.querySelector('${over}').textContent`)).toBe(
        '0.018 in guidewire',
      );
      await page.press('0.035 in guidewire', '[data-device="cobra"] .offer-form');
      await page.type('#offer-into', 'left hepatic duct', 'Tab');
      await page.press('Record: Insert', '[data-device="cobra"]');
      await page.tab.until(
        'document.querySelector(".tray-in-the-patient [data-device=cobra]")',
        'it is inside',
      );
      await page.touch('[data-device="coils"] .row-open');
      await page.press('Deploy', '[data-device="coils"]');
      await page.touch('[data-device="coils"] [aria-label="One more"]');
      await page.touch('[data-device="coils"] [aria-label="One more"]');
      await page.press('Record: Deploy', '[data-device="coils"]');
      await page.until('on the table', ['21 G access needle', '7 Fr introducer sheath', 'coil']);
      await page.saved();
      const { events = [] } = await desk.record(id);
      expect(events.slice(2).map(({ at: _, ...rest }) => rest)).toEqual([
        { do: 'insert', device: 'cobra', over: 'wire', into: 'left hepatic duct' },
        { do: 'deploy', device: 'coils', through: 'cobra', count: 3 },
      ]);
    } finally {
      await page.close();
    }
  });

  it('records at once what says all by itself', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.touch('[data-device="sheath"] .row-open');
      await page.press('Discard', '[data-device="sheath"]');
      await page.tab.until(
        '!document.querySelector(".row-more") && document.querySelector(".events li")',
        'it is recorded, and the row is closed',
      );
      await page.saved();
      const { events = [] } = await desk.record(id);
      expect(events.map(({ at: _, ...rest }) => rest)).toEqual([{ do: 'discard', device: 'sheath' }]);
    } finally {
      await page.close();
    }
  });

  it('says that something was never opened, changes the time of an event, and takes one out', async () => {
    const id = await desk.begin(`${BEGUN}events:
  - { at: "09:00", do: insert, device: wire } # as the nurse said
  - { at: "09:01", do: puncture, device: needle }
`);
    const page = await desk.open(id);
    try {
      await page.touch('[data-device="sheath"] .row-open');
      await page.press('Was there, not opened', '[data-device="sheath"]');
      await page.touch('.events li:first-child .row-open');
      await page.type('#event-0-at', '08:57', 'Enter');
      await page.tab.until('document.querySelector(".events time").textContent === "08:57"', 'the new time');
      await page.press('Remove', '.events li:first-child');
      await page.until('in the patient', ['21 G access needle']);
      await page.press('Undo');
      await page.until('in the patient', ['21 G access needle', '0.035 in guidewire']);
      await page.saved();
      const { text } = await desk.draft(id);
      expect(text).toContain('{ at: "08:57", do: insert, device: wire } # as the nurse said');
      expect((await desk.record(id)).devices?.['sheath']).toMatchObject({ use: 'unopened' });
    } finally {
      await page.close();
    }
  });

  it('does nothing a moment after rows have moved, so that a finger hits what it aimed at', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      // Touched twice, as a gloved hand does: the second touch is on the row that came up.
      await page.tab.click('.tray-on-the-table .row:first-child .act');
      await page.tab.until('document.documentElement.hasAttribute("data-settling")', 'rows moved');
      await page.tab.click('.tray-on-the-table .row:first-child .act');
      await page.until('in the patient', ['21 G access needle']);
      await page.saved();
      expect((await desk.record(id)).events?.map(one => one['device'])).toEqual(['needle']);
      // What others do does not move rows while a finger is down.
      await page.tab.until('!document.documentElement.hasAttribute("data-settling")', 'standing still');
      await page.tab.value('dispatchEvent(new PointerEvent("pointerdown")), 0');
      await desk.edit(id, [{ path: 'devices.wire', remove: true }]);
      await page.tab.until(`document.querySelectorAll('[data-device="wire"]').length === 1`, 'still there');
      await new Promise(resolve => setTimeout(resolve, 1_500));
      expect(await page.tray('on the table')).toContain('0.035 in guidewire');
      await page.tab.value('dispatchEvent(new PointerEvent("pointerup")), 0');
      await page.until('on the table', ['7 Fr introducer sheath', 'coil × 4']);
    } finally {
      await page.close();
    }
  });
});
