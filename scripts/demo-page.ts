/**
 * The case page to try out: the embedded FHIR server holds an order, kits are at hand, and what is signed leaves a minute
 * later and is delivered to that server. Prints a link to sign in with. Everything is invented, and gone when it ends.
 */
import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { startSandbox } from '../src/service/sandbox/server.js';

const examples = join(import.meta.dirname, '..', 'examples');
const folder = mkdtempSync(join(tmpdir(), 'demo-page-'));
const site = join(folder, 'intake', 'site.yaml');

const { entry } = JSON.parse(readFileSync(join(examples, 'intake', 'order.json'), 'utf8')) as {
  entry: readonly { readonly resource: object }[];
};
const server = await startSandbox({ preload: entry.map(({ resource }) => resource) });
cpSync(join(examples, 'kits'), join(folder, 'kits'), { recursive: true });
cpSync(join(examples, 'intake'), join(folder, 'intake'), { recursive: true });
writeFileSync(
  site,
  `${readFileSync(join(examples, 'intake', 'site.yaml'), 'utf8').replace('http://127.0.0.1:8090/fhir', server.baseUrl)}
drafts: { graceMinutes: 1 }
`,
);

const shared = ['--site', site, '--data', join(folder, 'data')];
const program = join(import.meta.dirname, '..', 'dist', 'cli', 'main.js');

/** A command in a process of its own; what it says is shown, but for the lines of requests, which would bury the link. */
function command(args: readonly string[], shows: boolean): Promise<void> {
  const child = spawn(process.execPath, [program, ...args, ...shared], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  createInterface({ input: child.stdout }).on('line', line => {
    if (shows && !line.startsWith('{')) console.log(line);
  });
  return new Promise(resolve => child.once('close', () => resolve()));
}
// Each ends by itself: a terminal tells all of them.
process.on('SIGINT', () => undefined);

console.log(
  `An embedded FHIR server at ${server.baseUrl} holds the order OR-24-8812 (destination "records").`,
);
console.log('Begin a case from it, scan labels such as those of examples/intake/labels.txt, and sign.');
console.log('Ctrl-C ends it.\n');
await Promise.all([
  command(['serve', '--port', process.env['PORT'] ?? '0'], true),
  command(['outbox', 'work'], false),
]);
await server.close();
rmSync(folder, { recursive: true });
