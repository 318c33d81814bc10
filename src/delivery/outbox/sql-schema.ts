/** Changes made to the tables are counted: `user_version` in SQLite, the table `version` in PostgreSQL. */
export const SCHEMA_VERSION = 3;

/** How a kind of database says what both have to say. */
export interface Dialect {
  /** Stands before the name of each table: '' or `schema.`. */
  readonly prefix: string;
  /** Type of the rising key. */
  readonly sequence: string;
  /** Type of times and counts. */
  readonly number: string;
  /** What ends the definition of a table. */
  readonly options: string;
  /** Passes over a row that another connection is writing at this moment; it is looked at with the next claim. */
  readonly passOverLocked: string;
  /** Keeps a row that was read as it is until the transaction ends. */
  readonly lockRow: string;
}

export const SQLITE: Dialect = {
  prefix: '',
  sequence: 'INTEGER PRIMARY KEY AUTOINCREMENT',
  number: 'INTEGER',
  options: 'STRICT',
  passOverLocked: '',
  lockRow: '',
};

/** @param schema a plain lower-case name, checked by the caller. */
export const postgresIn = (schema: string): Dialect => ({
  prefix: `${schema}.`,
  sequence: 'bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY',
  number: 'bigint',
  options: '',
  passOverLocked: 'FOR UPDATE OF i SKIP LOCKED',
  lockRow: 'FOR UPDATE',
});

/** The statements that make the tables. */
export const tables = ({ prefix, sequence, number, options }: Dialect): string[] => [
  `CREATE TABLE ${prefix}item (
  sequence      ${sequence},
  id            text NOT NULL UNIQUE,
  destination   text NOT NULL,
  case_key      text NOT NULL,
  patient_key   text NOT NULL,
  payload       text NOT NULL,
  digest        text NOT NULL,
  context       text,
  state         text NOT NULL CHECK (state IN ('waiting', 'sending', 'delivered', 'parked', 'discarded')),
  created_at    ${number} NOT NULL,
  not_before    ${number} NOT NULL,
  attempts      ${number} NOT NULL DEFAULT 0,
  unknown_since ${number},
  last_reason   text,
  parked        text,
  receipt       text,
  fence         ${number} NOT NULL DEFAULT 0,
  lease_until   ${number} NOT NULL DEFAULT 0,
  overwrite     ${number} NOT NULL DEFAULT 0,
  accepted      text
) ${options}`,
  `CREATE INDEX item_due ON ${prefix}item (destination, state, not_before, sequence)`,
  `CREATE INDEX item_patient ON ${prefix}item (destination, patient_key, state, sequence)`,
  `CREATE INDEX item_case ON ${prefix}item (destination, case_key, state, sequence)`,
  `CREATE TABLE ${prefix}gate (
  destination  text PRIMARY KEY,
  closed_until ${number} NOT NULL,
  failures     ${number} NOT NULL,
  paused       text
) ${options}`,
];

/** The statements that bring tables of an earlier version up to this one; nothing is lost by them. */
export function changesSince(version: number, { prefix, number }: Dialect): string[] {
  const changes: Readonly<Record<number, string>> = {
    2: `ALTER TABLE ${prefix}item ADD COLUMN overwrite ${number} NOT NULL DEFAULT 0`,
    3: `ALTER TABLE ${prefix}item ADD COLUMN accepted text`,
  };
  return Object.entries(changes).flatMap(([number, sql]) => (Number(number) > version ? [sql] : []));
}

/**
 * Claims the next item of a destination that may be worked on. Parameters: destination, now, end of the lease.
 * `claim` of the outbox says the rule; an item whose lease has run out counts as waiting.
 */
export const claimIn = ({ prefix, passOverLocked }: Dialect): string => `
UPDATE ${prefix}item SET state = 'sending', fence = fence + 1, lease_until = $3,
  unknown_since = CASE WHEN state = 'sending' AND unknown_since < lease_until THEN lease_until ELSE unknown_since END
WHERE sequence = (
  SELECT i.sequence FROM ${prefix}item AS i
  WHERE i.destination = $1
    AND ((i.state = 'waiting' AND i.not_before <= $2) OR (i.state = 'sending' AND i.lease_until <= $2))
    AND NOT EXISTS (
      SELECT 1 FROM ${prefix}item AS o
      WHERE o.destination = i.destination AND o.patient_key = i.patient_key AND o.sequence <> i.sequence
        AND o.state IN ('waiting', 'sending')
        AND ((o.state = 'sending' AND o.lease_until > $2)
          OR (o.sequence < i.sequence AND NOT EXISTS (
            SELECT 1 FROM ${prefix}item AS b
            WHERE b.destination = o.destination AND b.case_key = o.case_key AND b.sequence < o.sequence
              AND b.state = 'parked'))))
    AND NOT EXISTS (
      SELECT 1 FROM ${prefix}item AS p
      WHERE p.destination = i.destination AND p.case_key = i.case_key AND p.sequence < i.sequence
        AND p.state = 'parked')
  ORDER BY i.sequence
  LIMIT 1
  ${passOverLocked})
RETURNING *`;
