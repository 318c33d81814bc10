/**
 * Many clients at once: `npx tsx bench/service.ts -- --seconds 20 --clients 20,100`. Prints stalls of the event loop of
 * the service while clients prepare, check and print cases, what was answered and reset, how long /healthz took, and the
 * same for one process without threads. Exit 1 when a stall (99th percentile) reaches 50 ms or a connection was reset.
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
  },
});
const BAR_MS = 50;
const root = join(import.meta.dirname, '..');
const caseText = readFileSync(join(root, 'examples', 'liver-biopsy.yaml'), 'utf8');
const WORK = ['/cases/check', '/cases/prepare', '/cases/report?format=pdf', '/cases/check'];

interface Run {
  answered: number;
  turned: number;
  reset: number;
  other: number;
  healthMs: number[];
  stallMs: number;
  longestMs: number;
}

/** Starts a service of the built program in a process that measures its own event loop. */
async function started(threads: boolean) {
  const data = mkdtempSync(join(tmpdir(), 'bench-service-'));
  const child = fork(join(import.meta.dirname, 'service-process.ts'), {
    env: { ...process.env, BENCH_DATA: data, BENCH_THREADS: threads ? 'yes' : 'no' },
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  const [{ url }] = (await once(child, 'message')) as [{ url: string }];
  const told = async (what: string) => {
    const answer = once(child, 'message');
    child.send(what);
    return (await answer)[0] as { p99: number; max: number };
  };
  const stop = async () => {
    const ended = once(child, 'exit');
    child.send('stop');
    await ended;
    rmSync(data, { recursive: true, force: true });
  };
  return { url, told, stop };
}

async function run(service: Awaited<ReturnType<typeof started>>, clients: number): Promise<Run> {
  const dispatcher = new Agent({ connections: clients + 2, headersTimeout: 0, bodyTimeout: 0 });
  const result = { answered: 0, turned: 0, reset: 0, other: 0, healthMs: [] as number[] };
  const until = performance.now() + Number(values.seconds) * 1000;
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
  await service.told('measure');
  await Promise.all([watcher(), ...Array.from({ length: clients }, (_, number) => client(number))]);
  const { p99, max } = await service.told('measured');
  await dispatcher.close();
  return { ...result, stallMs: p99, longestMs: max };
}

const at = (list: readonly number[], part: number) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * part))] ?? 0;
console.log(`load of the machine before: ${loadavg()[0]?.toFixed(1)}`);
const ms = (value: number) => `${value.toFixed(1)} ms`;

let passed = true;
for (const threads of [true, false]) {
  const service = await started(threads);
  for (const clients of values.clients.split(',').map(Number)) {
    const made = await run(service, clients);
    const { answered, turned, reset, other, healthMs, stallMs, longestMs } = made;
    console.log(
      `${threads ? 'threads' : 'one process'}, ${clients} clients: ` +
        `${(answered / Number(values.seconds)).toFixed(1)} cases a second (${answered} answered, ${turned} turned away, ${other} otherwise), ` +
        `${reset} resets; event loop p99 ${ms(stallMs)}, longest ${ms(longestMs)}; ` +
        `/healthz p50 ${ms(at(healthMs, 0.5))}, p99 ${ms(at(healthMs, 0.99))}`,
    );
    if (threads && (stallMs >= BAR_MS || reset > 0 || other > 0)) passed = false;
  }
  await service.stop();
}
process.exitCode = passed ? 0 : 1;
