import type { Dialect } from '../../delivery/outbox/sql-schema.js';

/**
 * Indexes that came after the first tables: made where they are not there, with every opening. What a recall names is
 * looked up by identifier and lot, or identifier and serial number, together: one identifier may have thousands of uses.
 */
export const laterIndexes = ({ prefix }: Dialect): string[] => [
  `CREATE INDEX IF NOT EXISTS use_di_lot ON ${prefix}use (di, lot)`,
  `CREATE INDEX IF NOT EXISTS use_di_serial ON ${prefix}use (di, serial)`,
  // The first column of both.
  `DROP INDEX IF EXISTS ${prefix}use_di`,
];
