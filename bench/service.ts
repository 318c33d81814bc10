/**
 * Many clients at once: `npx tsx bench/service.ts -- --seconds 20 --clients 20,100`. Prints stalls of the event loop of
 * the service while clients prepare, check and print cases, what was answered and reset, how long /healthz took, what
 * processor time a case took and what memory, and the same for one process without threads and for two of them side by
 * side, which is what the machine has to give; after `--warm` seconds of the same work, since each thread has to learn what
 * is used most. Exit 1 when a stall (99th percentile) reaches 50 ms or a connection was reset.
 */
import { fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Agent, fetch } from 'undici';

const { values } = parseArgs({
  options: {
    clients: { type: 'string', default: '20,100' },
    seconds: { type: 'string', default: '20' },
    warm: { type: 'string', default: '60' },
  },
});
const BAR_MS = 50;
const root = join(import.meta.dirname, '..');
const caseText = readFileSync(join(root, 'examples', 'liver-biopsy.yaml'), 'utf8');
const SIDE_BY_SIDE = 'two processes side by side';
const WORK = ['/cases/check', '/cases/prepare', '/cases/report?format=pdf', '/cases/check'];

interface Run {
  answered: number;
  turned: number;
  reset: number;
  other: number;
  healthMs: number[];
  stallMs: number;
  longestMs: number;
  /** What a process that does nothing waited for its turn at the same time. */
  idleMs: number;
  /** Processor seconds of the service, and of the clients, who have the same processors. */
  cpu: number;
  clientCpu: number;
  /** The most memory that the service has held since it began. */
  peakMB: number;
}

/** Starts a service of the built program in a process that measures its own event loop. */
async function started(as: 'threads' | 'one process' | 'idle') {
  const data = mkdtempSync(join(tmpdir(), 'bench-service-'));
  const child = fork(join(import.meta.dirname, 'service-process.ts'), {
    env: { ...process.env, BENCH_DATA: data, BENCH_AS: as },
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  const [{ url }] = (await once(child, 'message')) as [{ url: string }];
  const told = async (what: string) => {
    const answer = once(child, 'message');
    child.send(what);
    return (await answer)[0] as { p99: number; max: number; cpu: number; peakMB: number };
  };
  const stop = async () => {
    const ended = once(child, 'exit');
    child.send('stop');
    await ended;
    rmSync(data, { recursive: true, force: true });
  };
  return { url, told, stop };
}

type Started = Awaited<ReturnType<typeof started>>;

async function run(
  service: Started,
  idle: Started | undefined,
  clients: number,
  seconds: string,
): Promise<Run> {
  const dispatcher = new Agent({ connections: clients + 2, headersTimeout: 0, bodyTimeout: 0 });
  const result = { answered: 0, turned: 0, reset: 0, other: 0, healthMs: [] as number[] };
  const until = performance.now() + Number(seconds) * 1000;
  const post = async (path: string) => {
    try {
      const answer = await fetch(service.url + path, {
        ...{ method: 'POST', body: caseText, dispatcher },
        headers: { 'content-type': 'application/yaml' },
      });
      await answer.arrayBuffer();
      if (answer.status === 200) result.answered += 1;
      else if (answer.status === 503) result.turned += 1;
      else result.other += 1;
      // Whoever is told to come again later does.
      if (answer.status === 503) await new Promise(resolve => setTimeout(resolve, 1_000));
    } catch {
      result.reset += 1;
    }
  };
  const client = async (number: number) => {
    for (let n = number; performance.now() < until; n += 1) await post(WORK[n % WORK.length] ?? '');
  };
  const watcher = async () => {
    while (performance.now() < until) {
      const before = performance.now();
      try {
        await (await fetch(`${service.url}/healthz`, { dispatcher })).arrayBuffer();
        result.healthMs.push(performance.now() - before);
      } catch {
        result.reset += 1;
      }
      await new Promise(resolve => setTimeout(resolve, 100));
    }
  };
  await Promise.all([service.told('measure'), idle?.told('measure')]);
  const before = process.cpuUsage();
  await Promise.all([watcher(), ...Array.from({ length: clients }, (_, number) => client(number))]);
  const { user, system } = process.cpuUsage(before);
  const [{ p99, max, cpu, peakMB }, beside] = await Promise.all([
    service.told('measured'),
    idle?.told('measured'),
  ]);
  await dispatcher.close();
  const clientCpu = (user + system) / 1e6;
  return { ...result, stallMs: p99, longestMs: max, idleMs: beside?.p99 ?? 0, cpu, clientCpu, peakMB };
}

const at = (list: readonly number[], part: number) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * part))] ?? 0;
console.log(`load of the machine before: ${loadavg()[0]?.toFixed(1)}`);
const ms = (value: number) => `${value.toFixed(1)} ms`;

