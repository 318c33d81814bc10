import {
  openPostgresSide,
  openSqliteSide,
  type SideStore,
  type SideStoreOptions,
} from '../../delivery/outbox/side-store.js';
import { SQLITE } from '../../delivery/outbox/sql-schema.js';
import { SUBMISSIONS_VERSION, submissionTables } from './schema.js';
import { SqlSubmissions } from './sql-submissions.js';
import type { Submissions } from './submissions.js';

const SUBMISSIONS: SideStore = {
  name: 'What was given to registries',
  lock: 'registry tables',
  version: SUBMISSIONS_VERSION,
  schema: 'casetally_registry',
  tables: submissionTables,
  changesSince: () => [],
  heldIn: ({ prefix }) => `SELECT body AS held FROM ${prefix}entry LIMIT 1`,
  says: {
    unreadable: path =>
      `The file ${path} does not hold what was given to registries, or its beginning is damaged. It was not changed.`,
    newer: place => `What was given to registries is kept in ${place} by a newer version of Casetally`,
    notSealed: place =>
      `What was given to registries, in ${place}, is not sealed, and a key was given: seal it with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.`,
    otherKey: (place, key) =>
      `What was given to registries, in ${place}, is sealed with the key ${key}, which is not among those given: set CASETALLY_OUTBOX_KEY to it. Nothing was changed.`,
  },
};

/** Opens what was given to registries, in a file beside the outbox; see `openSqliteSide`. */
export async function openSqliteSubmissions(path: string, options: SideStoreOptions): Promise<Submissions> {
  const db = await openSqliteSide(path, SUBMISSIONS, options);
  return new SqlSubmissions(db, { dialect: SQLITE, sealing: options.sealing });
}

/** Opens what was given to registries in a PostgreSQL database; see `openPostgresSide`. */
export async function openPostgresSubmissions(
  address: string,
  options: SideStoreOptions & { readonly schema?: string },
): Promise<Submissions> {
  const { db, dialect } = await openPostgresSide(address, SUBMISSIONS, options);
  return new SqlSubmissions(db, { dialect, sealing: options.sealing });
}
