import 'fake-indexeddb/auto';
import { beforeEach, expect, it } from 'vitest';
import { keptHere } from '../../../web/case/session/kept.js';
import type { Unsaved } from '../../../web/case/session/types.js';

/* Unsaved work in the browser, here in fake-indexeddb, an independent implementation of IndexedDB in memory. */

const unsaved = (id: string, text = 'patient: { name: Ada Quintanar }'): Unsaved => ({
  ...{ id, text, saved: { version: 3, text: 'patient: {}' } },
  sent: { batch: 'batch-0001', text, edits: { edits: [{ path: 'patient.name', value: 'Ada Quintanar' }] } },
});
let now = 1_000_000;
const HOUR = 3_600_000;
const kept = () => keptHere(10, () => now);
beforeEach(async () => {
  now = 1_000_000;
  await kept().wipe();
});

/** Everything that lies in a store of the browser. */
function lies(store: string): Promise<unknown[]> {
  return new Promise((resolve, reject) => {
    const opened = indexedDB.open('casetally');
    opened.onerror = () => reject(opened.error);
    opened.onsuccess = () => {
      const all = opened.result.transaction(store).objectStore(store).getAll();
      all.onsuccess = () => {
        opened.result.close();
        resolve(all.result);
      };
    };
  });
}

it('gives back what was kept, in another tab too, and by its id alone', async () => {
  const here = kept();
  await here.write(unsaved('a'));
  await here.write(unsaved('b', 'patient: { name: Ben }'));
  expect(await kept().read('a')).toEqual(unsaved('a'));
  expect((await kept().read('b'))?.text).toBe('patient: { name: Ben }');
  await here.erase('a');
  expect([await kept().read('a'), (await kept().read('b'))?.id]).toEqual([undefined, 'b']);
});

it('lies there sealed, under a key that nobody can take out', async () => {
  await kept().write(unsaved('a'));
  const [sealed] = (await lies('unsaved')) as { id: string; data: ArrayBuffer }[];
  expect(Object.keys(sealed ?? {}).sort()).toEqual(['at', 'data', 'id', 'iv']);
  expect(new TextDecoder('latin1').decode(sealed?.data)).not.toContain('Quintanar');
  const [key] = (await lies('keys')) as CryptoKey[];
  expect([key?.extractable, key?.algorithm.name]).toEqual([false, 'AES-GCM']);
  await expect(crypto.subtle.exportKey('raw', key as CryptoKey)).rejects.toThrow();
});

it('is gone after the hours of the site, and unread', async () => {
  await kept().write(unsaved('a'));
  now += 10 * HOUR;
  expect((await kept().read('a'))?.id).toBe('a');
  now += 1;
  expect(await kept().read('a')).toBeUndefined();
  expect(await lies('unsaved')).toEqual([]);
});

it('is wiped with its key, and says nothing under another', async () => {
  const here = kept();
  await here.write(unsaved('a'));
  const [sealed] = await lies('unsaved');
  await here.wipe();
  expect(await kept().read('a')).toBeUndefined();
  await kept().write(unsaved('b'));
  // What somebody copied before the wipe and put back.
  await new Promise<void>((resolve, reject) => {
    const opened = indexedDB.open('casetally');
    opened.onsuccess = () => {
      const transaction = opened.result.transaction('unsaved', 'readwrite');
      transaction.objectStore('unsaved').put(sealed);
      transaction.oncomplete = () => {
        opened.result.close();
        resolve();
      };
      transaction.onabort = () => reject(transaction.error);
    };
  });
  expect(await kept().read('a')).toBeUndefined();
  expect((await kept().read('b'))?.id).toBe('b');
});

it('has one key when two tabs begin at once', async () => {
  const [one, two] = [kept(), kept()];
  await Promise.all([one.write(unsaved('a')), two.write(unsaved('b'))]);
  expect(await lies('keys')).toHaveLength(1);
  expect([(await two.read('a'))?.id, (await one.read('b'))?.id]).toEqual(['a', 'b']);
});
