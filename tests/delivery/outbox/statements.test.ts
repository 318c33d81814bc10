import { expect, it } from 'vitest';
import { asked, inBatches, insert, placesOf } from '../../../src/delivery/outbox/statements.js';

it('a row is put in with a place for each of its values', () => {
  expect(placesOf([])).toBe('');
  expect(insert('register.note', ['id', 'text', 'at'], ['a', null, 7])).toEqual({
    sql: 'INSERT INTO register.note (id, text, at) VALUES ($1, $2, $3)',
    params: ['a', null, 7],
  });
});

it('what is asked for in a step is given as rows', () => {
  const statement = { sql: 'SELECT 1 AS n', params: [] };
  const step = asked<{ n: number }>(statement);
  expect([step.next(), step.next([{ n: 1 }])]).toEqual([
    { value: statement, done: false },
    { value: [{ n: 1 }], done: true },
  ]);
});

it('many values go in batches, each once and none empty', () => {
  /** Ten at most: what never ends must not take all memory. */
  const some = <T>(batches: Iterable<readonly T[]>) => {
    const made: (readonly T[])[] = [];
    for (const batch of batches) if (made.push(batch) === 10) break;
    return made;
  };
  const numbers = (count: number) => Array.from({ length: count }, (_, n) => n);
  expect(some(inBatches([]))).toEqual([]);
  expect(some(inBatches(numbers(4), 2))).toEqual([
    [0, 1],
    [2, 3],
  ]);
  expect(some(inBatches(numbers(3), 2))).toEqual([[0, 1], [2]]);
  expect(some(inBatches(numbers(1001))).map(batch => batch.length)).toEqual([500, 500, 1]);
});
