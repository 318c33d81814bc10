import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unsealed } from '../src/delivery/outbox/sealing.js';
import { SQLITE } from '../src/delivery/outbox/sql-schema.js';
import { SqliteConnection } from '../src/delivery/outbox/sqlite-connection.js';
import { keepSafely, sqliteFile } from '../src/delivery/outbox/sqlite-outbox.js';
import type { CaseFacts, DeviceFact } from '../src/register/facts.js';
import { registerTables } from '../src/register/store/schema.js';
import { SqlRegister } from '../src/register/store/sql-register.js';
import { RegisterTables } from '../src/register/store/tables.js';

/**
 * A register with many uses, and how long its questions take, printed beside what the same disk takes to make one
 * write durable.
 *
 *   npx tsx bench/register.ts [uses] [recall lines]
 */

const USES = Number(process.argv[2] ?? 100_000);
const LINES = Number(process.argv[3] ?? 10_000);
const PER_PERSON = 4;
const BATCH = 500;

/** Mulberry32: the same numbers in each run. */
function numbers(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const system = 'https://ids.harbour.example';
const random = numbers(17);
const pick = (n: number) => Math.floor(random() * n);
const day = (n: number) => new Date(Date.UTC(2015, 0, 1) + n * 86_400_000).toISOString().slice(0, 10);

/** Two cases of a person: the second takes one of the devices of the first out. */
function casesOf(n: number): CaseFacts[] {
  const person = { system: `${system}/mrn`, value: `P${n}` };
  const first = pick(3_500);
  const device = (i: number): DeviceFact => ({
    device: `d${i}`,
    name: 'drainage catheter',
    kind: 'drainage catheter',
    family: 'drain',
    di: String(9_506_000_000_000 + pick(2_000)).padStart(14, '0'),
    lot: `L${pick(500)}`,
    retrievable: false,
    count: 1,
    inside: 1,
    out: 0,
    open: 0,
    plans: [{ key: `p${i}`, what: 'Change', by: 'ward', due: day(first + 84), latest: day(first + 98) }],
  });
  const devices = Array.from({ length: PER_PERSON }, (_, i) => device(i));
  const [taken] = devices;
  const of = (value: string, date: string, all: readonly DeviceFact[]): CaseFacts => ({
    case: { system: `${system}/cases`, value },
    version: 1,
    status: 'final',
    digest: value,
    date,
    person,
    numbers: [person],
    devices: all,
  });
  const out: DeviceFact[] = taken
    ? [{ ...taken, device: 'old', plans: [], inside: 0, out: 1, outOn: day(first + 60), carried: {} }]
    : [];
  return [of(`A${n}`, day(first), devices), of(`B${n}`, day(first + 60), out)];
}

const folder = mkdtempSync(join(tmpdir(), 'bench-register-'));
const path = join(folder, 'register.db');
const db = await sqliteFile(path, 'The register');
keepSafely(db);
for (const sql of registerTables(SQLITE)) db.exec(sql);
const connection = new SqliteConnection(db, path);
const options = { dialect: SQLITE, sealing: unsealed, ownSystem: `${system}/cases` };
const tables = new RegisterTables(options);
const register = new SqlRegister(connection, options);

const time = async <T>(work: () => Promise<T>): Promise<[number, T]> => {
  const from = performance.now();
  const made = await work();
  return [performance.now() - from, made];
};
const median = (values: readonly number[]) =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
const ms = (value: number) => `${value.toFixed(value < 10 ? 2 : 0)} ms`;
const print = (what: string, value: string) => void process.stdout.write(`${what.padEnd(52)} ${value}\n`);

const people = Math.ceil(USES / PER_PERSON);
const [seeded] = await time(async () => {
  for (let from = 0; from < people; from += BATCH)
    await connection.transact(function* () {
      for (let n = from; n < Math.min(people, from + BATCH); n += 1)
        for (const facts of casesOf(n)) yield* tables.take({ facts, record: '' }, 0);
    });
});
const counts = await register.counts();
print(`seeded: ${counts.uses} uses of ${counts.people} people, ${counts.inside} inside`, ms(seeded));

const fd = openSync(join(folder, 'fsync'), 'w');
const writes = Array.from({ length: 200 }, () => {
  const from = performance.now();
  writeSync(fd, Buffer.alloc(4_096));
  fsyncSync(fd);
  return performance.now() - from;
});
closeSync(fd);
print('one write of 4 kB made durable by this disk, median', ms(median(writes)));

const changes: number[] = [];
for (let n = 0; n < 200; n += 1)
  for (const facts of casesOf(people + n))
    changes.push((await time(() => register.take({ facts, record: '' }, 0)))[0]);
print(
  'one durable change, median',
  `${ms(median(changes))} (${(median(changes) / median(writes)).toFixed(1)} times that)`,
);

const lines = Array.from({ length: LINES }, (_, n) => ({
  line: n + 1,
  di: String(9_506_000_000_000 + pick(2_000)).padStart(14, '0'),
  lot: `L${pick(500)}`,
}));
const [recalled, hits] = await time(() => register.recall(lines));
print(`recall of ${LINES} lines: ${hits.length} hits`, ms(recalled));
const asked: number[] = [];
for (let n = 0; n < 100; n += 1) {
  const [took] = await time(async () => {
    const [person] = await register.people(`P${pick(people)}`);
    return person && register.usesOf(person.id);
  });
  asked.push(took);
}
print('what is inside one person, median of 100', ms(median(asked)));
const [late, overdue] = await time(() => register.plans({ overdueOn: day(400) }));
print(`overdue on ${day(400)}: ${overdue.length} items`, ms(late));
const byHand = db
  .prepare<[string, string], { n: number }>(
    "SELECT count(*) AS n FROM plan p JOIN use u ON u.id = p.use_id AND u.person = p.person WHERE p.closed_how IS NULL AND u.state = 'inside' AND p.due < ? AND p.latest < ?",
  )
  .get(day(400), day(400))?.n;
if (byHand !== overdue.length) throw new Error(`the list has ${overdue.length} items, the tables ${byHand}`);
await register.close();
rmSync(folder, { recursive: true });
