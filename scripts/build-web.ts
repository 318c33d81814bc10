/** Builds the pages of the service into dist/web, where `casetally serve` reads them: scripts bundled, the rest as it is; the words of the HTML are filled in by the service. */
import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '..');
const web = join(root, 'web');
const built = join(root, 'dist', 'web');
/** Put in place once it is whole: a service that starts meanwhile finds one or the other. */
const out = `${built}.${process.pid}`;
/** Bytes from which a script is also kept packed: nobody packs it for each request. */
const WORTH_PACKING = 20_000;

mkdirSync(out, { recursive: true });
for (const file of readdirSync(web))
  if (/\.(html|css)$/.test(file)) copyFileSync(join(web, file), join(out, file));
await build({
  entryPoints: [
    { in: join(web, 'review.ts'), out: 'review' },
    { in: join(web, 'sign-in.ts'), out: 'sign-in' },
    { in: join(web, 'case', 'main.tsx'), out: 'case' },
    { in: join(web, 'case', 'style', 'page.css'), out: 'case' },
    { in: join(web, 'case', 'engine', 'thread.ts'), out: 'case-engine' },
    { in: join(web, 'case', 'offline', 'worker.ts'), out: 'case-offline' },
  ],
  outdir: out,
  bundle: true,
  minify: true,
  format: 'esm',
  target: 'es2022',
  platform: 'browser',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  legalComments: 'eof',
  logLevel: 'warning',
});
for (const file of readdirSync(out)) {
  const body = readFileSync(join(out, file));
  if (file.endsWith('.js') && body.byteLength >= WORTH_PACKING)
    writeFileSync(join(out, `${file}.gz`), gzipSync(body, { level: 9 }));
}
rmSync(built, { recursive: true, force: true });
renameSync(out, built);
