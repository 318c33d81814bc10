import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unsealed } from '../src/delivery/outbox/sealing.js';
import { keepSafely, sqliteFile } from '../src/delivery/outbox/sqlite-outbox.js';
import { openSqliteRegister } from '../src/register/store/open.js';
import { countedIn, csvOfLines } from './register/counted.js';
import { fillAtOnce, rowsIn } from './register/fill.js';
import {
  IDENTIFIERS,
  identifierOf,
  LOTS,
  lotOf,
  numbers,
  personOf,
  system,
  TODAY,
} from './register/people.js';

/**
 * A register with many uses: how long its questions take, beside the bars that they have to meet and what the same disk
 * takes to make one write durable; and whether its answers are what DuckDB counts in the devices as they were made up.
 * Ends with 1 where a bar is missed or a count differs.
 *
 *   npx tsx bench/register.ts [uses] [recall lines]
 */

const USES = Number(process.argv[2] ?? 1_000_000);
const LINES = Number(process.argv[3] ?? 10_000);
const SAMPLE = 200;

const folder = mkdtempSync(join(tmpdir(), 'bench-register-'));
const ownSystem = `${system}/cases`;
const options = { sealing: unsealed, ownSystem };
let missed = false;

const time = async <T>(work: () => Promise<T>): Promise<[number, T]> => {
  const from = performance.now();
  const made = await work();
  return [performance.now() - from, made];
};
const median = (values: readonly number[]) =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
const ms = (value: number) => `${value.toFixed(value < 10 ? 2 : 0)} ms`;
const print = (what: string, value: string, more = '') =>
  void process.stdout.write(`${what.padEnd(72)} ${value.padStart(10)}  ${more}\n`);
const timed = (what: string, took: number, bar: number, more = '') => {
  if (took > bar) missed = true;
  print(what, ms(took), `${(took / bar).toFixed(2)} of ${ms(bar)}${took > bar ? ': MISSED' : ''}${more}`);
};
const same = (what: string, register: number, duck: number) => {
  if (register !== duck) missed = true;
  print(
    `  ${what}`,
    `${register}`,
    register === duck ? 'as DuckDB counts' : `DuckDB counts ${duck}: DIFFERS`,
  );
};

/** What filling at once gives, and what taking case by case gives, for a few people. */
async function checkFill(): Promise<void> {
  const people = Array.from({ length: SAMPLE }, (_, n) => personOf(n).cases);
  const paths = [join(folder, 'filled.db'), join(folder, 'taken.db')] as const;
  const filled = await sqliteFile(paths[0], 'The register');
  fillAtOnce(filled, people);
  const register = await openSqliteRegister(paths[1], options);
  for (const facts of people.flat()) await register.take({ facts, record: '' }, 0);
  const taken = await sqliteFile(paths[1], 'The register');
  const equal = rowsIn(filled) === rowsIn(taken);
  for (const one of [filled, taken, register]) await one.close();
  if (!equal) throw new Error('filling at once gives other rows than taking case by case');
  print(`filling at once gives the rows of taking in, ${SAMPLE} people`, 'yes');
}

await checkFill();
const path = join(folder, 'register.db');
const devices = join(folder, 'devices.csv');
const columns = [
  'person',
  'use',
  'family',
  'di',
  'lot',
  'serial',
  'placed',
  'ended',
  'due',
  'latest',
] as const;
const db = await sqliteFile(path, 'The register');
let people = 0;
let uses = 0;
const [filling] = await time(async () => {
  db.pragma('journal_mode = OFF');
  db.pragma('synchronous = OFF');
  const csv = openSync(devices, 'w');
  writeSync(csv, `${columns.join(',')}\n`);
  function* all() {
    while (uses < USES) {
      const { cases, truth } = personOf(people);
      writeSync(csv, truth.map(one => `${columns.map(column => one[column] ?? '').join(',')}\n`).join(''));
      people += 1;
      uses += truth.length;
      yield cases;
    }
  }
  fillAtOnce(db, all());
  closeSync(csv);
  keepSafely(db);
});
db.close();
const [opening, register] = await time(() => openSqliteRegister(path, options));
const counts = await register.counts();
print(`filled: ${counts.uses} uses of ${counts.people} people in ${counts.cases} cases`, ms(filling));
print('opened', ms(opening));

const pick = (
  random => (below: number) =>
    Math.floor(random() * below)
)(numbers(17));
const lines = Array.from({ length: LINES }, (_, n) => {
  const identifier = pick(IDENTIFIERS);
  return { line: n + 1, di: identifierOf(identifier), lot: lotOf(identifier, pick(LOTS)) };
});
const linesFile = join(folder, 'lines.csv');
writeFileSync(linesFile, csvOfLines(lines));
const counted = await countedIn(devices, linesFile, TODAY);
same('inside', counts.inside, counted.inside);

const [recalled, hits] = await time(() => register.recall(lines));
timed(`recall of ${LINES} lines: ${hits.length} hits`, recalled, 5_000);
for (const answer of ['carries now', 'carried', 'perhaps'] as const)
  same(answer, hits.filter(hit => hit.answer === answer).length, counted.recall[answer]);

const PAGE = 500;
const askOverdue = () =>
  time(async () => ({
    page: await register.plans({ overdueOn: TODAY, limit: PAGE }),
    count: await register.planCount({ overdueOn: TODAY }),
  }));
const [atFirst, overdue] = await askOverdue();
const late: number[] = [];
for (let n = 0; n < 20; n += 1) late.push((await askOverdue())[0]);
timed(
  `overdue on ${TODAY}: how many, and the first ${overdue.page.length}, median of 20`,
  median(late),
  100,
  `; the first time ${ms(atFirst)}`,
);
same('overdue', overdue.count, counted.overdue);
const [whole, all] = await time(() => register.plans({ overdueOn: TODAY }));
print(`the same as a whole: ${all.length} items`, ms(whole));
same('in the whole list', all.length, counted.overdue);

const asked: number[] = [];
let wrong = 0;
for (let n = 0; n < 100; n += 1) {
  const value = `P${pick(people)}`;
  const [took, found] = await time(async () => {
    const [person] = await register.people(value);
    return person ? register.usesOf(person.id) : [];
  });
  asked.push(took);
  if (found.filter(({ state }) => state === 'inside').length !== (await counted.insideOf(value))) wrong += 1;
}
timed('what is inside one person, slowest of 100', Math.max(...asked), 100, `, median ${ms(median(asked))}`);
same('people with another number inside', wrong, 0);
counted.close();

const fd = openSync(join(folder, 'fsync'), 'w');
const writes: number[] = [];
const changes: number[] = [];
for (const facts of Array.from({ length: SAMPLE }, (_, n) => personOf(people + n).cases).flat()) {
  const from = performance.now();
  writeSync(fd, Buffer.alloc(4_096));
  fsyncSync(fd);
  writes.push(performance.now() - from);
  changes.push((await time(() => register.take({ facts, record: '' }, 0)))[0]);
}
closeSync(fd);
print('one write of 4 kB made durable by this disk, median', ms(median(writes)));
const times = (median(changes) / median(writes)).toFixed(1);
timed(`one durable change, median of ${changes.length}`, median(changes), 20, `; ${times} times that write`);
await register.close();
rmSync(folder, { recursive: true });
process.exitCode = missed ? 1 : 0;
