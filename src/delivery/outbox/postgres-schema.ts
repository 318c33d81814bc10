/** Changes made to the tables of the PostgreSQL outbox are counted in `version`. */
export const SCHEMA_VERSION = 1;

/** The tables. `schema` is a plain lower-case name, checked by the caller. */
export const tables = (schema: string): string => `
CREATE TABLE ${schema}.version (number integer NOT NULL);
CREATE TABLE ${schema}.item (
  sequence      bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  id            text NOT NULL UNIQUE,
  destination   text NOT NULL,
  case_key      text NOT NULL,
  patient_key   text NOT NULL,
  payload       text NOT NULL,
  digest        text NOT NULL,
  context       text,
  state         text NOT NULL CHECK (state IN ('waiting', 'sending', 'delivered', 'parked', 'discarded')),
  created_at    bigint NOT NULL,
  not_before    bigint NOT NULL,
  attempts      integer NOT NULL DEFAULT 0,
  unknown_since bigint,
  last_reason   text,
  parked        text,
  receipt       text,
  fence         integer NOT NULL DEFAULT 0,
  lease_until   bigint NOT NULL DEFAULT 0
);
CREATE INDEX item_open ON ${schema}.item (destination, sequence) WHERE state IN ('waiting', 'sending');
CREATE INDEX item_patient ON ${schema}.item (destination, patient_key, sequence) WHERE state IN ('waiting', 'sending');
CREATE INDEX item_case ON ${schema}.item (destination, case_key, sequence);
CREATE TABLE ${schema}.gate (
  destination  text PRIMARY KEY,
  closed_until bigint NOT NULL,
  failures     integer NOT NULL,
  paused       text
);
INSERT INTO ${schema}.version VALUES (${SCHEMA_VERSION});`;

/**
 * Claims the next item of a destination that may be worked on; the same rule as in SQLite. Parameters:
 * destination, now, end of the lease. A row that another connection is writing at this moment is passed over;
 * it is looked at again with the next claim.
 */
export const claimIn = (schema: string): string => `
UPDATE ${schema}.item SET state = 'sending', fence = fence + 1, lease_until = $3
WHERE sequence = (
  SELECT i.sequence FROM ${schema}.item AS i
  WHERE i.destination = $1
    AND ((i.state = 'waiting' AND i.not_before <= $2) OR (i.state = 'sending' AND i.lease_until <= $2))
    AND NOT EXISTS (
      SELECT 1 FROM ${schema}.item AS e
      WHERE e.destination = i.destination AND e.patient_key = i.patient_key AND e.sequence < i.sequence
        AND e.state IN ('waiting', 'sending')
        AND (e.state = 'sending' OR NOT EXISTS (
          SELECT 1 FROM ${schema}.item AS b
          WHERE b.destination = e.destination AND b.case_key = e.case_key AND b.sequence < e.sequence
            AND b.state = 'parked')))
    AND NOT EXISTS (
      SELECT 1 FROM ${schema}.item AS s
      WHERE s.destination = i.destination AND s.patient_key = i.patient_key AND s.sequence > i.sequence
        AND s.state = 'sending')
    AND NOT EXISTS (
      SELECT 1 FROM ${schema}.item AS p
      WHERE p.destination = i.destination AND p.case_key = i.case_key AND p.sequence < i.sequence
        AND p.state = 'parked')
  ORDER BY i.sequence
  LIMIT 1
  FOR UPDATE OF i SKIP LOCKED)
RETURNING *`;
