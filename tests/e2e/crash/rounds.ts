import { spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { type Mode, startHostile } from '../../support/hostile/server.js';
import { openStore, type Store } from './store.js';

/** How one crash round is set up. */
export interface Round {
  /** Kill after this step of the child; or after so many milliseconds. */
  readonly kill: { readonly afterStep: number } | { readonly afterMs: number };
  /** What the server does to the first transactions. */
  readonly modes: readonly Mode[];
  readonly cases: number;
  /** Items sent at the same time; 1 by default, which makes the steps countable. */
  readonly lanes?: number;
  /** Address of a PostgreSQL database for the outbox, in a schema of its own; a file when absent. */
  readonly postgres?: string;
}

export interface RoundResult {
  /** Whether the process was killed before it was done. */
  readonly killed: boolean;
  /** Cases acknowledged that the server does not hold. */
  readonly losses: number;
  /** Identifiers that stand at the server more than once. */
  readonly doubles: number;
  /** Where outbox and server disagree, in words. */
  readonly disagreements: readonly string[];
}

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
export async function crashRound({ kill, modes, cases, lanes = 1, postgres }: Round): Promise<RoundResult> {
  const folder = mkdtempSync(join(tmpdir(), 'crash-'));
  const schema = `round_${randomUUID().replaceAll('-', '')}`;
  const store: Store =
    postgres === undefined ? { place: join(folder, 'outbox.db') } : { place: postgres, schema };
  const server = await startHostile();
  try {
    server.plan(...modes);
    const names = Array.from({ length: cases }, (_, i) => `case-${i}`);
    const args = ['--db', store.place, '--server', server.baseUrl, '--lanes', String(lanes)];
    if (store.schema !== undefined) args.push('--schema', store.schema);
    const dieAfter = 'afterStep' in kill ? ['--die-after', String(kill.afterStep)] : [];
    const first = await runChild(
      [...args, '--cases', names.join(','), ...dieAfter],
      'afterMs' in kill ? kill.afterMs : undefined,
    );
    if (!first.done) {
      const second = await runChild(args);
      if (!second.done) throw new Error(`the second run did not come to an end: ${second.errors}`);
    }
    const outbox = await openStore(store);
    const items = await outbox.list();
    await outbox.close();
    const holds = (name: string) =>
      server.store.resources.filter(r => JSON.stringify(r['identifier']).includes(`"${name}-`)).length;
    const disagreements = items.flatMap(item => {
      const held = holds(item.caseKey);
      if (item.state !== 'delivered') return [`${item.caseKey} is ${item.state} (${item.lastReason})`];
      const ids = new Set(server.store.resources.map(r => `${r.resourceType}/${r.id}`));
      const known = item.receipt?.entries.every(e => ids.has(`${e.type}/${e.id}`)) ?? false;
      return held === 4 && known
        ? []
        : [`${item.caseKey}: ${held} held, receipt ${known ? 'right' : 'wrong'}`];
    });
    const kept = new Set(items.map(i => i.caseKey));
    const lost = first.acknowledged.filter(name => !kept.has(name) || holds(name) !== 4);
    return {
      killed: !first.done,
      losses: lost.length,
      doubles: server.store.doubles().length,
      disagreements,
    };
  } finally {
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function runChild(
  args: readonly string[],
  killAfterMs?: number,
): Promise<{ done: boolean; acknowledged: string[]; errors: string }> {
  const file = await childFile();
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [file, ...args], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    let errors = '';
    let timer: NodeJS.Timeout | undefined;
    child.stdout.on('data', chunk => {
      // Counted from the first sign of life, so that the start of the process does not eat the time.
      if (out === '' && killAfterMs !== undefined)
        timer = setTimeout(() => child.kill('SIGKILL'), killAfterMs);
      out += chunk;
    });
    child.stderr.on('data', chunk => {
      errors += chunk;
    });
    const guard = setTimeout(() => child.kill('SIGKILL'), 60_000);
    child.on('error', reject);
    child.on('close', () => {
      clearTimeout(timer);
      clearTimeout(guard);
      const lines = out.split('\n');
      const acknowledged = lines.filter(l => l.startsWith('ack ')).map(l => l.slice(4));
      resolve({ done: lines.includes('done'), acknowledged, errors });
    });
  });
}
