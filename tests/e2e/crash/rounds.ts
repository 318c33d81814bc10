import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import type { OutboxItem } from '../../../src/delivery/outbox/outbox.js';
import { type CrashServer, type Fault, startCrashServer } from './server.js';
import { openStore, type Store } from './store.js';
import { LOTS, type Work, workOff } from './work.js';

/** How one crash round is set up. */
export interface Round extends Partial<Work> {
  /**
   * Kill after this step of the worker, or after so many milliseconds; or let it sleep then, as on a machine that is
   * suspended, and wake up while a second worker has gone on with its work.
   */
  readonly kill: ({ readonly afterStep: number } | { readonly afterMs: number }) & {
    readonly asleepMs?: number;
  };
  /** What the server does to the first writes. */
  readonly faults: readonly Fault[];
  /** A file; in memory, where a worker that is cut off stands for one that is killed; or the address of a database. */
  readonly store?: 'sqlite' | 'memory' | { readonly postgres: string };
}

export interface RoundResult {
  /** Whether the worker was killed before it was done. */
  readonly killed: boolean;
  readonly items: number;
  /** Versions of cases acknowledged that never came to the server, or that an older one took the place of. */
  readonly lost: readonly string[];
  /** Identifiers that stand at the server more than once. */
  readonly doubled: readonly string[];
  /** Items that are not delivered in the end. */
  readonly stuck: readonly string[];
  /** Receipts that do not fit what the server has. */
  readonly wrong: readonly string[];
}

interface Run {
  readonly done: boolean;
  readonly acknowledged: readonly string[];
  readonly errors: string;
}

/** Against hanging for ever; far more than a round needs on a busy machine. */
const LIMIT_MS = 240_000;
const source = fileURLToPath(new URL('./child.ts', import.meta.url));
let bundled: Promise<string> | undefined;

/**
 * The child as one plain file: it starts in half the time, and it is started thousands of times. It lies in the
 * project, so that the packages are found from there.
 */
function childFile(): Promise<string> {
  bundled ??= (async () => {
    const outfile = fileURLToPath(new URL('../../../out/crash-child.mjs', import.meta.url));
    const fresh = `${outfile}.${process.pid}`;
    await build({
      entryPoints: [source],
      outfile: fresh,
      bundle: true,
      platform: 'node',
      format: 'esm',
      packages: 'external',
    });
    // Moved into place in one step: several runs may do this at once.
    renameSync(fresh, outfile);
    return outfile;
  })();
  return bundled;
}

