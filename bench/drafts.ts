/**
 * Many people at the case page at once: `npm run bench:drafts` (`-- --clients 200 --seconds 20 --every 2000`). Each has a draft
 * of its own, listens to it, and records an event every so many milliseconds, as a hand does; the built program serves
 * them. Prints what was answered, how long it took, and stalls of the event loop of the service. Exit 1 when a stall (99th
 * percentile) reaches 50 ms, a connection was reset, or an answer was neither a success nor 503 with Retry-After.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import { Agent, fetch } from 'undici';
import { examplePath } from '../tests/support/examples.js';
import { machine, ownDist } from './measure.js';

const { values } = parseArgs({
  options: {
    clients: { type: 'string', default: '200' },
    seconds: { type: 'string', default: '20' },
    every: { type: 'string', default: '2000' },
  },
});
const [clients, seconds, every] = [Number(values.clients), Number(values.seconds), Number(values.every)];
const BAR_MS = 50;
const text = readFileSync(examplePath('abscess-drain.yaml'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'casetally-bench-drafts-'));

/** Measures the event loop of the service from the first signal to the second, and tells it on a stream of its own. */
const MEASURING = `import { writeSync } from 'node:fs';
  import { monitorEventLoopDelay } from 'node:perf_hooks';
  const delay = monitorEventLoopDelay({ resolution: 5 });
  let on = false;
  process.on('SIGUSR2', () => {
    if (on) writeSync(3, JSON.stringify({ p99: delay.percentile(99) / 1e6, max: delay.max / 1e6 }) + '\\n');
    else delay.enable();
    on = true;
  });`;

async function started(): Promise<{ readonly child: ChildProcess; readonly url: string }> {
  const child = spawn(
    process.execPath,
    [
      ...['--import', `data:text/javascript,${encodeURIComponent(MEASURING)}`],
      ...[join(ownDist, 'cli', 'main.js'), 'serve', '--no-auth', '--port', '0', '--data', folder],
    ],
    { stdio: ['ignore', 'pipe', 'ignore', 'pipe'] },
  );
  for await (const line of createInterface({ input: child.stdout as NodeJS.ReadableStream })) {
    const url = /^Serving at (http:\/\/[\d.]+:\d+)/.exec(line)?.[1];
    if (url) {
      child.stdout?.resume();
      return { child, url };
    }
  }
  throw new Error('the service did not start');
}

const { child, url } = await started();
const dispatcher = new Agent({ connections: 2 * clients + 2, headersTimeout: 0, bodyTimeout: 0 });
const told = { saved: 0, later: 0, other: 0, reset: 0, heard: 0 };
const took: number[] = [];
const by = { 'casetally-by': 'Somebody' };
const pause = (ms: number) => new Promise(resolve => setTimeout(resolve, ms));

const EVENT = '  - { at: "11:50", do: flush, device: drain }\n';

async function begin(): Promise<string> {
  const answer = await fetch(`${url}/v1/drafts`, {
    ...{ method: 'POST', body: text, dispatcher },
    headers: { 'content-type': 'application/yaml', ...by },
  });
  return ((await answer.json()) as { id: string }).id;
}

/** Hears of new versions until it is told to stop. */
async function listen(id: string, signal: AbortSignal): Promise<void> {
  try {
    const answer = await fetch(`${url}/v1/drafts/${id}/changes`, { dispatcher, signal, headers: by });
    for await (const part of answer.body ?? []) if (String(part).length > 0) told.heard += 1;
  } catch {
    if (!signal.aborted) told.reset += 1;
  }
}

interface Known {
  readonly version: number;
  readonly text: string;
}

/** As the page sends it: with the very signs that it put into its own text. */
async function edit(id: string, known: Known, n: number): Promise<Known> {
  const from = performance.now();
  try {
    const answer = await fetch(`${url}/v1/drafts/${id}`, {
      ...{ method: 'PATCH', dispatcher },
      headers: { 'content-type': 'application/json', 'if-match': `"${known.version}"` },
      body: JSON.stringify({
        ...{ batch: `batch-${id}-${n}`.slice(0, 60), by: 'Somebody' },
        edits: [{ path: 'events', insert: 'end', value: { at: '11:50', do: 'flush', device: 'drain' } }],
        exact: { at: known.text.indexOf('\n\nfindings:') + 1, was: '', is: EVENT },
      }),
    });
    took.push(performance.now() - from);
    const body = (await answer.json()) as Partial<Known>;
    if (answer.status === 200) told.saved += 1;
    else if (answer.status === 503 && answer.headers.has('retry-after')) told.later += 1;
    else told.other += 1;
    return answer.status === 200 ? { ...known, ...body } : known;
  } catch {
    told.reset += 1;
    return known;
  }
}

try {
  const ids: string[] = [];
  for (let n = 0; n < clients; n += 1) ids.push(await begin());
  const over = new AbortController();
  const listening = ids.map(id => listen(id, over.signal));
  // All are there before anything is measured.
  await pause(2_000);
  child.kill('SIGUSR2');
  const until = performance.now() + seconds * 1000;
  await Promise.all(
    ids.map(async (id, number) => {
      await pause((number * every) / clients);
      let known: Known = { version: 1, text };
      for (let n = 0; performance.now() < until; n += 1) {
        const from = performance.now();
        known = await edit(id, known, n);
        await pause(Math.max(0, every - (performance.now() - from)));
      }
    }),
  );
  const measured = once(createInterface({ input: child.stdio[3] as NodeJS.ReadableStream }), 'line');
  child.kill('SIGUSR2');
  const stall = JSON.parse(String((await measured)[0])) as { p99: number; max: number };
  over.abort();
  await Promise.all(listening);
  const at = (part: number) => [...took].sort((a, b) => a - b)[Math.floor(part * (took.length - 1))] ?? 0;
  const ms = (value: number) => `${value.toFixed(0)} ms`;
  console.log(Object.values(machine()).join(', '));
  console.log(
    `${clients} people, an event every ${every} ms: ${told.saved} saved (${(told.saved / seconds).toFixed(0)} a second), ${told.later} told to come later, ${told.other} otherwise, ${told.reset} reset, ${told.heard} heard of; ` +
      `an answer p50 ${ms(at(0.5))}, p99 ${ms(at(0.99))}; event loop p99 ${ms(stall.p99)}, longest ${ms(stall.max)}`,
  );
  if (stall.p99 >= BAR_MS || told.other > 0 || told.reset > 0) process.exitCode = 1;
} finally {
  const ended = once(child, 'close');
  child.kill('SIGKILL');
  await Promise.all([ended, dispatcher.destroy()]);
  rmSync(folder, { recursive: true, force: true });
}
