import type { Dialect } from '../../delivery/outbox/sql-schema.js';

/** Changes made to the tables are counted, as those of the outbox. */
export const AUDIT_VERSION = 1;

/** The statements that make the table. Entries are sealed where the outbox is; times and digests are not. */
export const auditTables = ({ prefix, number, options }: Dialect): string[] => [
  `CREATE TABLE ${prefix}audit_entry (
  n      ${number} NOT NULL PRIMARY KEY,
  id     text NOT NULL UNIQUE,
  at     ${number} NOT NULL,
  entry  text NOT NULL,
  digest text NOT NULL
) ${options}`,
  `CREATE INDEX audit_entry_at ON ${prefix}audit_entry (at)`,
];
