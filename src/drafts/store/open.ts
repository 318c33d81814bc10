import {
  openPostgresSide,
  openSqliteSide,
  type SideStore,
  type SideStoreOptions,
} from '../../delivery/outbox/side-store.js';
import { SQLITE } from '../../delivery/outbox/sql-schema.js';
import type { Drafts } from './drafts.js';
import { DRAFTS_VERSION, draftTables } from './schema.js';
import { SqlDrafts } from './sql-drafts.js';

const DRAFTS: SideStore = {
  name: 'The store of drafts',
  lock: 'draft tables',
  version: DRAFTS_VERSION,
  schema: 'casetally_drafts',
  tables: draftTables,
  changesSince: () => [],
  heldIn: ({ prefix }) => `SELECT body AS held FROM ${prefix}draft LIMIT 1`,
  says: {
    unreadable: path =>
      `The file ${path} does not hold drafts that can be read, or its beginning is damaged. It was not changed.`,
    newer: place => `The drafts in ${place} were made by a newer version of Casetally`,
    notSealed: place =>
      `The drafts in ${place} are not sealed, and a key was given: seal what is there with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.`,
    otherKey: (place, key) =>
      `The drafts in ${place} are sealed with the key ${key}, which is not among those given: set CASETALLY_OUTBOX_KEY to it. Nothing was changed.`,
  },
};

/** Opens the drafts in a file beside the outbox; see `openSqliteSide`. */
export async function openSqliteDrafts(path: string, options: SideStoreOptions): Promise<Drafts> {
  const db = await openSqliteSide(path, DRAFTS, options);
  return new SqlDrafts(db, SQLITE, options.sealing);
}

/** Opens the drafts in a PostgreSQL database; see `openPostgresSide`. */
export async function openPostgresDrafts(
  address: string,
  options: SideStoreOptions & { readonly schema?: string },
): Promise<Drafts> {
  const { db, dialect } = await openPostgresSide(address, DRAFTS, options);
  return new SqlDrafts(db, dialect, options.sealing);
}
