/** The tables of the SQLite outbox. `user_version` counts the changes made to them. */
export const SCHEMA_VERSION = 1;

export const SCHEMA = `
CREATE TABLE item (
  sequence      INTEGER PRIMARY KEY AUTOINCREMENT,
  id            TEXT NOT NULL UNIQUE,
  destination   TEXT NOT NULL,
  case_key      TEXT NOT NULL,
  patient_key   TEXT NOT NULL,
  payload       TEXT NOT NULL,
  digest        TEXT NOT NULL,
  context       TEXT,
  state         TEXT NOT NULL CHECK (state IN ('waiting', 'sending', 'delivered', 'parked', 'discarded')),
  created_at    INTEGER NOT NULL,
  not_before    INTEGER NOT NULL,
  attempts      INTEGER NOT NULL DEFAULT 0,
  unknown_since INTEGER,
  last_reason   TEXT,
  parked        TEXT,
  receipt       TEXT,
  fence         INTEGER NOT NULL DEFAULT 0,
  lease_until   INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX item_due ON item (destination, state, not_before, sequence);
CREATE INDEX item_patient ON item (destination, patient_key, state, sequence);
CREATE INDEX item_case ON item (destination, case_key, state, sequence);
CREATE TABLE gate (
  destination  TEXT PRIMARY KEY,
  closed_until INTEGER NOT NULL,
  failures     INTEGER NOT NULL,
  paused       TEXT
) STRICT;
`;

/** The next item of a destination that may be worked on. Parameters: destination, now. */
export const CLAIMABLE = `
SELECT * FROM item AS i
WHERE i.destination = @destination
  AND ((i.state = 'waiting' AND i.not_before <= @now) OR (i.state = 'sending' AND i.lease_until <= @now))
  AND NOT EXISTS (
    SELECT 1 FROM item AS e
    WHERE e.destination = i.destination AND e.patient_key = i.patient_key AND e.sequence < i.sequence
      AND (e.state = 'sending' OR (e.state = 'waiting' AND NOT EXISTS (
        SELECT 1 FROM item AS b
        WHERE b.destination = e.destination AND b.case_key = e.case_key AND b.sequence < e.sequence
          AND b.state = 'parked'))))
  AND NOT EXISTS (
    SELECT 1 FROM item AS s
    WHERE s.destination = i.destination AND s.patient_key = i.patient_key AND s.sequence > i.sequence
      AND s.state = 'sending')
  AND NOT EXISTS (
    SELECT 1 FROM item AS p
    WHERE p.destination = i.destination AND p.case_key = i.case_key AND p.sequence < i.sequence
      AND p.state = 'parked')
ORDER BY i.sequence
LIMIT 1`;
