import { copyStore, openToRead, type StoreKind } from '../../delivery/outbox/copies.js';
import type { Head } from '../chain.js';
import { AUDIT_VERSION } from './schema.js';

const AUDIT: StoreKind = {
  name: 'an audit trail',
  version: AUDIT_VERSION,
  table: () => 'audit_entry',
  ifDamaged: 'Take an older backup.',
};

/** What a copy of an audit trail holds; `head` is undefined where that is no entry. */
export interface CopiedTrail {
  readonly entries: number;
  readonly head: Head | undefined;
}

/**
 * Copies the audit trail in a file whole, as of one moment, while entries are added, to a new file: a backup, or the trail
 * made of one. What is sealed stays sealed; no key is needed.
 * @throws CasetallyError where there is a file already, or the trail is damaged.
 */
export async function copyAudit(from: string, to: string): Promise<CopiedTrail> {
  let head: Head | undefined;
  const entries = await copyStore(from, to, AUDIT, async part => {
    const db = await openToRead(part);
    try {
      head = db.prepare<[], Head>('SELECT n, digest FROM audit_entry ORDER BY n DESC LIMIT 1').get();
    } finally {
      db.close();
    }
  });
  return { entries, head };
}
