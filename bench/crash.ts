/**
 * Kills a worker again and again and counts what was lost or doubled: `npm run test:crash -- --rounds 1000`.
 * Each round: some cases, a server that misbehaves at random, SIGKILL at a random step or moment, a new start,
 * and a comparison of outbox and server. With --postgres the outbox is in a PostgreSQL server started for it, in
 * place of a SQLite file. Exit 1 when anything was lost, doubled or told differently.
 */
import { parseArgs } from 'node:util';
import { crashRound, type Round } from '../tests/e2e/crash/rounds.js';
import type { Mode } from '../tests/support/hostile/server.js';
import { startPostgres } from '../tests/support/postgres.js';

const { values } = parseArgs({
  options: {
    rounds: { type: 'string', default: '1000' },
    parallel: { type: 'string', default: '4' },
    seed: { type: 'string', default: '1' },
    postgres: { type: 'boolean', default: false },
  },
});

/** Faults after which a case must still arrive by itself. */
const MODES: readonly Mode[] = [
  'obedient',
  'commits, then drops the connection',
  'drops the connection before it commits',
  'commits, then answers 504 in HTML',
  'commits, then hangs',
  'hangs without committing',
  'commits, then sends half the answer',
  'answers in the wrong order',
  'answers 409 although it exists',
  'commits, then answers 500',
];

/** mulberry32: small, even enough, and the same rounds for the same seed. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const next = random(Number(values.seed));
const pick = (below: number) => Math.floor(next() * below);
const total = Number(values.rounds);
const database = values.postgres ? await startPostgres() : undefined;
const plan: Round[] = Array.from({ length: total }, () => ({
  kill: next() < 0.5 ? { afterStep: 1 + pick(40) } : { afterMs: pick(400) },
  modes: Array.from({ length: pick(4) }, () => MODES[pick(MODES.length)] ?? 'obedient'),
  cases: 1 + pick(4),
  lanes: 1 + pick(3),
  ...(database && { postgres: database.address }),
}));

const sum = { rounds: 0, killed: 0, losses: 0, doubles: 0, disagreements: 0 };
const started = Date.now();

async function runner(): Promise<void> {
  for (let round = plan.shift(); round; round = plan.shift()) {
    const result = await crashRound(round);
    sum.rounds += 1;
    sum.killed += result.killed ? 1 : 0;
    sum.losses += result.losses;
    sum.doubles += result.doubles;
    sum.disagreements += result.disagreements.length;
    if (result.losses + result.doubles + result.disagreements.length > 0) {
      console.log(`round ${sum.rounds}: ${JSON.stringify({ round, result })}`);
    }
    if (sum.rounds % 50 === 0) console.log(`${sum.rounds} of ${total} rounds, ${sum.killed} killed`);
  }
}

try {
  await Promise.all(Array.from({ length: Number(values.parallel) }, runner));
} finally {
  await database?.stop();
}
console.log(
  `${sum.rounds} rounds, ${sum.killed} killed, ${sum.losses} losses, ${sum.doubles} doubles, ` +
    `${sum.disagreements} disagreements, ${Math.round((Date.now() - started) / 1000)} s`,
);
process.exitCode = sum.losses + sum.doubles + sum.disagreements > 0 ? 1 : 0;
