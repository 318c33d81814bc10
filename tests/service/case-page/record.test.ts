import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bytesOf } from '../../intake/dose/objects.js';
import { chromium } from '../../support/browser.js';
import { exampleText } from '../../support/examples.js';
import { BEGUN, CaseDesk } from './desk.js';

/* What the record says beside the devices: sheets, lines, findings, the text itself. */

const desk = new CaseDesk();
beforeAll(() => desk.start());
afterAll(() => desk.end());

describe.skipIf(!chromium)('a sheet', () => {
  it('writes each field at its place: text, words, none, suggestions, entries', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.press('Record');
      await page.press('Patient', '.sheet-names');
      await page.press('Female', '.sheet');
      await page.type('#field-patient-weight', '68 kg', 'Enter');
      await page.press('Before', '.sheet-names');
      // Nothing is preset: there is one touch to say that there were none.
      expect(await page.tab.value('document.querySelectorAll(".sheet [aria-pressed=true]").length')).toBe(0);
      await page.press('None (Allergies)', '.sheet');
      await page.tab.until('document.querySelector(".none-button[aria-pressed=true]")', 'none is said');
      await page.press('Add: Labs', '.sheet');
      await page.type('[data-path="before.labs[0].what"] input', 'creat');
      await page.press('creatinine', '.suggested');
      await page.type('[data-path="before.labs[0].value"] input', '88 µmol/L', 'Enter');
      await page.press('Drugs', '.sheet-names');
      await page.press('Add: Drugs', '.sheet');
      await page.type('[data-path="drugs[0].drug"] input', 'lidoc');
      await page.press('lidocaine', '.suggested');
      // Out of a field with names to touch below it: what lies lower stays where the finger goes down.
      await page.type('[data-path="drugs[0].drug"] input', 'lidocain');
      await page.type('[data-path="drugs[0].dose"] input', '10 mL', 'Enter');
      await page.type('[data-path="drugs[0].drug"] input', 'lidocaine', 'Enter');
      await page.press('local infiltration', '[data-path="drugs[0].route"]');
      await page.press('Now', '[data-path="drugs[0].at"]');
      await page.press('Targets', '.sheet-names');
      await page.press('Add: Targets', '.sheet');
      await page.type('[data-path="targets.target.what"] input', 'common hepatic duct', 'Enter');
      await page.saved();
      const record = await desk.record(id);
      expect(record['patient']).toMatchObject({ sex: 'female', weight: '68 kg' });
      expect(record['before']).toEqual({
        allergies: 'none',
        labs: [{ what: 'creatinine', value: '88 µmol/L' }],
      });
      expect(record['drugs']).toMatchObject([
        { drug: 'lidocaine', dose: '10 mL', route: 'local infiltration' },
      ]);
      expect(JSON.stringify(record['drugs'])).toMatch(/"at":"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}"/);
      expect(record['targets']).toEqual({ target: { what: 'common hepatic duct' } });
    } finally {
      await page.close();
    }
  });

  it('moves entries, takes them out, and keeps what is typed when the page is hidden', async () => {
    const id = await desk.begin(`${BEGUN}findings:
  - { text: first } # keep
  - { text: second }
`);
    const page = await desk.open(id);
    try {
      await page.press('Record');
      await page.press('Findings', '.sheet-names');
      await page.press('1 ', '.entries');
      await page.press('Move down', '.entries');
      await page.tab.until(
        'document.querySelector(".entries .row-open").textContent.includes("second")',
        'moved',
      );
      await page.type('[data-path="findings[1].text"] textarea', 'first, seen again');
      await page.tab.value('document.dispatchEvent(new Event("visibilitychange")), 0');
      await page.tab.until('document.querySelector(".saving-saved")', 'saved');
      await page.saved();
      await page.press('1 ', '.entries');
      await page.press('Remove', '.entries');
      await page.tab.until('document.querySelectorAll(".entries .entry").length === 1', 'one is left');
      await page.saved();
      expect((await desk.record(id))['findings']).toEqual([{ text: 'first, seen again' }]);
    } finally {
      await page.close();
    }
  });

  it.each([
    ['takes a dose report that is dropped on it', 'casetally: 1\n', true],
    [
      'takes nothing from the dose report of another patient, and says so',
      BEGUN.replace('Vela Quintanar, birthDate: 1957-08-02', 'Oren Thistlewood, birthDate: 1940-01-09'),
      false,
    ],
  ])('%s', async (_, begun, taken) => {
    const id = await desk.begin(begun);
    const page = await desk.open(id);
    try {
      await page.press('Record');
      await page.press('Radiation', '.sheet-names');
      await page.tab.until('document.querySelector("#dose-file")', 'the place for files');
      const bytes = Buffer.from(bytesOf('biplane')).toString('base64');
      await page.tab.value(`(() => {
        const bytes = Uint8Array.from(atob('${bytes}'), sign => sign.charCodeAt(0));
        const files = new DataTransfer();
        files.items.add(new File([bytes], 'dose.dcm'));
        document.querySelector('.dose-file').dispatchEvent(
          new DragEvent('drop', { dataTransfer: files, bubbles: true, cancelable: true }));
      })()`);
      await page.press('Take over', '.dose-file');
      if (!taken) {
        await page.tab.until('document.querySelector(".dose-file .finding.error")', 'why not');
        expect((await desk.record(id))['radiation']).toBeUndefined();
        return;
      }
      await page.tab.until('document.querySelector("#field-radiation-kermaAreaProduct")?.value', 'the dose');
      await page.saved();
      expect((await desk.record(id))['radiation']).toMatchObject({ kermaAreaProduct: '72.0000 Gy·cm2' });
    } finally {
      await page.close();
    }
  });
});

