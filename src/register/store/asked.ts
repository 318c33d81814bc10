import type { Steps } from '../../delivery/outbox/connection.js';

/** Notes that a destination accepted a case, and asks for a look at what it has of it: what it was told just now may be out of date. */
export function* accepted(prefix: string, name: string, destination: string, now: number): Steps<void> {
  yield {
    sql: `INSERT INTO ${prefix}accepted (case_name, destination, at) VALUES ($1, $2, $3)
      ON CONFLICT (case_name, destination) DO UPDATE
      SET at = CASE WHEN excluded.at > accepted.at THEN excluded.at ELSE accepted.at END`,
    params: [name, destination, now],
  };
  yield* ask(prefix, name, destination);
}

/** Asks for a look at what a destination has of a case; at all that accepted it, where none is named. */
export function* ask(prefix: string, name: string, destination?: string): Steps<void> {
  const of = destination === undefined ? '' : ' AND destination = $2';
  yield {
    sql: `INSERT INTO ${prefix}owed (case_name, destination, generation, due_at, leased_until, attempts, held)
      SELECT case_name, destination, 1, 0, 0, 0, 0 FROM ${prefix}accepted WHERE case_name = $1${of}
      ON CONFLICT (case_name, destination) DO UPDATE
      SET generation = owed.generation + 1, due_at = 0, attempts = 0, held = 0, reason = NULL`,
    params: destination === undefined ? [name] : [name, destination],
  };
}
