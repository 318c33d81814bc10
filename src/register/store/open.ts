import {
  openPostgresSide,
  openSqliteSide,
  type SideStore,
  type SideStoreOptions,
} from '../../delivery/outbox/side-store.js';
import { SQLITE } from '../../delivery/outbox/sql-schema.js';
import { laterIndexes } from './indexes.js';
import type { Register } from './register.js';
import { REGISTER_VERSION, registerChangesSince, registerTables } from './schema.js';
import { SqlRegister } from './sql-register.js';

export interface RegisterOptions extends SideStoreOptions {
  /** Numbering system of the site's own case numbers, which names leave out. */
  readonly ownSystem: string;
}

const REGISTER: SideStore = {
  name: 'The register',
  lock: 'register tables',
  version: REGISTER_VERSION,
  schema: 'casetally_register',
  tables: registerTables,
  changesSince: registerChangesSince,
  indexes: { of: laterIndexes, probe: 'use_unknown' },
  heldIn: ({ prefix }) => `SELECT facts AS held FROM ${prefix}case_version LIMIT 1`,
  says: {
    unreadable: path =>
      `The file ${path} is not a register that can be read, or its beginning is damaged. It was not changed.`,
    newer: place => `The register in ${place} was made by a newer version of Casetally`,
    notSealed: place =>
      `The register in ${place} is not sealed, and a key was given: seal what is there with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.`,
    otherKey: (place, key) =>
      `The register in ${place} is sealed with the key ${key}, which is not among those given: set CASETALLY_OUTBOX_KEY to it. Nothing was changed.`,
  },
};

/** Opens the register in a file beside the outbox; see `openSqliteSide`. */
export async function openSqliteRegister(path: string, options: RegisterOptions): Promise<Register> {
  const db = await openSqliteSide(path, REGISTER, options);
  return new SqlRegister(db, { dialect: SQLITE, ...options });
}

/** Opens the register in a PostgreSQL database; see `openPostgresSide`. */
export async function openPostgresRegister(
  address: string,
  options: RegisterOptions & { readonly schema?: string },
): Promise<Register> {
  const { schema: _, ...rest } = options;
  const { db, dialect } = await openPostgresSide(address, REGISTER, options);
  return new SqlRegister(db, { dialect, ...rest });
}
