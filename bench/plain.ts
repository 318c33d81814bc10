/**
 * Runs a module of TypeScript in a process of Node alone: `tsx bench/plain.ts bench/bulk.ts …`. What translates modules
 * while they are loaded takes some 100 MB of the process that it runs in, which would count as memory of the program.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const [script = '', ...args] = process.argv.slice(2);
// In reach of the packages, which stay where they are.
const cache = join(import.meta.dirname, '..', 'node_modules', '.cache');
mkdirSync(cache, { recursive: true });
const folder = mkdtempSync(join(cache, 'bench-'));
try {
  const outfile = join(folder, 'plain.mjs');
  await build({
    ...{ entryPoints: [resolve(script)], outfile, bundle: true, packages: 'external' },
    ...{ format: 'esm', platform: 'node', target: `node${process.versions.node}`, logLevel: 'warning' },
    plugins: [
      {
        // A module finds what lies beside it where it lies itself.
        name: 'own address',
        setup({ onLoad }) {
          onLoad({ filter: /\.ts$/ }, async ({ path }) => {
            const text = await readFile(path, 'utf8');
            const contents = text
              .replaceAll('import.meta.dirname', JSON.stringify(dirname(path)))
              .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href));
            return { loader: 'ts', contents };
          });
        },
      },
    ],
  });
  process.exitCode = spawnSync(process.execPath, [outfile, ...args], { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
