import { execFileSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..', '..');

/** The built program: a process of it starts in a third of the time of one that compiles the source first. */
export const program: string = join(root, 'dist', 'cli', 'main.js');

/**
 * Before a run: builds `dist` and the pages in it when the source is newer, so that the tests speak about this source.
 * Types are `npm run types`.
 */
export default function build(): void {
  const run = (...args: string[]) => execFileSync(process.execPath, args, { cwd: root });
  const source = [...filesIn('src'), join(root, 'tsconfig.build.json')];
  const [bundler, builder] = [join('scripts', 'build-program.ts'), join('scripts', 'build-web.ts')];
  if (!isNewer(program, [...source, join(root, bundler)])) {
    run(join('node_modules', 'typescript', 'bin', 'tsc'), '-p', 'tsconfig.build.json', '--noCheck');
    run('--import', 'tsx', bundler);
  }
  if (!isNewer(join(root, 'dist', 'web', 'case.js'), [...source, ...filesIn('web'), join(root, builder)]))
    run('--import', 'tsx', builder);
}

const filesIn = (folder: string) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map(name =>
    join(root, folder, name),
  );

function isNewer(built: string, source: readonly string[]): boolean {
  const since = statSync(built, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return source.every(path => statSync(path).mtimeMs < since);
}
