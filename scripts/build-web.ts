/** Builds the review page into dist/web, where `casetally serve` reads it: scripts compiled, the rest as it is; the words of the HTML are filled in by the service. */
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const out = join(root, 'dist', 'web');

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
for (const file of ['review.html', 'frame.html', 'review.css', 'controls.css', 'print.css'])
  copyFileSync(join(root, 'web', file), join(out, file));
execFileSync(
  process.execPath,
  [join(root, 'node_modules', 'typescript', 'bin', 'tsc'), '-p', join(root, 'web')],
  { stdio: 'inherit' },
);
// The page takes the types of its words from src; what the compiler writes of those files belongs to nobody.
rmSync(join(root, 'dist', 'src'), { recursive: true, force: true });
