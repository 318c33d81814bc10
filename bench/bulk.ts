/**
 * How many cases a second `casetally bulk` stores, what memory it takes and whether either changes with how many there
 * are: `npm run bench:bulk` (`-- --cases N`, `--threads N`, `--pdf`, `--register`, `--json`). Made-up cases of 10 to 60
 * events, the same for the same seed, one a line of a file; an outbox in SQLite on the disk (gone at the end;
 * `outboxMB`). PDFs are left out unless asked for. Threads run the built program (npm run build).
 */
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { createWriteStream, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Goal } from '../src/cli/commands/bulk/job.js';
import { openJournal } from '../src/cli/commands/bulk/journal.js';
import { bulkProgress } from '../src/cli/commands/bulk/progress.js';
import { runBulk } from '../src/cli/commands/bulk/run.js';
import { openSource } from '../src/cli/commands/bulk/source.js';
import { startThreads } from '../src/cli/commands/bulk/threads.js';
import { processOutput } from '../src/cli/output.js';
import { unsealed } from '../src/delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../src/delivery/outbox/sqlite-outbox.js';
import { BulkTally } from '../src/pipeline/bulk/tally.js';
import { Turns } from '../src/pipeline/bulk/turns.js';
import { openSqliteRegister } from '../src/register/store/open.js';
import { unconfiguredSite } from '../src/site/site.js';
import { numberedCase, random } from './long-case.js';
import { machine } from './measure.js';

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '400' },
    threads: { type: 'string', default: '2' },
    seed: { type: 'string', default: '1' },
    pdf: { type: 'boolean', default: false },
    register: { type: 'boolean', default: false },
    json: { type: 'boolean', default: false },
  },
});
const [cases, threads] = [Number(values.cases), Number(values.threads)];
const folder = mkdtempSync(join(tmpdir(), 'casetally-bench-bulk-'));
const MB = 1024 * 1024;
const LOOKS = 400;

/** One case a line, each with its own number and patient. */
async function makeCases(path: string): Promise<void> {
  const next = random(Number(values.seed));
  const file = createWriteStream(path);
  for (let number = 1; number <= cases; number += 1) {
    const text = numberedCase(number, 10 + Math.floor(next() * 51));
    if (!file.write(`${text}\n`)) await once(file, 'drain');
  }
  await new Promise<void>(resolve => {
    file.end(() => resolve());
  });
}

/** What others read of the result. */
export interface ManyCases {
  readonly casesASecond: number;
  readonly drift: number;
  readonly peakMB: number;
}

interface Seen {
  readonly cases: number;
  readonly seconds: number;
  /** Processor time of all threads, in seconds. */
  readonly cpu: number;
  readonly rss: number;
}

interface Measured {
  readonly seen: readonly Seen[];
  readonly tally: BulkTally;
  readonly outboxMB: number;
}

async function measure(): Promise<Measured> {
  const path = join(folder, 'cases.ndjson');
  await makeCases(path);
  const [source, journal] = [await openSource(path), await openJournal(folder)];
  const options = { newId: () => randomUUID(), sealing: unsealed };
  const outbox = await openSqliteOutbox(join(folder, 'outbox.db'), options);
  const register = await openSqliteRegister(join(folder, 'register.db'), {
    sealing: unsealed,
    ownSystem: 'urn:bench',
  });
  const [tally, turns] = [new BulkTally(), new Turns()];
  const limits = { seconds: 600, megabytes: 512 };
  const site = { site: unconfiguredSite, given: false, folder };
  const goal: Goal = values.register
    ? { do: 'register', system: undefined }
    : { do: 'store', to: 'http://127.0.0.1:4/fhir', sign: undefined };
  const pool = await startThreads(
    { site, goal, data: folder, outbox, register, pdf: values.pdf },
    { turns, journal },
    { ...limits, threads },
  );
  const begun = performance.now();
  const seen: Seen[] = [];
  let rss = 0;
  const look = (isLast: boolean) => {
    const worked = tally.done + tally.setAside;
    rss = Math.max(rss, process.memoryUsage().rss / MB);
    // A look at each case would be kept for each case.
    if (!isLast && worked < (seen.length * cases) / LOOKS) return;
    seen.push({ cases: worked, seconds: (performance.now() - begun) / 1000, cpu: cpuSeconds(), rss });
    rss = 0;
  };
  const progress = await bulkProgress({ ...processOutput(), watched: false }, {});
  await runBulk({
    ...{ source, journal, tally, turns, limits, out: undefined, purpose: 'bench' },
    stop: new AbortController().signal,
    work: job => pool.run(job),
    atOnce: threads + 2,
    aside: { add: (name, findings) => console.error(name, findings[0]?.code) },
    onProgress: at => {
      look(false);
      const setAside = tally.setAside;
      progress.say({ at, total: source.total, cases: tally.done + setAside, setAside });
    },
  });
  look(true);
  progress.close();
  await pool.close();
  await outbox.close();
  await register.close();
  await journal.close();
  return { seen, tally, outboxMB: Math.round(statSync(join(folder, 'outbox.db')).size / MB) };
}

function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

/** Seconds of processors a case between two parts of the whole: what else the machine does matters less to them. */
function pace(seen: readonly Seen[], from: number, to: number): number {
  const at = (part: number) => seen.find(one => one.cases >= part * cases) ?? seen.at(-1);
  const [a, b] = [at(from), at(to)];
  return a && b && b.cases > a.cases ? (b.cpu - a.cpu) / (b.cases - a.cases) : Number.NaN;
}

try {
  const { seen, tally, outboxMB } = await measure();
  const seconds = seen.at(-1)?.seconds ?? 0;
  const rssOf = (from: number, to: number) =>
    Math.max(
      ...seen.filter(one => one.cases >= from * cases && one.cases <= to * cases).map(({ rss }) => rss),
    );
  const result: ManyCases & Record<string, unknown> = {
    ...machine(),
    ...{ cases, threads, pdf: values.pdf, done: tally.done, setAside: tally.setAside },
    seconds: Number(seconds.toFixed(1)),
    casesASecond: Number((cases / seconds).toFixed(2)),
    cpuMsACase: Math.round(pace(seen, 0.1, 1) * 1000),
    // The first tenth warms up.
    drift: Number((pace(seen, 0.75, 1) / pace(seen, 0.1, 0.35)).toFixed(2)),
    peakMB: Math.round(process.resourceUsage().maxRSS / 1024),
    peakFirstHalfMB: Math.round(rssOf(0, 0.5)),
    peakSecondHalfMB: Math.round(rssOf(0.5, 1)),
    outboxMB,
  };
  if (tally.done !== cases) process.exitCode = 1;
  if (values.json) console.log(JSON.stringify(result, undefined, 2));
  else for (const [what, value] of Object.entries(result)) console.log(`${what.padEnd(18)} ${value}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
