import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromium } from '../../support/browser.js';
import { BEGUN, CaseDesk } from './desk.js';

/* Two people on one case, and a service that goes away and comes back. */

const desk = new CaseDesk();
beforeAll(() => desk.start());
afterAll(() => desk.end());

describe.skipIf(!chromium)('two tabs on one case', () => {
  it('see what the other enters, and each other', async () => {
    const id = await desk.begin(`${BEGUN}events:
  - { at: "08:00", do: note, note: patient on the table }
`);
    const one = await desk.open(id);
    const other = await desk.open(id);
    try {
      await one.touch('[data-device="needle"] .act');
      await other.until('in the patient', ['21 G access needle']);
      await other.touch('[data-device="wire"] .act');
      await one.until('in the patient', ['21 G access needle', '0.035 in guidewire']);
      // Both go by one clock: theirs may be wrong, that of the service counts.
      const times = (await desk.record(id)).events?.map(({ at }) => Date.parse(`${at}Z`)) ?? [];
      expect(Math.abs((times[1] ?? 0) - (times[2] ?? Number.NaN))).toBeLessThanOrEqual(120_000);
      await one.press('Undo');
      await other.until('in the patient', ['0.035 in guidewire']);
    } finally {
      await Promise.all([one.close(), other.close()]);
    }
  });

  it('choose where both set the same field, and nothing else is lost', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.press('Record');
      await page.press('Patient', '.sheet-names');
      await page.tab.until('document.querySelector("#field-patient-birthDate")', 'the field');
      await desk.halt();
      await page.type('#field-patient-birthDate', '1957-02-08', 'Tab');
      await page.tab.until('document.querySelector(".saving-away")', 'no connection');
      expect(await page.tab.value('document.querySelector(".saving").textContent')).toContain(
        'No connection. Kept on this computer',
      );
      await page.press('Devices');
      await page.touch('[data-device="needle"] .act');
      await page.until('in the patient', ['21 G access needle']);
      await desk.start();
      // Somebody else was quicker.
      let status = 0;
      while (status !== 200)
        status = await desk.edit(id, [
          { path: 'patient.birthDate', value: '1957-08-20' },
          { path: 'patient.weight', value: '68 kg' },
        ]);
      await page.tab.value('dispatchEvent(new Event("online")), 0');
      await page.tab.until('document.querySelector(".conflict, .saving-saved")', 'an answer');
      // Where ours came first, theirs was merged into it: both orders are right, the choice is shown in one.
      if (await page.tab.value<boolean>('document.querySelector(".conflict") !== null')) {
        expect(await page.tab.value('document.querySelector(".conflict").textContent')).toMatch(
          /patient\.birthDate.*1957-02-08.*1957-08-20/s,
        );
        expect((await page.tab.axe()).faults).toEqual([]);
        await page.press('Entered here', '.conflict');
        await page.press('Use what is chosen', '.conflict');
      }
      await page.saved();
      const record = await desk.record(id);
      expect(record['patient']).toMatchObject({ weight: '68 kg' });
      expect(record.events).toMatchObject([{ do: 'puncture', device: 'needle' }]);
    } finally {
      await page.close();
    }
  });
});

describe.skipIf(!chromium)('a service that ends and begins again', () => {
  it('takes everything that was entered meanwhile, once', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await desk.halt();
      await page.touch('[data-device="needle"] .act');
      await page.until('in the patient', ['21 G access needle']);
      await page.tab.until('document.querySelector(".saving-away")', 'no connection');
      await page.touch('[data-device="wire"] .act');
      await page.until('in the patient', ['21 G access needle', '0.035 in guidewire']);
      await desk.start();
      await page.press('Try again');
      await page.saved();
      const { events } = await desk.record(id);
      expect(events?.map(one => [one['do'], one['device']])).toEqual([
        ['puncture', 'needle'],
        ['insert', 'wire'],
      ]);
    } finally {
      await page.close();
    }
  });

  it('says what stands in the way of opening a case', async () => {
    const page = await desk.open(await desk.begin(BEGUN));
    try {
      await page.tab.value(`location.hash = '00000000-0000-4000-8000-000000000000'`);
      await page.tab.until('document.querySelector(".not [role=alert]")', 'a reason');
      expect(await page.tab.value('document.querySelector(".not").textContent')).toContain('no such case');
      const id = await desk.begin(BEGUN);
      const { version } = await desk.draft(id);
      await fetch(`${desk.url}/v1/drafts/${id}/discard`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', 'if-match': `"${version}"` },
        body: JSON.stringify({ by: 'Dr Okonjo', why: 'another patient' }),
      });
      await page.tab.value(`location.hash = '${id}'`);
      await page.tab.until(
        'document.querySelector(".saving")?.textContent.includes("can only be read")',
        'closed',
      );
      expect(await page.tab.value('document.querySelectorAll(".act, .lines, .adding").length')).toBe(0);
    } finally {
      await page.close();
    }
  });
});
