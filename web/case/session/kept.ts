import type { Kept, Unsaved } from './types.js';

/** What was not saved yet, in the browser, sealed; and what wipes all of it. */
export interface KeptHere extends Kept {
  /** True where unsaved work of any case is there. */
  holds(): Promise<boolean>;
  /** Erases everything, and the key with it: nothing of it can be read again. */
  wipe(): Promise<void>;
}

interface Sealed {
  readonly id: string;
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly iv: Uint8Array<ArrayBuffer>;
  readonly data: ArrayBuffer;
}

const NAME = 'casetally';
const HOUR = 3_600_000;

/**
 * Keeps unsaved work while the service is away, so that a closed tab loses nothing. It lies in IndexedDB, sealed with
 * AES-GCM under a key that the browser makes and gives to nobody, this page included (`extractable` is false); what is
 * older than the site's hours is erased unread.
 * @param hours after which it is erased
 */
export function keptHere(hours: number, clock: () => number = () => Date.now()): KeptHere {
  let opened: Promise<IDBDatabase> | undefined;
  const database = () => (opened ??= open());

  async function within<T>(
    store: 'keys' | 'unsaved',
    mode: IDBTransactionMode,
    work: (store: IDBObjectStore) => IDBRequest<T>,
  ): Promise<T> {
    const transaction = (await database()).transaction(store, mode);
    const value = await answerOf(work(transaction.objectStore(store)));
    await done(transaction);
    return value;
  }

  async function key(): Promise<CryptoKey> {
    const there = await within<CryptoKey | undefined>('keys', 'readonly', store => store.get('own'));
    if (there) return there;
    const made = await crypto.subtle.generateKey({ name: 'AES-GCM', length: 256 }, false, [
      'encrypt',
      'decrypt',
    ]);
    // Two tabs may make one at the same time: the first that is there counts.
    return within<CryptoKey>('keys', 'readwrite', store => {
      const first = store.get('own');
      first.onsuccess = () => {
        if (first.result === undefined) store.put(made, 'own');
      };
      return first;
    }).then(first => first ?? made);
  }

  const aad = (id: string) => new TextEncoder().encode(id);

  return {
    async read(id) {
      const sealed = await within<Sealed | undefined>('unsaved', 'readonly', store => store.get(id));
      if (!sealed) return undefined;
      if (sealed.at + hours * HOUR < clock()) {
        await within('unsaved', 'readwrite', store => store.delete(id));
        return undefined;
      }
      try {
        const how = { name: 'AES-GCM', iv: sealed.iv, additionalData: aad(id) };
        const data = await crypto.subtle.decrypt(how, await key(), sealed.data);
        return JSON.parse(new TextDecoder().decode(data)) as Unsaved;
      } catch {
        // Of another key, or damaged: it says nothing any more.
        return undefined;
      }
    },
    async write(unsaved) {
      const { id } = unsaved;
      const iv = crypto.getRandomValues(new Uint8Array(12));
      const how = { name: 'AES-GCM', iv, additionalData: aad(id) };
      const text = new TextEncoder().encode(JSON.stringify(unsaved));
      const data = await crypto.subtle.encrypt(how, await key(), text);
      const sealed: Sealed = { id, at: clock(), iv, data };
      await within('unsaved', 'readwrite', store => store.put(sealed));
    },
    async erase(id) {
      await within('unsaved', 'readwrite', store => store.delete(id));
    },
    async holds() {
      return (await within<number>('unsaved', 'readonly', store => store.count())) > 0;
    },
    async wipe() {
      const there = await opened?.catch(() => undefined);
      there?.close();
      opened = undefined;
      await answerOf(indexedDB.deleteDatabase(NAME));
    },
  };
}

function open(): Promise<IDBDatabase> {
  const asked = indexedDB.open(NAME, 1);
  asked.onupgradeneeded = () => {
    asked.result.createObjectStore('keys');
    asked.result.createObjectStore('unsaved', { keyPath: 'id' });
  };
  return answerOf(asked).then(database => {
    // Another tab signs out, and wipes.
    database.onversionchange = () => database.close();
    return database;
  });
}

function answerOf<T>(asked: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    asked.addEventListener('success', () => resolve(asked.result));
    asked.addEventListener('error', () => reject(asked.error));
  });
}

function done(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.addEventListener('complete', () => resolve());
    transaction.addEventListener('abort', () => reject(transaction.error));
  });
}
