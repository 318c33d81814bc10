/**
 * Kills a worker again and again and counts what was lost, doubled or left lying: `npm run test:crash`. Each round: some
 * cases of a few patients, in a transaction, in batches or one by one, with corrections or without, to a server that
 * misbehaves at random and whose searches lag or do not; SIGKILL at a random step or moment and a new start, or a sleep
 * while a second worker goes on, and a comparison of outbox and server. `--store` says where the outbox is: sqlite, postgres (in a server started for it) or
 * memory (the worker is cut off in place of killed). Exit 1 when anything was lost, doubled, stuck or told wrongly.
 */
import { parseArgs } from 'node:util';
import { crashRound, type Round } from '../tests/e2e/crash/rounds.js';
import { FAULTS } from '../tests/e2e/crash/server.js';
import { startPostgres } from '../tests/support/postgres.js';

const { values } = parseArgs({
  options: {
    rounds: { type: 'string', default: '1000' },
    parallel: { type: 'string', default: '4' },
    seed: { type: 'string', default: '1' },
    store: { type: 'string', default: 'sqlite' },
  },
});
if (!['sqlite', 'postgres', 'memory'].includes(values.store))
  throw new Error(`--store ${values.store}: it is sqlite, postgres or memory`);

const VARIATIONS = (['transaction', 'batch', 'single'] as const).flatMap(mode =>
  (['none', 'queued', 'outage'] as const).flatMap(corrections =>
    [0, 150].map(lagMs => ({ mode, corrections, lagMs })),
  ),
);

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
/** One in three sleeps for longer than a lease lasts; in memory there is no second worker to go on. */
const sleep = () => (pick(3) > 0 || values.store === 'memory' ? {} : { asleepMs: 1_000 + pick(1_500) });
const total = Number(values.rounds);
const database = values.store === 'postgres' ? await startPostgres() : undefined;
const store = database ? { postgres: database.address } : values.store === 'memory' ? 'memory' : 'sqlite';
const plan = Array.from({ length: total }, (_, i) => {
  const variation = VARIATIONS[i % VARIATIONS.length] ?? VARIATIONS[0];
  const isSingle = variation?.mode === 'single';
  const round: Round = {
    ...variation,
    kill: {
      ...(next() < 0.5 ? { afterStep: 1 + pick(isSingle ? 120 : 60) } : { afterMs: pick(1_200) }),
      ...sleep(),
    },
    faults: Array.from({ length: pick(isSingle ? 14 : 6) }, () => FAULTS[pick(FAULTS.length)] ?? 'obedient'),
    cases: 1 + pick(4),
    patients: 1 + pick(2),
    lanes: 1 + pick(2),
    store,
  };
  return round;
});

const WHAT = ['rounds', 'killed', 'items', 'lost', 'doubled', 'stuck', 'wrong'] as const;
type Sum = Record<(typeof WHAT)[number], number>;
const empty = (): Sum => ({ rounds: 0, killed: 0, items: 0, lost: 0, doubled: 0, stuck: 0, wrong: 0 });
const sums = new Map<string, Sum>();
const sum = empty();
const started = Date.now();

async function runner(): Promise<void> {
  for (let round = plan.shift(); round; round = plan.shift()) {
    const result = await crashRound(round);
    const name = `${round.mode}, corrections ${round.corrections}, lag ${round.lagMs} ms`;
    const ofVariation = sums.get(name) ?? empty();
    sums.set(name, ofVariation);
    for (const into of [sum, ofVariation]) {
      into.rounds += 1;
      into.killed += result.killed ? 1 : 0;
      into.items += result.items;
      for (const what of ['lost', 'doubled', 'stuck', 'wrong'] as const) into[what] += result[what].length;
    }
    if (result.lost.length + result.doubled.length + result.stuck.length + result.wrong.length > 0)
      console.log(`round ${sum.rounds}: ${JSON.stringify({ round, result })}`);
    if (sum.rounds % 50 === 0) console.log(`${sum.rounds} of ${total} rounds, ${sum.killed} killed`);
  }
}

const line = (name: string, of: Sum) => `${name}: ${WHAT.map(what => `${of[what]} ${what}`).join(', ')}`;
try {
  await Promise.all(Array.from({ length: Number(values.parallel) }, runner));
} finally {
  await database?.stop();
}
for (const [name, of] of [...sums].sort()) console.log(line(name, of));
console.log(`${line(values.store, sum)}, ${Math.round((Date.now() - started) / 1000)} s`);
process.exitCode = sum.lost + sum.doubled + sum.stuck + sum.wrong > 0 ? 1 : 0;
