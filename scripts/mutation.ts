/**
 * Mutation testing of what must not be wrong: `npm run mutation` changes the source of a folder in small ways and counts
 * the changes that no test notices. It goes file by file and keeps what is known in `out/mutation`, so a run that was
 * ended goes on where it was; after `--minutes` (60) it begins no further file.
 * `npm run mutation -- devices/labels` is one folder, `devices/labels/hibc.ts` one file; `--survivors` lists what survived.
 * What no test can notice stands in `mutation-equivalent.yaml`, with the reason, and is counted apart.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { parse } from 'yaml';

/**
 * Folders of src, and the tests that are to notice: their own, since what these let pass others find by chance, and
 * without those that take long.
 */
const parts: Readonly<Record<string, readonly string[]>> = {
  'devices/labels': ['tests/devices/labels/!(oracles).test.ts'],
  'devices/tally': ['tests/devices/tally/!(examples|properties).test.ts'],
  'delivery/answer': ['tests/delivery/answer/*.test.ts'],
  // What is left out is taken as the beginning of a name.
  'delivery/outbox': ['tests/delivery/outbox/!(migration|postgres.test|processes).test.ts'],
};

const { values: flags, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    minutes: { type: 'string', default: '60' },
    concurrency: { type: 'string', default: '2' },
    survivors: { type: 'boolean', default: false },
  },
});

interface Mutant {
  readonly status: string;
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly location: { readonly start: { readonly line: number }; readonly end: { readonly line: number } };
}

const root = join(import.meta.dirname, '..');
/** Mutants that change nothing that can be seen: a part of their line, and why. */
const explained = parse(
  readFileSync(join(import.meta.dirname, 'mutation-equivalent.yaml'), 'utf8'),
) as readonly {
  readonly in: string;
  readonly line: string;
  readonly mutator?: string;
  readonly why: string;
}[];
const folder = join(root, 'out', 'mutation');
mkdirSync(folder, { recursive: true });
const reportOf = (file: string) => join(folder, `${file.replaceAll('/', '.')}.json`);

const wanted = (file: string) => positionals.length === 0 || positionals.some(name => file.startsWith(name));
const files = Object.entries(parts).flatMap(([part, tests]) =>
  readdirSync(join(root, 'src', part))
    .map(name => ({ file: `${part}/${name}`, tests }))
    .filter(({ file }) => wanted(file)),
);
if (files.length === 0) throw new Error(`no file of ${Object.keys(parts).join(', ')} is called so`);

const end = Date.now() + Number(flags.minutes) * 60_000;
for (const { file, tests } of files) {
  if (Date.now() > end) break;
  process.env['CASETALLY_TESTS'] = tests.join(' ');
  process.env['CASETALLY_TESTS_ANEW'] = 'no';
  await judge(file, [`src/${file}`], false);
  // What a module makes when it is loaded stays as it was made where modules are shared: its mutants are judged again.
  const places = alive(mutantsOf(file)).map(
    ({ location: { start, end } }) => `${start.line}-${end.line + 1}`,
  );
  if (places.length > 0) {
    process.env['CASETALLY_TESTS_ANEW'] = 'yes';
    await judge(
      file,
      [...new Set(places)].map(place => `src/${file}:${place}`),
      true,
    );
  }
  if (flags.survivors) print(file);
  console.log(`${file}: ${scored(mutantsOf(file))}`);
}

const all = files.flatMap(({ file }) => mutantsOf(file));
const missing = files.filter(({ file }) => !existsSync(reportOf(file)));
console.log(`${scored(all)}; ${missing.length} of ${files.length} files still to do`);

/** @param again true to judge anew what was judged before */
async function judge(file: string, mutate: readonly string[], again: boolean): Promise<void> {
  await new Stryker({
    mutate: [...mutate],
    force: again,
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { related: false },
    incremental: true,
    incrementalFile: reportOf(file),
    reporters: ['progress-append-only'],
    concurrency: Number(flags.concurrency),
    timeoutMS: 60_000,
    tempDirName: 'out/mutation/tmp',
    ignorePatterns: ['dist', 'out', 'vendor', 'docs', 'tests/golden'],
    allowEmpty: true,
    // It would rewrite tsconfig.json by the compiler's API, which TypeScript 7 does not have; nothing here needs it.
    tsconfigFile: 'none.json',
    logLevel: 'warn',
  } as ConstructorParameters<typeof Stryker>[0]).runMutationTest();
}

function alive(mutants: readonly Mutant[]): readonly Mutant[] {
  return mutants.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
}

function print(file: string): void {
  for (const { status, mutatorName, replacement, location } of alive(mutantsOf(file)))
    console.log(`src/${file}:${location.start.line} ${status} ${mutatorName}: ${replacement ?? ''}`);
}

function mutantsOf(file: string): Mutant[] {
  if (!existsSync(reportOf(file))) return [];
  const report: { files: Record<string, { source: string; mutants: Mutant[] }> } = JSON.parse(
    readFileSync(reportOf(file), 'utf8'),
  );
  return Object.values(report.files).flatMap(({ source, mutants: found }) => {
    const lines = source.split('\n');
    return found.map(one => (isExplained(file, one, lines) ? { ...one, status: 'Explained' } : one));
  });
}

function isExplained(
  file: string,
  { status, location, mutatorName }: Mutant,
  lines: readonly string[],
): boolean {
  return (
    (status === 'Survived' || status === 'NoCoverage') &&
    explained.some(
      one =>
        one.in === file &&
        (one.mutator === undefined || one.mutator === mutatorName) &&
        lines[location.start.line - 1]?.includes(one.line),
    )
  );
}

/** What was noticed (by a failing test, or by a test that no longer ends) of what could be. */
function scored(mutants: readonly Mutant[]): string {
  const count = (...states: string[]) => mutants.filter(({ status }) => states.includes(status)).length;
  const killed = count('Killed', 'Timeout');
  const valid = killed + count('Survived', 'NoCoverage');
  const apart = count('Explained');
  return `${killed} of ${valid} mutants noticed, score ${valid === 0 ? '-' : ((100 * killed) / valid).toFixed(1)} %${apart > 0 ? `; ${apart} that no test can notice` : ''}`;
}
