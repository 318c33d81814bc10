import { expect, it } from 'vitest';
import { changesSince, postgresIn, SQLITE } from '../../../src/delivery/outbox/sql-schema.js';

/* What was released once stays as it was: stores of every version are brought up to the present one. */
it.each([
  [0, 2],
  [1, 2],
  [2, 1],
  [3, 0],
])('a store of version %d needs %d changes, the last ones', (version, count) => {
  const all = [
    'ALTER TABLE item ADD COLUMN overwrite INTEGER NOT NULL DEFAULT 0',
    'ALTER TABLE item ADD COLUMN accepted text',
  ];
  expect(changesSince(version, SQLITE)).toEqual(all.slice(all.length - count));
});

it('each database says it in its own words', () => {
  expect(changesSince(1, postgresIn('s'))).toEqual([
    'ALTER TABLE s.item ADD COLUMN overwrite bigint NOT NULL DEFAULT 0',
    'ALTER TABLE s.item ADD COLUMN accepted text',
  ]);
});
