/**
 * The tests on other releases of Node: `npm run test:node` on the two current long-term ones, `npm run test:node -- 24
 * tests/record` on one and a part. Works in copies under `out/node`: binary and headers come from the package registry,
 * and the native module of the SQLite outbox is compiled against them.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';

const longTerm = ['22', '24'];
const asked = process.argv.slice(2);
const versions = asked.filter(word => /^\d+$/.test(word));
const tests = asked.filter(word => !/^\d+$/.test(word));
const root = join(import.meta.dirname, '..');
const npm = process.env['npm_execpath'];
if (npm === undefined) throw new Error('run it as `npm run test:node`');

let failed = false;
for (const version of versions.length > 0 ? versions : longTerm) {
  const home = join(root, 'out', 'node', version);
  mkdirSync(home, { recursive: true });
  const name = `node-${process.platform}-${process.arch}`;
  const args = ['install', `${name}@${version}`, '--no-audit', '--no-fund', '--prefix', home];
  execFileSync(process.execPath, [npm, ...args], { cwd: home, stdio: ['ignore', 'ignore', 'inherit'] });
  const node = join(home, 'node_modules', name);
  const path = `${join(node, 'bin')}:${process.env['PATH'] ?? ''}`;
  // The environment outweighs an argument of node-gyp.
  const options = {
    cwd: copy(home),
    env: { ...process.env, PATH: path, npm_config_nodedir: node },
    stdio: 'inherit',
  } as const;
  const program = join(node, 'bin', 'node');
  console.log(`Node ${execFileSync(program, ['--version'], { encoding: 'utf8' }).trim()}`);
  compile(options.cwd, node, program, options.env);
  const { status } = spawnSync(program, ['node_modules/vitest/vitest.mjs', 'run', ...tests], options);
  failed ||= status !== 0;
}
process.exitCode = failed ? 1 : 0;

/** A copy of what is kept and built, its packages as links. @returns its folder. */
function copy(home: string): string {
  const folder = join(home, 'copy');
  rmSync(folder, { recursive: true, force: true });
  const kept = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8', maxBuffer: 1 << 26 });
  for (const file of [...kept.split('\0'), 'dist', 'profiles/compiled'])
    if (file !== '' && existsSync(join(root, file)))
      cpSync(join(root, file), join(folder, file), { recursive: true, preserveTimestamps: true });
  execFileSync('cp', ['-al', join(root, 'node_modules'), join(folder, 'node_modules')]);
  return folder;
}

/** Compiles the native module once a version of both. */
function compile(folder: string, node: string, program: string, env: NodeJS.ProcessEnv): void {
  const native = join(folder, 'node_modules', 'better-sqlite3');
  if (!existsSync(native)) return;
  const versionIn = (place: string): string => {
    const { version } = JSON.parse(readFileSync(join(place, 'package.json'), 'utf8')) as { version: string };
    return version;
  };
  const kept = join(dirname(folder), `better-sqlite3-${versionIn(native)}-${versionIn(node)}`);
  rmSync(join(native, 'build'), { recursive: true, force: true });
  if (!existsSync(kept)) {
    const gyp = join(dirname(npm ?? ''), '..', 'node_modules', 'node-gyp', 'bin', 'node-gyp.js');
    execFileSync(program, [gyp, 'rebuild', '--release'], {
      cwd: native,
      env,
      stdio: 'ignore',
    });
    cpSync(
      join(native, 'build', 'Release', 'better_sqlite3.node'),
      join(kept, 'Release', 'better_sqlite3.node'),
    );
  }
  cpSync(kept, join(native, 'build'), { recursive: true });
}
