import {
  openPostgresSide,
  openSqliteSide,
  type SideStore,
  type SideStoreOptions,
} from '../../delivery/outbox/side-store.js';
import { SQLITE } from '../../delivery/outbox/sql-schema.js';
import type { AuditTrail } from '../trail.js';
import { AUDIT_VERSION, auditTables } from './schema.js';
import { SqlAudit } from './sql-audit.js';

const AUDIT: SideStore = {
  name: 'The audit trail',
  lock: 'audit tables',
  version: AUDIT_VERSION,
  schema: 'casetally_audit',
  tables: auditTables,
  changesSince: () => [],
  heldIn: ({ prefix }) => `SELECT entry AS held FROM ${prefix}audit_entry ORDER BY n DESC LIMIT 1`,
  says: {
    unreadable: path =>
      `The file ${path} is not an audit trail that can be read, or its beginning is damaged. It was not changed.`,
    newer: place => `The audit trail in ${place} was made by a newer version of Casetally`,
    notSealed: place =>
      `The audit trail in ${place} is not sealed, and a key was given: seal what is there with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.`,
    otherKey: (place, key) =>
      `The audit trail in ${place} is sealed with the key ${key}, which is not among those given: set CASETALLY_OUTBOX_KEY to it. Nothing was changed.`,
  },
};

/** Opens the audit trail in a file beside the outbox; see `openSqliteSide`. */
export async function openSqliteAudit(path: string, options: SideStoreOptions): Promise<AuditTrail> {
  const db = await openSqliteSide(path, AUDIT, options);
  return new SqlAudit(db, { dialect: SQLITE, sealing: options.sealing });
}

/** Opens the audit trail in a PostgreSQL database; see `openPostgresSide`. */
export async function openPostgresAudit(
  address: string,
  options: SideStoreOptions & { readonly schema?: string },
): Promise<AuditTrail> {
  const { db, dialect } = await openPostgresSide(address, AUDIT, options);
  return new SqlAudit(db, { dialect, sealing: options.sealing });
}
