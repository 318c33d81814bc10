/** Changes made to the tables are counted: `user_version` in SQLite, the table `version` in PostgreSQL. */
export const SCHEMA_VERSION = 4;

/**
 * Since this version what is to be sent stands in a table of its own: a step of an item need not write it anew. The
 * table of items was renamed with it: a worker of an earlier release that is still running fails, and sends nothing.
 */
export const CONTENT_SINCE = 4;

/** What the table of items is called in a version. */
export const itemTable = (version: number): string => (version < CONTENT_SINCE ? 'item' : 'queue_item');

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

const content = ({ prefix, number, options }: Dialect) => `CREATE TABLE ${prefix}content (
  sequence ${number} PRIMARY KEY REFERENCES ${prefix}queue_item (sequence) ON DELETE CASCADE,
  payload  text NOT NULL,
  context  text
) ${options}`;

/** The statements that make the tables. */
export function tables(dialect: Dialect): string[] {
  const { prefix, sequence, number, options } = dialect;
  return [
    `CREATE TABLE ${prefix}queue_item (
  sequence      ${sequence},
  id            text NOT NULL UNIQUE,
  destination   text NOT NULL,
  case_key      text NOT NULL,
  patient_key   text NOT NULL,
  digest        text NOT NULL,
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
    `CREATE INDEX item_due ON ${prefix}queue_item (destination, state, not_before, sequence)`,
    `CREATE INDEX item_patient ON ${prefix}queue_item (destination, patient_key, state, sequence)`,
    `CREATE INDEX item_case ON ${prefix}queue_item (destination, case_key, state, sequence)`,
    content(dialect),
    `CREATE TABLE ${prefix}gate (
  destination  text PRIMARY KEY,
  closed_until ${number} NOT NULL,
  failures     ${number} NOT NULL,
  paused       text
) ${options}`,
  ];
}

/** The statements that bring tables of an earlier version up to this one; nothing is lost by them. */
export function changesSince(version: number, dialect: Dialect): string[] {
  const { prefix, number } = dialect;
  const changes: Readonly<Record<number, readonly string[]>> = {
    2: [`ALTER TABLE ${prefix}item ADD COLUMN overwrite ${number} NOT NULL DEFAULT 0`],
    3: [`ALTER TABLE ${prefix}item ADD COLUMN accepted text`],
    [CONTENT_SINCE]: [
      `ALTER TABLE ${prefix}item RENAME TO queue_item`,
      content(dialect),
      `INSERT INTO ${prefix}content (sequence, payload, context) SELECT sequence, payload, context FROM ${prefix}queue_item`,
      `ALTER TABLE ${prefix}queue_item DROP COLUMN payload`,
      `ALTER TABLE ${prefix}queue_item DROP COLUMN context`,
    ],
  };
  return Object.entries(changes).flatMap(([number, sql]) => (Number(number) > version ? sql : []));
}

/** The columns of an item, what is to be sent among them. */
export function columnsIn({ prefix }: Dialect): string {
  const of = (column: string) =>
    `(SELECT c.${column} FROM ${prefix}content AS c WHERE c.sequence = queue_item.sequence) AS ${column}`;
  return `*, ${of('payload')}, ${of('context')}`;
}

/**
 * Claims the next item of a destination that may be worked on. Parameters: destination, now, end of the lease.
 * `claim` of the outbox says the rule; an item whose lease has run out counts as waiting.
 */
export const claimIn = (dialect: Dialect): string => `
UPDATE ${dialect.prefix}queue_item SET state = 'sending', fence = fence + 1, lease_until = $3,
  unknown_since = CASE WHEN state = 'sending' AND unknown_since < lease_until THEN lease_until ELSE unknown_since END
WHERE sequence = (
  SELECT i.sequence FROM ${dialect.prefix}queue_item AS i
  WHERE i.destination = $1
    AND ((i.state = 'waiting' AND i.not_before <= $2) OR (i.state = 'sending' AND i.lease_until <= $2))
    AND NOT EXISTS (
      SELECT 1 FROM ${dialect.prefix}queue_item AS o
      WHERE o.destination = i.destination AND o.patient_key = i.patient_key AND o.sequence <> i.sequence
        AND o.state IN ('waiting', 'sending')
        AND ((o.state = 'sending' AND o.lease_until > $2)
          OR (o.sequence < i.sequence AND NOT EXISTS (
            SELECT 1 FROM ${dialect.prefix}queue_item AS b
            WHERE b.destination = o.destination AND b.case_key = o.case_key AND b.sequence < o.sequence
              AND b.state = 'parked'))))
    AND NOT EXISTS (
      SELECT 1 FROM ${dialect.prefix}queue_item AS p
      WHERE p.destination = i.destination AND p.case_key = i.case_key AND p.sequence < i.sequence
        AND p.state = 'parked')
  ORDER BY i.sequence
  LIMIT 1
  ${dialect.passOverLocked})
RETURNING ${columnsIn(dialect)}`;
