import type { Dialect } from '../../delivery/outbox/sql-schema.js';
import { described } from '../facts.js';

/** Changes made to the tables are counted, as those of the outbox. */
export const REGISTER_VERSION = 2;

/** Columns of a use that lists search by; everything else of it is read with them. */
export const useColumns = [
  'id',
  'person',
  'case_name',
  ...described,
  'state',
  'placed',
  'insertion_held',
  'ended',
  'dwell_days',
  'count',
  'inside',
  'due',
  'latest',
] as const;

export const eventColumns = [
  'use_id',
  'n',
  'person',
  'kind',
  'date',
  'case_name',
  'version',
  'told_as',
  'count',
  'evidence',
  'note',
] as const;

export const planColumns = [
  'use_id',
  'n',
  'person',
  'case_name',
  'key',
  'what',
  'by_role',
  'earliest',
  'due',
  'latest',
  'condition',
  'day',
  'closed_how',
  'closed_case',
  'closed_date',
] as const;

/**
 * The statements that make the tables. Records, facts and numbers of people are sealed where the outbox is; what lists
 * are made from is not, and names people by a digest of their number alone.
 */
export const registerTables = ({ prefix, number, options }: Dialect): string[] => {
  const numbers: ReadonlySet<string> = new Set([
    'retrievable',
    'insertion_held',
    'dwell_days',
    'count',
    'inside',
    'n',
    'version',
  ]);
  const table = (name: string, columns: readonly string[], key: string) =>
    `CREATE TABLE ${prefix}${name} (
  ${columns.map(column => `${column} ${numbers.has(column) ? number : 'text'}`).join(',\n  ')},
  PRIMARY KEY (${key})
) ${options}`;
  const index = (name: string, of: string, columns: string, where = '') =>
    `CREATE INDEX ${name} ON ${prefix}${of} (${columns})${where === '' ? '' : ` WHERE ${where}`}`;
  return [
    `CREATE TABLE ${prefix}case_version (
  case_name text NOT NULL,
  version   ${number} NOT NULL,
  digest    text NOT NULL,
  status    text NOT NULL,
  date      text NOT NULL,
  person    text,
  taken_at  ${number} NOT NULL,
  facts     text NOT NULL,
  record    text NOT NULL,
  PRIMARY KEY (case_name, version, digest)
) ${options}`,
    index('case_version_person', 'case_version', 'person'),
    `CREATE TABLE ${prefix}person (id text PRIMARY KEY, root text NOT NULL) ${options}`,
    index('person_root', 'person', 'root'),
    `CREATE TABLE ${prefix}person_number (
  number_key text NOT NULL,
  system     text NOT NULL,
  person     text NOT NULL,
  number     text NOT NULL,
  PRIMARY KEY (number_key, system, person)
) ${options}`,
    index('person_number_person', 'person_number', 'person'),
    table('use', useColumns, 'id, person'),
    index('use_person', 'use', 'person'),
    index('use_di', 'use', 'di'),
    index('use_lot', 'use', 'lot'),
    index('use_serial', 'use', 'serial'),
    index('use_filter', 'use', 'retrievable, state', 'retrievable = 1'),
    table('use_event', eventColumns, 'use_id, person, n'),
    index('use_event_person', 'use_event', 'person'),
    index('use_event_as', 'use_event', 'told_as'),
    table('plan', planColumns, 'use_id, person, n'),
    index('plan_person', 'plan', 'person'),
    index('plan_open', 'plan', 'day', 'closed_how IS NULL'),
    table('unlinked', ['case_name', 'device', 'person', 'date', 'body'], 'case_name, device, person'),
    index('unlinked_person', 'unlinked', 'person'),
    table('gap', ['use_id', 'case_name', 'device', 'person'], 'use_id, case_name, device, person'),
    index('gap_person', 'gap', 'person'),
    `CREATE TABLE ${prefix}decision (
  n         ${number} PRIMARY KEY,
  kind      text NOT NULL,
  case_name text,
  device    text,
  use_ref   text,
  one       text,
  other     text,
  by_name   text NOT NULL,
  why       text NOT NULL,
  at        ${number} NOT NULL
) ${options}`,
    index('decision_case', 'decision', 'case_name'),
    `CREATE TABLE ${prefix}replayed (item text PRIMARY KEY) ${options}`,
    ...owedTables({ prefix, number, options }),
  ];
};

/** What destinations accepted, what is to be changed there, and what was. */
const owedTables = ({
  prefix,
  number,
  options,
}: Pick<Dialect, 'prefix' | 'number' | 'options'>): string[] => [
  `CREATE TABLE ${prefix}accepted (
  case_name   text NOT NULL,
  destination text NOT NULL,
  at          ${number} NOT NULL,
  PRIMARY KEY (case_name, destination)
) ${options}`,
  `CREATE TABLE ${prefix}owed (
  case_name    text NOT NULL,
  destination  text NOT NULL,
  generation   ${number} NOT NULL,
  due_at       ${number} NOT NULL,
  leased_until ${number} NOT NULL,
  attempts     ${number} NOT NULL,
  held         ${number} NOT NULL,
  reason       text,
  PRIMARY KEY (case_name, destination)
) ${options}`,
  `CREATE INDEX owed_due ON ${prefix}owed (destination, due_at)`,
  `CREATE TABLE ${prefix}changed (
  destination text NOT NULL,
  type        text NOT NULL,
  value       text NOT NULL,
  case_name   text NOT NULL,
  before      text NOT NULL,
  after       text NOT NULL,
  PRIMARY KEY (destination, type, value)
) ${options}`,
  `CREATE INDEX changed_case ON ${prefix}changed (case_name, destination)`,
];

/**
 * The statements that bring tables of an earlier version up to this one; nothing is lost by them. What the outbox has
 * is replayed once more, since version 1 did not keep which destination accepted a case.
 */
export function registerChangesSince(version: number, dialect: Dialect): string[] {
  return version < 2 ? [...owedTables(dialect), `DELETE FROM ${dialect.prefix}replayed`] : [];
}
