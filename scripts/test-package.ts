/**
 * Packs Casetally, installs the archive in an empty folder as a stranger would, and runs it there on a copied example.
 * Ends with a plain line; any failure ends with an error.
 */
import { execFileSync, spawn } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const folder = mkdtempSync(join(tmpdir(), 'casetally-package-'));
const run = (program: string, args: readonly string[], cwd: string) =>
  execFileSync(program, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });

/** The installed program, without what looks it up. */
const casetally = (...args: readonly string[]) =>
  run(join(folder, 'node_modules', '.bin', 'casetally'), args, folder);

function need(condition: boolean, what: string): void {
  if (!condition) throw new Error(`the packed package fails: ${what}`);
  console.log(`  ${what}`);
}

/** Starts the service of the installed package once, without a site, and asks for the page and its script. */
async function servesReviewPage(): Promise<void> {
  const bin = join(folder, 'node_modules', 'casetally', 'dist', 'cli', 'main.js');
  // Installed without scripts, SQLite lacks its binding: the one that this tree was given is of the same version.
  const built = join('node_modules', 'better-sqlite3', 'build', 'Release');
  mkdirSync(join(folder, built), { recursive: true });
  const binding = join(built, 'better_sqlite3.node');
  copyFileSync(join(root, binding), join(folder, binding));
  const service = spawn('node', [bin, 'serve', '--no-auth', '--data', join(folder, 'data')], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = new Promise(resolve => service.once('close', resolve));
  try {
    const url = await new Promise<string>((resolve, reject) => {
      let text = '';
      service.stdout.on('data', (part: Buffer) => {
        text += part.toString('utf8');
        const found = /Serving at (http:\S+\d)/.exec(text)?.[1];
        if (found !== undefined) resolve(found);
      });
      void ended.then(() => reject(new Error(`the service ended: ${text}`)));
    });
    const page = await fetch(`${url}/review`);
    const script = /src="(review\/[^"]+\.js)"/.exec(await page.text())?.[1];
    const answer = await fetch(`${url}/${script}`);
    need(
      page.ok && answer.ok && (await answer.text()).includes('cases/check'),
      'casetally serve gives the review page and its script',
    );
  } finally {
    service.kill();
    await ended;
  }
}

try {
  const [packed] = JSON.parse(
    run('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', folder], root),
  ) as { filename: string; size: number }[];
  if (!packed) throw new Error('npm pack gave no file');
  console.log(`${packed.filename}, ${(packed.size / 1_048_576).toFixed(1)} MB`);
  writeFileSync(join(folder, 'package.json'), '{ "name": "trial", "private": true, "type": "module" }\n');
  run(
    'npm',
    [
      'install',
      '--no-audit',
      '--no-fund',
      '--ignore-scripts',
      '--prefer-offline',
      join(folder, packed.filename),
    ],
    folder,
  );
  need(!existsSync(join(folder, 'node_modules', '@medplum')), 'installs without the embedded server');
  copyFileSync(join(root, 'examples', 'cut-locking-drain.yaml'), join(folder, 'case.yaml'));
  need(
    run('npx', ['casetally', 'check', 'case.yaml'], folder).includes('Device tally'),
    'npx casetally check works on a copied example',
  );
  casetally('prepare', 'case.yaml', '--out', 'out');
  const document = JSON.parse(readFileSync(join(folder, 'out', 'document.json'), 'utf8')) as {
    type?: string;
  };
  need(document.type === 'document', 'casetally prepare writes a document');
  casetally('validate', join('out', 'document.json'));
  need(true, 'casetally validate finds no error in it');
  const pictures = join(folder, 'node_modules', 'casetally', 'examples', 'pictures');
  casetally('prepare', join(pictures, 'drain-check.yaml'), '--out', 'shown');
  need(
    readFileSync(join(folder, 'shown', 'report.html'), 'utf8').includes('src="data:image/jpeg;base64,'),
    'a picture beside the case file is read and shown',
  );
  let said = '';
  try {
    execFileSync('npx', ['casetally', 'sandbox'], { cwd: folder, encoding: 'utf8', stdio: 'pipe' });
  } catch (error) {
    said = error instanceof Error && 'stderr' in error ? String(error.stderr) : '';
  }
  need(
    /npm install/.test(said) && !/\n\s+at /.test(said),
    'the sandbox says which packages it lacks, and how to install them',
  );
  await servesReviewPage();
  writeFileSync(
    join(folder, 'use.ts'),
    `import { parseCase, prepareCase, checkCase, loadTools, unconfiguredSite, type Finding } from 'casetally';
import { createValidator, loadDefinitions } from 'casetally/conformance';
import { readFileSync } from 'node:fs';
const checked = checkCase(readFileSync('case.yaml'), unconfiguredSite);
if (!checked.record || !checked.assessment) throw new Error('not read');
const prepared = prepareCase(checked.record, checked.assessment, unconfiguredSite, loadTools('1'));
const findings: readonly Finding[] = prepared.findings;
console.log(findings.length, parseCase('').findings.length, createValidator(loadDefinitions()).validateText(prepared.document).issues.length);
`,
  );
  run('npx', ['--prefix', root, 'tsx', join(folder, 'use.ts')], folder);
  need(true, 'the library works from the package');
  run(
    'node',
    [
      join(root, 'node_modules', 'typescript', 'bin', 'tsc'),
      '--noEmit',
      '--strict',
      '--module',
      'nodenext',
      '--target',
      'es2023',
      '--skipLibCheck',
      '--typeRoots',
      join(root, 'node_modules', '@types'),
      '--types',
      'node',
      'use.ts',
    ],
    folder,
  );
  need(true, 'its types are found');
  console.log('package: all well');
} finally {
  rmSync(folder, { recursive: true, force: true });
}
