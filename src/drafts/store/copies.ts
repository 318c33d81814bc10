import { copyStore, type StoreKind } from '../../delivery/outbox/copies.js';
import { DRAFTS_VERSION } from './schema.js';

const DRAFTS: StoreKind = {
  name: 'a store of drafts',
  version: DRAFTS_VERSION,
  table: () => 'draft_version',
  ifDamaged: 'Take an older backup.',
};

/**
 * Copies the drafts in a file whole, as of one moment, while others read and write them, to a new file: a backup, or the
 * store made of one. What is sealed stays sealed; no key is needed. @returns how many versions it has.
 * @throws CasetallyError where there is a file already, or the store is damaged.
 */
export const copyDrafts = (from: string, to: string): Promise<number> =>
  copyStore(from, to, DRAFTS, async () => undefined);
