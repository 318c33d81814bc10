import type { Dialect } from '../../delivery/outbox/sql-schema.js';

/** Changes made to the tables are counted, as those of the outbox. */
export const DRAFTS_VERSION = 1;

/**
 * The statements that make the tables. Readable is what lists go by: day, state, version and times. Everything that was
 * entered, and by whom, is sealed where the outbox is.
 */
export const draftTables = ({ prefix, number, options }: Dialect): string[] => [
  `CREATE TABLE ${prefix}draft (
  id         text PRIMARY KEY,
  version    ${number} NOT NULL,
  state      text NOT NULL,
  begun_on   text NOT NULL,
  day        text NOT NULL,
  begun_at   ${number} NOT NULL,
  changed_at ${number} NOT NULL,
  head       text NOT NULL,
  body       text NOT NULL
) ${options}`,
  `CREATE INDEX draft_day ON ${prefix}draft (day, begun_at)`,
  `CREATE INDEX draft_state ON ${prefix}draft (state, changed_at)`,
  `CREATE TABLE ${prefix}draft_version (
  draft   text NOT NULL,
  version ${number} NOT NULL,
  state   text NOT NULL,
  at      ${number} NOT NULL,
  base    ${number} NOT NULL,
  batch   text,
  body    text NOT NULL,
  PRIMARY KEY (draft, version)
) ${options}`,
  `CREATE UNIQUE INDEX draft_batch ON ${prefix}draft_version (draft, batch)`,
];
