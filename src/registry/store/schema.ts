import type { Dialect } from '../../delivery/outbox/sql-schema.js';

/** Changes made to the tables are counted, as those of the outbox. */
export const SUBMISSIONS_VERSION = 1;

/**
 * The statements that make the tables. What was sent, numbers of people, answers and texts are sealed where the outbox
 * is; states, case numbers, keys of devices and pseudonyms are not.
 */
export const submissionTables = ({ prefix, number, sequence, options }: Dialect): string[] => [
  `CREATE TABLE ${prefix}registry_key (
  registry    text NOT NULL,
  key_id      text NOT NULL,
  fingerprint text NOT NULL,
  since       ${number} NOT NULL,
  PRIMARY KEY (registry, key_id)
) ${options}`,
  `CREATE TABLE ${prefix}batch (
  n           ${sequence},
  registry    text NOT NULL,
  id          text NOT NULL,
  state       text NOT NULL CHECK (state IN ('made', 'sending', 'sent', 'answered')),
  manifest    text NOT NULL,
  content     text NOT NULL,
  made_at     ${number} NOT NULL,
  tried_at    ${number},
  answered_at ${number},
  reason      text,
  UNIQUE (registry, id)
) ${options}`,
  `CREATE TABLE ${prefix}entry (
  registry     text NOT NULL,
  case_name    text NOT NULL,
  device       text NOT NULL,
  part         text NOT NULL,
  action       text NOT NULL,
  version      ${number} NOT NULL,
  newest       ${number} NOT NULL,
  case_version ${number} NOT NULL,
  digest       text NOT NULL,
  batch        text NOT NULL,
  line         ${number} NOT NULL,
  state        text NOT NULL CHECK (state IN ('open', 'accepted', 'duplicate', 'refused', 'missing')),
  coarser      ${number} NOT NULL,
  entry_alias   text NOT NULL,
  case_alias    text NOT NULL,
  patient_alias text NOT NULL,
  body         text NOT NULL,
  code         text,
  says         text,
  PRIMARY KEY (registry, case_name, device, part, action, version)
) ${options}`,
  `CREATE INDEX entry_batch ON ${prefix}entry (registry, batch, line)`,
  `CREATE INDEX entry_state ON ${prefix}entry (registry, state, newest)`,
  `CREATE INDEX entry_alias ON ${prefix}entry (entry_alias)`,
  `CREATE INDEX entry_case_alias ON ${prefix}entry (case_alias)`,
  `CREATE INDEX entry_patient_alias ON ${prefix}entry (patient_alias)`,
  `CREATE TABLE ${prefix}withheld (
  registry  text NOT NULL,
  batch     text NOT NULL,
  number    ${number} NOT NULL,
  case_name text NOT NULL,
  device    text NOT NULL,
  codes     text NOT NULL,
  PRIMARY KEY (registry, batch, number)
) ${options}`,
  `CREATE TABLE ${prefix}answer (
  n        ${sequence},
  registry text NOT NULL,
  batch    text NOT NULL,
  digest   text NOT NULL,
  at       ${number} NOT NULL,
  body     text NOT NULL
) ${options}`,
  `CREATE INDEX answer_digest ON ${prefix}answer (registry, digest)`,
  `CREATE TABLE ${prefix}alike (
  registry  text NOT NULL,
  group_key text NOT NULL,
  person    text NOT NULL,
  case_name text NOT NULL,
  PRIMARY KEY (registry, group_key, person, case_name)
) ${options}`,
  `CREATE INDEX alike_case ON ${prefix}alike (registry, case_name)`,
  `CREATE TABLE ${prefix}access (
  n        ${sequence},
  at       ${number} NOT NULL,
  by_name  text NOT NULL,
  why      text NOT NULL,
  registry text NOT NULL,
  alias    text NOT NULL,
  found    ${number} NOT NULL
) ${options}`,
];
