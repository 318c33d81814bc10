import { copyStore, type StoreKind } from '../../delivery/outbox/copies.js';
import { loadSqlite } from '../../delivery/outbox/sqlite-outbox.js';
import { SUBMISSIONS_VERSION } from './schema.js';

const SUBMISSIONS: StoreKind = {
  name: 'a store of what was given to registries',
  version: SUBMISSIONS_VERSION,
  table: () => 'entry',
  ifDamaged: 'Take an older backup; what was sent since goes again under its own numbers.',
};

/**
 * Copies what was given to registries whole, as of one moment, while others read and write it, to a new file. What is
 * sealed stays sealed; no key is needed. @returns how many versions of entries it has.
 * @throws CasetallyError where there is a file already, or the store is damaged.
 */
export const backupSubmissions = (from: string, to: string): Promise<number> =>
  copyStore(from, to, SUBMISSIONS, async () => undefined);

/** Makes a store of a backup. Batches that had not gone out may have since: they are asked for before they are sent. */
export const restoreSubmissions = (from: string, to: string): Promise<number> =>
  copyStore(from, to, SUBMISSIONS, async part => {
    const Database = await loadSqlite();
    const db = new Database(part);
    try {
      db.exec(
        "UPDATE batch SET state = 'sending', tried_at = coalesce(tried_at, made_at) WHERE state = 'made'",
      );
    } finally {
      db.close();
    }
  });
