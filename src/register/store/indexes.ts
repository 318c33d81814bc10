import type { Dialect } from '../../delivery/outbox/sql-schema.js';

/**
 * Indexes that came after the first tables: made where they are not there, with every opening. What a recall names is
 * looked up by identifier and lot, or identifier and serial number, together: one identifier may have thousands of uses.
 * What is open is counted from its index alone.
 */
export const laterIndexes = ({ prefix }: Dialect): string[] => [
  `CREATE INDEX IF NOT EXISTS use_di_lot ON ${prefix}use (di, lot)`,
  `CREATE INDEX IF NOT EXISTS use_di_serial ON ${prefix}use (di, serial)`,
  `CREATE INDEX IF NOT EXISTS plan_open_days ON ${prefix}plan (day, latest, due, use_id, person, n) WHERE closed_how IS NULL`,
  `CREATE INDEX IF NOT EXISTS use_unknown ON ${prefix}use (id, person) WHERE state = 'unknown'`,
  // The first columns of those.
  `DROP INDEX IF EXISTS ${prefix}use_di`,
  `DROP INDEX IF EXISTS ${prefix}plan_open`,
];