describe.skipIf(!chromium)('a line', () => {
  it('is shown as what it would write, and counts once it is touched', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.type('#line', '09:04 punctured with the needle', 'Enter');
      await page.tab.until('document.querySelector(".proposed li")', 'a proposal');
      expect(await page.tab.value('document.querySelector(".proposed li").textContent')).toBe(
        'Punctured with 21 G access needle',
      );
      expect((await desk.record(id)).events).toBeUndefined();
      await page.press('Take over', '.proposed');
      await page.until('in the patient', ['21 G access needle']);
      await page.type('#line', 'what the weather is like', 'Enter');
      await page.tab.until('document.querySelector(".proposed.uncertain")', 'not understood');
      expect(await page.tab.value('document.querySelectorAll(".proposed .main").length')).toBe(0);
      await page.press('Discard it', '.proposed');
      await page.saved();
      expect((await desk.record(id)).events).toEqual([{ at: '09:04', do: 'puncture', device: 'needle' }]);
    } finally {
      await page.close();
    }
  });
});

describe.skipIf(!chromium)('findings', () => {
  it('stand by harm, lead to their field, say what mends them, and warnings are accepted with a reason', async () => {
    const id = await desk.begin(
      exampleText('coaxial-exchange-short-wire.yaml').replace(/^acknowledged:[\s\S]*?(?=^\S)/m, ''),
    );
    const page = await desk.open(id);
    try {
      await page.press('Record');
      await page.press('Patient', '.sheet-names');
      await page.type('#field-patient-weight', 'sixty-eight', 'Tab');
      await page.tab.until('document.querySelector(".sheet .finding.error")', 'an error at the field');
      await page.press('Check', '.views');
      await page.press('Go to patient.weight', '.findings');
      await page.tab.until('document.activeElement.id === "field-patient-weight"', 'the field has the focus');
      await page.press('Undo');
      await page.tab.until('!document.querySelector(".sheet .finding.error")', 'mended');
      await page.press('Check', '.views');
      const warnings =
        'document.querySelectorAll(".findings section[aria-labelledby=found-warnings] li").length';
      const before = await page.tab.value<number>(warnings);
      expect(before).toBeGreaterThan(0);
      await page.press('Accept with a reason', '.findings');
      await page.type('.findings form input', 'seen and meant so', 'Enter');
      await page.tab.until(`${warnings} < ${before}`, 'one warning less');
      await page.tab.until('document.querySelector("#found-accepted")', 'accepted');
      await page.saved();
      expect((await desk.record(id))['acknowledged']).toMatchObject([{ reason: 'seen and meant so' }]);
    } finally {
      await page.close();
    }
  });
});

describe.skipIf(!chromium)('the text', () => {
  it('is in step with the page, joins what others did, and says why it is not taken', async () => {
    const id = await desk.begin(BEGUN);
    const page = await desk.open(id);
    try {
      await page.press('Text', '.views');
      await page.type('#record', 'devices: [');
      await page.press('Use this text', '.text');
      await page.tab.until('document.querySelector(".text [role=status]").textContent', 'a reason');
      await page.press('Discard what I typed', '.text');
      expect(await page.tab.value('document.querySelector("#record").value')).toBe(BEGUN);
      await page.type(
        '#record',
        BEGUN.replace('21 G', '18 G # as opened').replace(
          '{ kind: access needle, size: 18 G # as opened }',
          '{ kind: access needle, size: 18 G } # as opened',
        ),
      );
      await desk.edit(id, [{ path: 'patient.weight', value: '70 kg' }]);
      await page.tab.until(
        'document.querySelector(".text .hint")?.textContent.includes("changed meanwhile")',
        'said',
      );
      await page.press('Use this text', '.text');
      await page.press('Devices', '.views');
      await page.tab.until(
        'document.querySelector(".tray-on-the-table").textContent.includes("18 G")',
        'the new size',
      );
      await page.saved();
      const { text } = await desk.draft(id);
      expect(text).toContain('size: 18 G } # as opened');
      expect(text).toContain('70 kg');
    } finally {
      await page.close();
    }
  });

  it('of the address holds the id alone', () => {
    expect(readFileSync('web/case/app.tsx', 'utf8')).not.toMatch(/pushState|replaceState|document\.title/);
  });
});
