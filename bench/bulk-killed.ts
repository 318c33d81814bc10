/**
 * Many cases through `casetally bulk`, a worker and the embedded FHIR server, with `bulk` and the worker killed on the
 * way: `npm run bench:bulk-killed` (`-- --cases N`, 10,000 unless told otherwise; `--kills N`; `--json`). At the end the
 * server must hold of each kind of resource what the cases ask for, once. Programs are the built ones (npm run build);
 * the server holds everything in memory, some 0.35 MB a case.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createWriteStream, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import Sqlite from 'better-sqlite3';
import type { Bundle } from 'fhir/r4.js';
import { checkCase } from '../src/pipeline/check.js';
import { prepareCase } from '../src/pipeline/prepare.js';
import { loadTools } from '../src/pipeline/tools.js';
import { parseSite } from '../src/site/parse.js';
import { numberedCase, random } from './long-case.js';
import { machine, ownDist } from './measure.js';

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '10000' },
    kills: { type: 'string', default: '2' },
    json: { type: 'boolean', default: false },
  },
});
const [cases, kills] = [Number(values.cases), Number(values.kills)];
const program = join(ownDist, 'cli', 'main.js');
const folder = mkdtempSync(join(tmpdir(), 'casetally-bench-killed-'));
const data = join(folder, 'data');
const started = new Set<ChildProcess>();

function start(args: readonly string[], megabytes?: number): ChildProcess {
  const memory = megabytes === undefined ? [] : [`--max-old-space-size=${megabytes}`];
  const child = spawn(process.execPath, [...memory, program, ...args], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  started.add(child);
  child.once('close', () => started.delete(child));
  return child;
}
const ended = async (child: ChildProcess): Promise<number | string | null> => {
  if (child.exitCode === null && child.signalCode === null) await once(child, 'close');
  return child.exitCode ?? child.signalCode;
};

/** The embedded server, and where it answers. */
async function startServer(): Promise<string> {
  const server = start(['sandbox'], Math.max(2_000, Math.round(cases * 0.8)));
  for await (const line of createInterface({ input: server.stdout ?? process.stdin })) {
    const url = /http:\/\/[\d.]+:\d+\/fhir/.exec(line)?.[0];
    if (url) {
      server.stdout?.resume();
      return url;
    }
  }
  throw new Error('the server did not start');
}

const siteText = (url: string) => `casetallySite: 1
name: an invented site
namespace: 5f6a2c0e-8d3b-4d6e-9b1c-2a7e4f90d1c3
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include, practitioner: include }
destinations: { records: { url: "${url}" } }
`;

type Counts = Record<string, number>;

/** One case a line, each of a patient of its own. @returns how many resources of each type they ask for */
async function makeCases(path: string, site: string): Promise<Counts> {
  const next = random(1);
  const file = createWriteStream(path);
  const tools = loadTools('bench');
  const ofLength = new Map<number, Counts>();
  const wanted: Counts = {};
  for (let number = 1; number <= cases; number += 1) {
    const length = 10 + Math.floor(next() * 11);
    const text = numberedCase(number, length);
    const counts = ofLength.get(length) ?? countsOf(text, site, tools);
    ofLength.set(length, counts);
    for (const [type, count] of Object.entries(counts)) wanted[type] = (wanted[type] ?? 0) + count;
    if (!file.write(`${text}\n`)) await once(file, 'drain');
  }
  await new Promise<void>(resolve => void file.end(resolve));
  return wanted;
}

/** What every case has of its own; people, places and products are shared by several. */
const OWN = ['Procedure', 'DeviceUseStatement', 'DocumentReference', 'Composition', 'Observation'] as const;