/** Cases that are more than a case can be: how long each takes, and /healthz meanwhile. */
async function tooMuch({ url }: Started): Promise<void> {
  const devices = Array.from(
    { length: 2_000 },
    (_, i) => `  extra${i}: { kind: access needle, use: unopened }\n`,
  );
  const cases = {
    '2,000 devices': caseText.replace('devices:\n', `devices:\n${devices.join('')}`),
    'a word of 100,000 characters': caseText.replace(/planned: .*/, `planned: ${'x'.repeat(100_000)}`),
  };
  // The first case of a thread compiles what the others only run.
  for (const [name, body] of Object.entries(cases))
    for (const when of ['first', 'again']) {
      const began = performance.now();
      const asked = fetch(`${url}/cases/check`, {
        ...{ method: 'POST', body, headers: { 'content-type': 'application/yaml' } },
      });
      const health: number[] = [];
      let done = false;
      const answered = asked.then(async answer => {
        await answer.arrayBuffer();
        done = true;
        return { status: answer.status, took: performance.now() - began };
      });
      while (!done) {
        const before = performance.now();
        await (await fetch(`${url}/healthz`)).arrayBuffer();
        health.push(performance.now() - before);
      }
      const { status, took } = await answered;
      console.log(
        `${name}, ${when}: ${status} after ${ms(took)}; /healthz meanwhile ${ms(Math.max(...health))} at most`,
      );
    }
}

/** A line of the table; with more than one service, of all of them together. */
function told(name: string, clients: number, runs: readonly Run[]): number {
  const sum = (of: (run: Run) => number) => runs.reduce((all, run) => all + of(run), 0);
  const most = (of: (run: Run) => number) => Math.max(...runs.map(of));
  const answered = sum(run => run.answered);
  const rate = answered / Number(values.seconds);
  const health = runs.flatMap(({ healthMs }) => healthMs);
  console.log(
    `${name}, ${clients} clients: ${rate.toFixed(1)} cases a second ` +
      `(${answered} answered, ${sum(run => run.turned)} turned away, ${sum(run => run.other)} otherwise), ` +
      `${ms((sum(run => run.cpu) * 1000) / answered)} of processor time each and ` +
      // The clients of all services are in one process, whose time each of the runs has measured.
      `${ms((most(run => run.clientCpu) * 1000) / answered)} of the clients, ${sum(run => run.peakMB)} MB at most, ` +
      `${sum(run => run.reset)} resets; event loop p99 ${ms(most(run => run.stallMs))}, ` +
      `longest ${ms(most(run => run.longestMs))} (p99 of an idle process beside it ${ms(most(run => run.idleMs))}); ` +
      `/healthz p50 ${ms(at(health, 0.5))}, p99 ${ms(at(health, 0.99))}`,
  );
  return rate;
}

let passed = true;
const idle = await started('idle');
const counts = values.clients.split(',').map(Number);
const rates = new Map<string, number[]>();
const shapes = {
  threads: ['threads'],
  'one process': ['one process'],
  [SIDE_BY_SIDE]: ['one process', 'one process'],
} as const;
for (const [name, kinds] of Object.entries(shapes)) {
  const services: Started[] = [];
  for (const kind of kinds) services.push(await started(kind));
  const [first] = services;
  if (name === 'threads' && first) await tooMuch(first);
  const all = (clients: number, seconds: string) =>
    Promise.all(
      services.map((service, n) =>
        run(service, n === 0 ? idle : undefined, clients / services.length, seconds),
      ),
    );
  await all(20, values.warm);
  for (const clients of counts) {
    const runs = await all(clients, values.seconds);
    rates.set(name, [...(rates.get(name) ?? []), told(name, clients, runs)]);
    if (
      name === 'threads' &&
      runs.some(({ stallMs, reset, other }) => stallMs >= BAR_MS || reset > 0 || other > 0)
    )
      passed = false;
  }
  for (const service of services) await service.stop();
}
await idle.stop();
// No service on as many processors does more than processes that share nothing.
for (const [number, clients] of counts.entries()) {
  const times = (name: string) =>
    ((rates.get(name)?.[number] ?? 0) / (rates.get('one process')?.[number] ?? 0)).toFixed(2);
  console.log(
    `${clients} clients: the service does ${times('threads')} times what one process does, and ${SIDE_BY_SIDE} ${times(SIDE_BY_SIDE)} times.`,
  );
}
process.exitCode = passed ? 0 : 1;
