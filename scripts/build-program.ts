/**
 * Bundles the program (`casetally`, and the threads that work on cases) into dist/cli: reading a few files instead of
 * hundreds, it starts in about two thirds of the time. The library stays a file for each module, as `tsc` writes it.
 */
import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '..');
const [source, dist] = [join(root, 'src'), join(root, 'dist')];
/** Put in place once it is whole, for programs that start meanwhile. */
const out = join(dist, `cli.${process.pid}`);
const thread = join('service', 'threads', 'case-thread');
/** The thread of `casetally bulk` stays where it lies in the source. */
const bulkThread = 'commands/bulk/thread';

await build({
  entryPoints: {
    main: join(source, 'cli', 'main.ts'),
    'case-thread': join(source, `${thread}.ts`),
    [bulkThread]: join(source, 'cli', `${bulkThread}.ts`),
  },
  outdir: out,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  packages: 'external',
  sourcemap: true,
  sourcesContent: false,
  chunkNames: 'part-[hash]',
  logLevel: 'warning',
  plugins: [
    {
      // A module finds what lies beside it, such as templates, where it would lie without a bundle.
      name: 'own address',
      setup({ onLoad }) {
        onLoad({ filter: /\.ts$/ }, async ({ path }) => {
          const text = await readFile(path, 'utf8');
          const own = relative(source, path).replace(/\.ts$/, '.js');
          const address = `new URL(${JSON.stringify(`../${own}`)}, import.meta.url).href`;
          return { loader: 'ts', contents: text.replaceAll('import.meta.url', address) };
        });
      },
    },
  ],
});
await rm(join(dist, 'cli'), { recursive: true, force: true });
await rename(out, join(dist, 'cli'));
// Where the service looks for it.
await rm(join(dist, `${thread}.js.map`), { force: true });
await writeFile(join(dist, `${thread}.js`), "import '../../cli/case-thread.js';\n");
