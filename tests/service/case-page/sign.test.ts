import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { chromium } from '../../support/browser.js';
import { Room, undecidedEnd, unsigned } from './room.js';

/* Reading, signing and taking back, as a person does it. People, places and names are invented. */

const room = new Room(`drafts: { graceMinutes: 60 }
destinations: { records: { url: "http://127.0.0.1:9/fhir" }, second: { url: "http://127.0.0.1:9/fhir" } }
`);
const AUTHOR = 'Dr Nyambura Hallowell';
beforeAll(() => room.start());
afterAll(() => room.end());

async function closed(text = unsigned()): Promise<string> {
  const id = await room.begin(text);
  await room.does(id, 'close');
  return id;
}
const isOff = (action: string) =>
  room.tab.value<boolean>(`document.querySelector('[data-action=${action}]').disabled`);
const inReport = (words: string) =>
  `document.querySelector('iframe.report')?.contentDocument?.body?.innerText.includes(${JSON.stringify(words)})`;

describe.skipIf(!chromium)('reading', () => {
  it('shows each reader their report, in each language, in a frame where nothing runs', async () => {
    await room.open(`${await closed()}/finish`);
    await room.press('Show the reports');
    await room.tab.until(inReport('Wambugu Starling Odera'), 'the full report');
    await room.touch('[data-reader=patient]');
    await room.tab.until(inReport('About your procedure'), 'the letter to the patient');
    await room.touch('[data-language=de]');
    await room.tab.until(
      `document.querySelector('[data-language=de]').getAttribute('aria-pressed') === 'true'`,
      'German',
    );
    await room.touch('[data-reader=record]');
    await room.tab.until(
      `document.querySelector('iframe.report').contentDocument.documentElement.lang === 'de'`,
      'the report in German',
    );
    expect(await room.tab.value(`document.querySelector('iframe.report').getAttribute('sandbox')`)).toBe(
      'allow-same-origin',
    );
    expect(room.tab.requests.filter(({ url }) => /odera|KJ-2024/i.test(url))).toEqual([]);
    expect(await room.faults()).toEqual([]);
  });
});

describe.skipIf(!chromium)('signing', () => {
  it('shows what is signed, asks who, where and the name again, and can be taken back', async () => {
    const id = await closed();
    await room.open(`${id}/finish`);
    await room.reads('No computed value is an order');
    await room.reads('What stays in the patient');
    for (const words of ['Wambugu Starling Odera', 'right iliac fossa abscess', 'until', 'right'])
      expect((await room.text('.summary')).toLowerCase()).toContain(words.toLowerCase());
    expect(await isOff('sign')).toBe(true);
    await room.touch('[data-author=op]');
    await room.reads(`Signed by ${AUTHOR}`, '.summary');
    await room.reads('Choose where it goes');
    await room.touch('[data-to=second]');
    await room.reads('Type your name to sign');
    expect([await isOff('sign'), await room.faults()]).toEqual([true, []]);
    await room.type('#sign-name', 'Otieno Brackenridge');
    await room.press('Sign the report');
    await room.reads('a report is signed by its author alone');
    expect((await room.draft(id)).state).toBe('closed');
    await room.type('#sign-name', AUTHOR);
    await room.press('Sign the report');
    await room.reads('Take the signature back');
    const signed = await room.draft(id);
    expect(parse(signed.text)).toMatchObject({ report: { status: 'final', author: 'op' } });
    expect(signed).toMatchObject({
      state: 'signed',
      signature: { by: AUTHOR, verified: false, to: 'second' },
    });
    expect(await room.text('.countdown')).toMatch(/^(60:00|59:\d\d)$/);
    expect(await room.faults()).toEqual([]);
    await room.press('Take the signature back');
    await room.reads('Close: everything is entered');
    const back = await room.draft(id);
    expect([back.state, back.text]).toEqual(['open', unsigned()]);
  });

  it('takes the author whose name is that of whoever is there, with or without title', async () => {
    await room.open(`${await closed()}/finish`, { name: 'Nyambura HALLOWELL' });
    await room.tab.until(`document.querySelector('[data-author=op][aria-pressed=true]')`, 'the author');
    await room.open(`${await closed()}/finish`);
    await room.reads('Choose who signs');
    expect(
      await room.tab.value(`document.querySelectorAll('.sign [data-author][aria-pressed=true]').length`),
    ).toBe(0);
  });

  it('shows what others did meanwhile and does not sign over it', async () => {
    const id = await closed();
    await room.open(`${id}/finish`);
    await room.reads('Who signs');
    await room.does(id, 'reopen');
    await room.reads('Being entered', '.finish');
    expect(await room.tab.value(`document.querySelector('[data-action=sign]')`)).toBe(null);
  });

  it('is not offered before the case is closed', async () => {
    await room.open(`${await room.begin(undecidedEnd())}/finish`);
    await room.reads('Not decided yet: 1');
    expect(await room.tab.value(`document.querySelector('[data-action=sign]')`)).toBe(null);
  });
});