function countsOf(text: string, siteGiven: string, tools: ReturnType<typeof loadTools>): Counts {
  const { site } = parseSite(siteGiven);
  if (!site) throw new Error('the site cannot be read');
  const { record, assessment, findings } = checkCase(text, site);
  if (!record || !assessment) throw new Error(`a case cannot be read: ${findings[0]?.code}`);
  const { entry = [] } = JSON.parse(prepareCase(record, assessment, site, tools).submission) as Bundle;
  return Object.fromEntries(
    OWN.map(type => [type, entry.filter(({ resource }) => resource?.resourceType === type).length]),
  );
}

/** Items in the outbox by their state. */
function items(state?: string): number {
  try {
    const db = new Sqlite(join(data, 'outbox.db'), { readonly: true });
    try {
      const where = state === undefined ? '' : ` WHERE state = '${state}'`;
      return (db.prepare(`SELECT count(*) AS n FROM queue_item${where}`).get() as { n: number }).n;
    } finally {
      db.close();
    }
  } catch {
    // Not there yet.
    return 0;
  }
}

const pause = (ms: number) => new Promise(resolve => setTimeout(resolve, ms));

async function heldBy(url: string): Promise<Counts> {
  const counts: Counts = {};
  for (const type of OWN) {
    const answer = await fetch(`${url}/${type}?_summary=count`);
    counts[type] = ((await answer.json()) as Bundle).total ?? Number.NaN;
  }
  return counts;
}

try {
  const url = await startServer();
  const site = join(folder, 'site.yaml');
  writeFileSync(site, siteText(url));
  const path = join(folder, 'cases.ndjson');
  const wanted = await makeCases(path, siteText(url));
  const shared = ['--site', site, '--data', data];
  const begun = performance.now();
  let worker: ChildProcess | undefined;
  let killed = 0;
  let killedWorker = false;
  for (;;) {
    const bulk = start(['bulk', path, '--to', 'records', '--quiet', ...shared]);
    bulk.stdout?.resume();
    const at = ((killed + 1) * cases) / (kills + 1);
    while (bulk.exitCode === null && (killed >= kills || items() < at)) {
      await pause(500);
      worker ??= items() > 0 ? start(['outbox', 'work', '--log-level', 'silent', ...shared]) : undefined;
      if (worker && !killedWorker && items('delivered') > cases / 4) {
        worker.kill('SIGKILL');
        await ended(worker);
        killedWorker = true;
        worker = start(['outbox', 'work', '--log-level', 'silent', ...shared]);
      }
    }
    if (bulk.exitCode === null) {
      bulk.kill('SIGKILL');
      killed += 1;
      await ended(bulk);
      continue;
    }
    const code = await ended(bulk);
    if (code !== 0) throw new Error(`bulk ended with ${code}`);
    break;
  }
  const stored = (performance.now() - begun) / 1000;
  worker ??= start(['outbox', 'work', '--log-level', 'silent', ...shared]);
  for (let last = -1, still = 0; items('delivered') < cases && still < 240; ) {
    await pause(1000);
    const now = items('delivered');
    still = now === last ? still + 1 : 0;
    last = now;
  }
  const seconds = (performance.now() - begun) / 1000;
  const held = await heldBy(url);
  const agree =
    items() === cases && items('delivered') === cases && OWN.every(type => held[type] === wanted[type]);
  const result = {
    ...machine(),
    ...{ cases, killed, workerKilled: killedWorker, stored: items(), delivered: items('delivered') },
    secondsStoring: Math.round(stored),
    seconds: Math.round(seconds),
    casesASecond: Number((cases / seconds).toFixed(2)),
    ...Object.fromEntries(OWN.map(type => [type, `${held[type]} held, ${wanted[type]} wanted`])),
    agree,
  };
  if (values.json) console.log(JSON.stringify(result, undefined, 2));
  else for (const [what, value] of Object.entries(result)) console.log(`${what.padEnd(18)} ${value}`);
  if (!agree) process.exitCode = 1;
} finally {
  const all = [...started];
  for (const child of all) child.kill('SIGKILL');
  await Promise.all(all.map(ended));
  rmSync(folder, { recursive: true, force: true });
}
