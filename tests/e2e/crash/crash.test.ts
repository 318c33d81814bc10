import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { postgresPrograms, startPostgres, type TestPostgres } from '../../support/postgres.js';
import { sampled } from '../../support/sampled.js';
import { crashRound, type Round } from './rounds.js';
import type { Fault } from './server.js';

/*
 * A worker is killed (SIGKILL) around each durable step of one case, with the server doing its worst, and
 * started again. The steps: 1, 2 before and after it is taken in; 3, 4 claimed; 5, 6 begun; 7, 8 sent; 9, 10
 * settled. bench/crash.ts does the same a thousand times, at random moments and in more variations.
 */
const rows: [Fault, number][] = [
  ...[1, 2, 4, 5, 6, 7, 8, 9, 10].map((step): [Fault, number] => ['obedient', step]),
  ...[8, 10].map((step): [Fault, number] => ['commits, then drops the connection', step]),
];

const sound = { lost: [], doubled: [], stuck: [], wrong: [] };

describe('a worker that is killed', () => {
  it.each(sampled('steps at which a worker is killed', rows, 3))(
    'while the server is "%s", at step %d: nothing lost, nothing doubled, nothing stuck',
    async (fault, afterStep) => {
      const result = await crashRound({ kill: { afterStep }, faults: [fault] });
      expect(result).toEqual({ ...sound, killed: true, items: 1 });
    },
    60_000,
  );

  it.each<Partial<Round>>([
    { mode: 'transaction', lagMs: 150, corrections: 'outage' },
    { mode: 'single', lagMs: 0, corrections: 'queued' },
    { mode: 'batch', lagMs: 150, corrections: 'queued', store: 'memory' },
  ])(
    'at a random moment among several cases of one patient: the same (%j)',
    async round => {
      const faults: Fault[] = ['commits, then hangs', 'drops the connection, then commits'];
      const kill = { afterMs: 250 };
      const result = await crashRound({ kill, faults, cases: 3, patients: 2, lanes: 2, ...round });
      expect(result).toMatchObject({ ...sound, items: 7 });
    },
    60_000,
  );

  it.each(['sqlite', 'memory'] as const)(
    'and one that is not: the comparison sees a case that did arrive (%s)',
    async store => {
      const result = await crashRound({ kill: { afterStep: 1_000_000 }, faults: [], store });
      expect(result).toEqual({ ...sound, killed: false, items: 1 });
    },
    60_000,
  );
});

describe.skipIf(postgresPrograms() === undefined)('a worker whose outbox is in PostgreSQL', () => {
  let database: TestPostgres;
  beforeAll(async () => {
    database = await startPostgres();
  }, 60_000);
  afterAll(() => database.stop());

  it.each([2, 4, 6, 8, 10])(
    'and that is killed at step %d: nothing lost, nothing doubled',
    async afterStep => {
      const round = { kill: { afterStep }, faults: ['commits, then hangs'], cases: 2, lanes: 1 } as const;
      const result = await crashRound({ ...round, store: { postgres: database.address } });
      expect(result).toEqual({ ...sound, killed: true, items: 2 });
    },
    60_000,
  );
});
