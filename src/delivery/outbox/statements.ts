import type { Params, Statement, Steps } from './connection.js';

/** `$1, $2, …`, a place for each value. */
export const placesOf = (values: readonly unknown[]): string => values.map((_, n) => `$${n + 1}`).join(', ');

/** As many as one statement takes with ease. */
export function* inBatches<T>(all: readonly T[], size = 500): Generator<readonly T[]> {
  for (let at = 0; at < all.length; at += size) yield all.slice(at, at + size);
}

/** An INSERT of one row. */
export function insert(table: string, columns: readonly string[], values: Params): Statement {
  return { sql: `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${placesOf(values)})`, params: values };
}

/** A step whose rows are known to be of a kind. */
export function* asked<Row>(statement: Statement): Steps<readonly Row[]> {
  return (yield statement) as readonly unknown[] as readonly Row[];
}
