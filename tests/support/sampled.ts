import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..', '..');

/** Whether everything is to be run: `npm run test:all`. */
export const runsAll: boolean = process.env['CASETALLY_ALL'] === '1';

/** Whether a machine asks, and not for everything. */
export const inCI: boolean = process.env['CI'] === 'true' && !runsAll;

/**
 * What the part that is run goes by: the commit, so that a run can be made again, and that over some commits every case
 * is run. Without a repository, the change log: it changes with the source.
 */
export function seedOf(): string {
  try {
    return execFileSync('git', ['rev-parse', 'HEAD'], { cwd: root, encoding: 'utf8', stdio: 'pipe' }).trim();
  } catch {
    return readFileSync(join(root, 'CHANGELOG.md'), 'utf8');
  }
}

let current: string | undefined;

const digest = (text: string) => createHash('sha256').update(text).digest().readUInt32BE();

/** From 0 to below `stride`: the same number for the same name and commit. */
export const turnOf = (name: string, stride: number, seed: string): number =>
  digest(`${seed} ${name}`) % stride;

/** Every so many-eth of a list, from `turn` on, and what is wanted always; of a short list at least one. */
export function partAt<T>(
  all: readonly T[],
  stride: number,
  turn: number,
  always: (one: T) => boolean = () => false,
): readonly T[] {
  const step = Math.min(stride, all.length);
  // Asked of each, since `always` may go by what it was asked before.
  return all.filter((one, index) => [always(one), index % step === turn % step].includes(true));
}

/**
 * Of the cases of a test that tries all of something, the part whose turn it is: every so many-eth, spread evenly over
 * the list. All of them with CASETALLY_ALL=1. Says how many of how many.
 * @param always cases that are run whichever part is
 */
export function sampled<T>(
  name: string,
  all: readonly T[],
  stride: number,
  always?: (one: T) => boolean,
): readonly T[] {
  if (runsAll) return all;
  current ??= seedOf();
  const part = partAt(all, stride, turnOf(name, stride, current), always);
  console.log(`${name}: ${part.length} of ${all.length} cases, by the commit`);
  return part;
}

/** How many random cases are tried: a quarter, or all with CASETALLY_ALL=1. Their seeds: seeded.ts. */
export const runs = (all: number): number => (runsAll ? all : Math.ceil(all / 4));

/** What a line says that `sampled` wrote. */
export function partOf(line: string): { name: string; run: number; all: number } | undefined {
  const [, name = '', run, all] = /^(.*): (\d+) of (\d+) cases, by the commit$/.exec(line) ?? [];
  return run === undefined ? undefined : { name, run: Number(run), all: Number(all) };
}
