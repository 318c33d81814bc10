import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { arch, cpus, platform } from 'node:os';
import { join, resolve } from 'node:path';

/** The build that is measured where no other is named. */
export const ownDist = join(import.meta.dirname, '..', 'dist');

/** What something gives, and the processor time of this process that it took, in milliseconds. */
export function cpuOf<T>(run: () => T): [result: T, milliseconds: number] {
  const from = process.cpuUsage();
  const result = run();
  return [result, total(process.cpuUsage(from))];
}

const total = ({ user, system }: NodeJS.CpuUsage) => (user + system) / 1000;

/** What is said at the end of a process: its processor time, on a stream of its own. */
const TELLING = `import { writeSync } from 'node:fs';
  process.on('exit', () => writeSync(3, JSON.stringify(process.cpuUsage())));`;

/** Processor time of a whole process of Node, its start included, in milliseconds. */
export function cpuOfProcess(...args: string[]): number {
  const { output, status } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(TELLING)}`, ...args],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe', 'pipe'] },
  );
  if (status !== 0) throw new Error(`${args.join(' ')}: ${output[2] ?? ''}`);
  return total(JSON.parse(output[3] ?? '') as NodeJS.CpuUsage);
}

/** Where and with what a measurement was made. */
export function machine(): Readonly<Record<'machine' | 'node' | 'casetally', string>> {
  const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as {
    version: string;
  };
  const all = cpus();
  return {
    machine: `${all.length} x ${all[0]?.model ?? 'unknown processor'}, ${platform()} ${arch()}`,
    node: `Node.js ${process.versions.node}`,
    casetally: `Casetally ${version}`,
  };
}

/** Loads modules of a build by their path in it; types are those of the source. */
export const builtIn =
  (dist: string) =>
  async <M>(path: string): Promise<M> =>
    import(join(resolve(dist), path));

/**
 * What another of these scripts prints with `--json`, in a process of its own; what it says meanwhile is passed on.
 * @param scripts the script that is run, and those that it is told to run
 */
export function resultOf(scripts: readonly string[], ...args: string[]): unknown {
  const { status, stdout } = spawnSync(
    process.execPath,
    [...process.execArgv, ...scripts.map(name => join(import.meta.dirname, name)), ...args, '--json'],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] },
  );
  if (status !== 0) throw new Error(`${scripts.join(' ')} ended with ${status}`);
  return JSON.parse(stdout);
}
