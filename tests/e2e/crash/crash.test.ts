import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Mode } from '../../support/hostile/server.js';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { crashRound } from './rounds.js';

/*
 * A worker is killed (SIGKILL) around each durable step of one case, with the server doing its worst, and
 * started again. The steps: 1, 2 before and after it is taken in; 3, 4 claimed; 5, 6 begun; 7, 8 sent; 9, 10
 * settled. bench/crash.ts does the same a thousand times and at random moments.
 */
const rows: [Mode, number][] = [
  ...[1, 2, 4, 5, 6, 7, 8, 9, 10].map((step): [Mode, number] => ['obedient', step]),
  ...[8, 10].map((step): [Mode, number] => ['commits, then drops the connection', step]),
];

describe('a worker that is killed', () => {
  it.each(rows)(
    'while the server is "%s", at step %d: nothing lost, nothing doubled',
    async (mode, afterStep) => {
      const result = await crashRound({ kill: { afterStep }, modes: [mode], cases: 1 });
      expect(result).toEqual({ killed: true, losses: 0, doubles: 0, disagreements: [] });
    },
  );

  it('at a random moment among several cases: the same', async () => {
    const result = await crashRound({
      kill: { afterMs: 60 },
      modes: ['commits, then hangs'],
      cases: 6,
      lanes: 3,
    });
    expect(result).toMatchObject({ losses: 0, doubles: 0, disagreements: [] });
  });

  it('and one that is not: the comparison sees a case that did arrive', async () => {
    const result = await crashRound({ kill: { afterStep: 1_000_000 }, modes: [], cases: 1 });
    expect(result).toEqual({ killed: false, losses: 0, doubles: 0, disagreements: [] });
  });
});

describe.skipIf(postgresPrograms() === undefined)('a worker whose outbox is in PostgreSQL', () => {
  let database: TestPostgres;
  beforeAll(async () => {
    database = await startPostgres();
  });
  afterAll(() => database.stop());

  it.each([2, 4, 6, 8, 10])(
    'and that is killed at step %d: nothing lost, nothing doubled',
    async afterStep => {
      const round = { kill: { afterStep }, modes: ['commits, then hangs'], cases: 2, lanes: 1 } as const;
      const result = await crashRound({ ...round, postgres: database.address });
      expect(result).toEqual({ killed: true, losses: 0, doubles: 0, disagreements: [] });
    },
  );
});
