import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromium } from '../../support/browser.js';
import { Room, unsigned } from './room.js';

/* Where a person begins: which cases there are, what each needs, and what somebody leaves behind who goes. */

const room = new Room(`drafts: { graceMinutes: 60 }
destinations: { records: { url: "http://127.0.0.1:9/fhir" } }
`);
const signable = unsigned();
const ids: Record<string, string> = {};
const named = (name: string) => `casetally: 1\npatient: { name: ${name} }\n`;

beforeAll(async () => {
  await room.start();
  ids['entering'] = await room.begin(named('Ines Entering'));
  ids['signature'] = await room.begin(signable);
  await room.does(ids['signature'], 'close');
  ids['leaving'] = await room.begin(signable.replace(/^( {2}id: ).*$/m, '$1LEAVES-1'));
  await room.does(ids['leaving'], 'sign', { author: 'op', by: 'Dr Nyambura Hallowell', to: 'records' });
  ids['nothing'] = await room.begin(named('Nora Nothing'));
  await room.does(ids['nothing'], 'discard', { why: 'begun twice' });
});
afterAll(() => room.end());

const row = (need: string, id: string | undefined) => `.needs-${need} a[href*="#${id}"]`;

describe.skipIf(!chromium)('the first page', () => {
  it('asks for a name where nobody signs in, and shows nothing before', async () => {
    await room.open('', { name: '' });
    await room.reads('Your name');
    expect(await room.faults()).toEqual([]);
    await room.type('#who', 'Nurse Aho');
    await room.tab.press('Enter');
    await room.reads('Nurse Aho');
  });

  it('shows each case under what it needs next', async () => {
    await room.open();
    for (const need of ['entering', 'signature', 'leaving', 'nothing'])
      await room.tab.until(`document.querySelector('${row(need, ids[need])}')`, need);
    await room.reads('Ines Entering', '.needs-entering');
    expect(await room.text('.needs-leaving')).toMatch(/Leaves at \d\d:\d\d/);
    expect(await room.text('.needs-nothing')).toContain('begun twice');
    expect(await room.faults()).toEqual([]);
    expect(room.complaints()).toEqual([]);
  });

  it('shows what others begin without being touched, and nothing of it in an address', async () => {
    await room.open();
    await room.reads('Ines Entering');
    const id = await room.begin(named('Olga Other'));
    // Comes into sight again, as after another app: it is asked for at once and not 20 seconds later.
    await room.tab.value(`document.dispatchEvent(new Event('visibilitychange')), 0`);
    await room.reads('Olga Other', '.needs-entering');
    expect(await room.tab.value(`document.querySelector('${row('entering', id)}').href`)).toBe(
      `${room.url}/case?language=en-GB#${id}`,
    );
    expect(room.tab.requests.filter(({ url }) => /olga|ines|nora/i.test(url))).toEqual([]);
  });

  it('says that its list may be old while the service is away, and goes on by itself', async () => {
    await room.open();
    await room.reads('Ines Entering');
    await room.halt();
    await room.tab.value(`document.dispatchEvent(new Event('visibilitychange')), 0`);
    await room.reads('The list may be out of date');
    expect(await room.text('.needs-entering')).toContain('Ines Entering');
    await room.start();
    await room.tab.value(
      `document.dispatchEvent(new Event('online')), dispatchEvent(new Event('online')), 0`,
    );
    await room.tab.until(`!document.body.innerText.includes('out of date')`, 'the list to be current');
    // Its own complaint about the service that was away.
    room.complaints();
  });

  it('finds by any word, and puts what is looked for into the body', async () => {
    await room.open();
    await room.type('#find', 'nora nothing');
    await room.tab.press('Enter');
    await room.reads('Found: 1', '.search');
    expect(await room.text('.search')).toContain('Nora Nothing');
    expect(await room.faults()).toEqual([]);
    await room.press('Clear the search');
    await room.tab.until(`!document.querySelector('.search .case-row')`, 'an empty search');
    expect(room.tab.requests.filter(({ url }) => /nora/i.test(url))).toEqual([]);
  });

  it('begins one case however often it is touched', async () => {
    await room.open();
    await room.reads('Begin a case');
    const before = (await room.ask<{ drafts: object[] }>('drafts')).drafts.length;
    await room.tab.until(`!document.querySelector('.begin .main').disabled`, 'the button');
    await room.tab.click('.begin .main', 2);
    await room.tab.until(`document.querySelector('.views')`, 'the case');
    expect(await room.tab.value('location.hash')).toMatch(/^#[\w-]{36}$/);
    const { drafts } = await room.ask<{ drafts: { by: string }[] }>('drafts');
    expect(drafts.length).toBe(before + 1);
    expect(drafts.at(-1)?.by).toBe('Nurse Aho');
    await room.press('All cases');
    await room.reads('Begin a case');
  });

  it('works by keys alone', async () => {
    await room.open();
    await room.tab.until(`document.querySelector('.begin .main')?.disabled === false`, 'the button');
    for (let steps = 0; steps < 20; steps++) {
      await room.tab.press('Tab');
      if (await room.tab.value(`document.activeElement.closest('.needs-entering') !== null`)) break;
    }
    await room.tab.press('Enter');
    await room.tab.until(`document.querySelector('.views')`, 'the case');
  });
});

describe.skipIf(!chromium)('whoever goes', () => {
  const keep = `new Promise(done => {
    const asked = indexedDB.open('casetally', 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore('keys');
      asked.result.createObjectStore('unsaved', { keyPath: 'id' });
    };
    asked.onsuccess = () => {
      const change = asked.result.transaction('unsaved', 'readwrite');
      change.objectStore('unsaved').put({ id: 'x', at: Date.now(), iv: new Uint8Array(12), data: new ArrayBuffer(8) });
      change.oncomplete = () => { asked.result.close(); done(0); };
    };
  })`;
  const there = `indexedDB.databases().then(all => all.some(one => one.name === 'casetally'))`;

  it('is asked before unsaved work is erased, and may keep it', async () => {
    await room.open();
    await room.reads('Ines Entering');
    await room.tab.value(keep);
    await room.press('Somebody else');
    await room.reads('has not been saved yet');
    expect(await room.faults()).toEqual([]);
    await room.press('Keep it');
    expect(await room.tab.value(there)).toBe(true);
    await room.press('Somebody else');
    await room.press('Erase it and go on');
    await room.reads('Your name');
    expect([await room.tab.value(there), await room.tab.value('sessionStorage.length')]).toEqual([false, 0]);
  });

  it('is not asked where everything is saved', async () => {
    await room.open();
    await room.press('Somebody else');
    await room.reads('Your name');
  });
});