/** One round: a worker is killed, started again until it is done, and outbox and server are compared. */
export async function crashRound({ kill, faults, store = 'sqlite', ...more }: Round): Promise<RoundResult> {
  const work: Work = {
    ...{
      mode: 'transaction',
      lagMs: 0,
      cases: 1,
      patients: 1,
      corrections: 'none',
      lanes: 1,
      leaseMs: 1_000,
    },
    ...more,
  };
  const folder = mkdtempSync(join(tmpdir(), 'crash-'));
  const server = await startCrashServer(work.lagMs);
  try {
    server.plan(faults);
    if (store === 'memory') {
      const outbox = new MemoryOutbox(randomUUID);
      const first = await runHere(work, server, outbox, kill);
      const second = first.done ? undefined : await runHere(work, server, outbox);
      return compare(first, second, await outbox.list(), server);
    }
    const place: Store =
      store === 'sqlite'
        ? { place: join(folder, 'outbox.db') }
        : { place: store.postgres, schema: `round_${randomUUID().replaceAll('-', '')}` };
    const args = ['--db', place.place, '--server', server.baseUrl, '--work', JSON.stringify(work)];
    if (place.schema !== undefined) args.push('--schema', place.schema);
    const first = await runChild(args, kill);
    const second = first.done ? undefined : await runChild(args);
    const outbox = await openStore(place);
    const items = await outbox.list();
    await outbox.close();
    return compare(first, second, items, server);
  } finally {
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function compare(
  first: Run,
  second: Run | undefined,
  items: readonly OutboxItem[],
  { store }: CrashServer,
): RoundResult {
  const places = new Map(
    store.histories.map(versions => [
      `${versions[0]?.resource.resourceType}/${versions[0]?.resource.id}`,
      new Set(versions.map(({ resource }) => resource.meta.versionId)),
    ]),
  );
  const lots = (caseKey: string) =>
    store.histories
      .filter(([v]) => JSON.stringify(v?.resource['identifier']).includes(`"${caseKey}-drain"`))
      .flatMap(versions => versions.map(({ resource }) => String(resource['lotNumber'])))
      .filter((lot, i, all) => lot !== all[i - 1]);
  const ended = second ?? first;
  const stuck = items
    .filter(({ state }) => state !== 'delivered')
    .map(({ caseKey, state, lastReason }) => `${caseKey} is ${state} (${lastReason})`);
  if (!ended.done) stuck.push(`the last run did not come to an end: ${ended.errors}`);
  const lost = [...first.acknowledged, ...(second?.acknowledged ?? [])].filter(name => {
    const [caseKey = '', version = ''] = name.split('/');
    const kept = items.filter(item => item.caseKey === caseKey).length > Number(version);
    // Each version once, and none after a later one.
    const seen = lots(caseKey);
    const inOrder = seen.every((lot, i) => lot === LOTS[i]);
    const held = ['patient', 'procedure', 'drain', 'dose'].every(part =>
      store.histories.some(([v]) =>
        JSON.stringify(v?.resource['identifier']).includes(`"${caseKey}-${part}"`),
      ),
    );
    return !kept || !held || !inOrder || seen.length <= Number(version);
  });
  const wrong = items.filter(
    ({ receipt, digest }) =>
      receipt &&
      !(
        receipt.digest === digest &&
        receipt.entries.every(e => places.get(`${e.type}/${e.id}`)?.has(e.version ?? '1'))
      ),
  );
  return {
    killed: !first.done,
    items: items.length,
    lost,
    doubled: store.doubles(),
    stuck,
    wrong: wrong.map(({ caseKey }) => caseKey),
  };
}

/** A worker of this process; what kills it is that none of its calls goes through any more. */
async function runHere(
  work: Work,
  server: CrashServer,
  outbox: MemoryOutbox,
  kill?: Round['kill'],
): Promise<Run> {
  const acknowledged: string[] = [];
  let left = kill && 'afterStep' in kill ? kill.afterStep : Number.POSITIVE_INFINITY;
  const timer =
    kill && 'afterMs' in kill
      ? setTimeout(() => {
          left = 0;
        }, kill.afterMs)
      : undefined;
  const step = () => {
    if (left <= 0) throw new Error('killed');
    left -= 1;
    if (left === 0) throw new Error('killed');
  };
  const end = new Promise<never>((_, reject) => {
    setTimeout(() => reject(new Error('too long')), LIMIT_MS).unref();
  });
  try {
    const run = workOff(work, server.baseUrl, outbox, step, line => acknowledged.push(line.slice(4)));
    await Promise.race([run, end]);
    return { done: true, acknowledged, errors: '' };
  } catch (error) {
    // The other lanes end at their next step.
    left = 0;
    await sleep(350);
    return { done: false, acknowledged, errors: String(error) };
  } finally {
    clearTimeout(timer);
  }
}

async function runChild(args: readonly string[], kill?: Round['kill']): Promise<Run> {
  const file = await childFile();
  return new Promise((resolve, reject) => {
    const atStep = kill && 'afterStep' in kill ? ['--stop-after', String(kill.afterStep)] : [];
    const asleep = kill?.asleepMs === undefined ? [] : ['--asleep'];
    const child = startChild(file, [...args, ...atStep, ...asleep]);
    let out = '';
    let errors = '';
    let other: ChildProcess | undefined;
    const timers: NodeJS.Timeout[] = [];
    const after = (ms: number, work: () => void) => void timers.push(setTimeout(work, ms));
    const goOn = () => {
      other = startChild(file, [...args, '--only-deliver']);
      after(kill?.asleepMs ?? 0, () => child.kill('SIGCONT'));
    };
    child.stdout.on('data', (chunk: Buffer) => {
      // Counted from the first sign of life, so that the start of the process does not eat the time.
      if (out === '' && kill && 'afterMs' in kill)
        after(kill.afterMs, () => {
          child.kill(kill.asleepMs === undefined ? 'SIGKILL' : 'SIGSTOP');
          if (kill.asleepMs !== undefined) goOn();
        });
      if (chunk.includes('asleep')) goOn();
      out += chunk;
    });
    child.stderr.on('data', chunk => {
      errors += chunk;
    });
    after(LIMIT_MS, () => child.kill('SIGKILL'));
    child.on('error', reject);
    child.on('close', () => {
      for (const timer of timers) clearTimeout(timer);
      other?.kill('SIGKILL');
      const lines = out.split('\n');
      const acknowledged = lines.filter(l => l.startsWith('ack ')).map(l => l.slice(4));
      resolve({ done: lines.includes('done'), acknowledged, errors });
    });
  });
}

function startChild(file: string, args: readonly string[]) {
  return spawn(process.execPath, [file, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
}
