import { randomUUID } from 'node:crypto';
import { openPostgresOutbox } from '../../../src/delivery/outbox/open-postgres.js';
import type { Outbox } from '../../../src/delivery/outbox/outbox.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';

/** Where the outbox of one crash round lies. */
export interface Store {
  /** A file, or the address of a PostgreSQL database. */
  readonly place: string;
  /** Of the tables in PostgreSQL. */
  readonly schema?: string;
}

export function openStore({ place, schema }: Store): Promise<Outbox> {
  if (!place.startsWith('postgres:')) return openSqliteOutbox(place, { newId: randomUUID });
  return openPostgresOutbox(place, { newId: randomUUID, ...(schema !== undefined && { schema }) });
}
