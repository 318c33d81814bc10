/**
 * Ratios that a change of speed shows in, all of one run: `npm run bench` (`--json`), out of the build (npm run build, or `--dist FOLDER`).
 * Times are processor time, best of several rounds taken in turns, so that what else the machine does counts alike for
 * both sides. How time grows with a case is `bench/scale.ts`; conformance alone `bench/conformance.ts`. What was tried
 * and did not help is in `bench/tried.md`.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type * as Check from '../src/pipeline/check.js';
import type * as Prepare from '../src/pipeline/prepare.js';
import type * as ToolsModule from '../src/pipeline/tools.js';
import type * as Pdf from '../src/report/pdf/load.js';
import type * as Sites from '../src/site/site.js';
import { exampleFiles, examplePath } from '../tests/support/examples.js';
import { cpuOf, cpuOfProcess, machine, ownDist } from './measure.js';

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    dist: { type: 'string', default: ownDist },
    rounds: { type: 'string', default: '15' },
  },
});
const dist = resolve(values.dist);
const built = async <M>(path: string): Promise<M> => import(join(dist, path));
const { checkCase } = await built<typeof Check>('pipeline/check.js');
const { prepareCase } = await built<typeof Prepare>('pipeline/prepare.js');
const { loadTools } = await built<typeof ToolsModule>('pipeline/tools.js');
const { loadPdf } = await built<typeof Pdf>('report/pdf/load.js');
const { unconfiguredSite } = await built<typeof Sites>('site/site.js');
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

/** The best time of each; they are run in turns. */
function bestOf<K extends string>(turns: number, runs: Readonly<Record<K, () => number>>): Record<K, number> {
  const names = Object.keys(runs) as K[];
  const best = Object.fromEntries(names.map(name => [name, Number.POSITIVE_INFINITY])) as Record<K, number>;
  for (let turn = 0; turn < turns; turn += 1)
    for (const name of names) best[name] = Math.min(best[name], runs[name]());
  return best;
}
const timed = (run: () => unknown) => () => cpuOf(run)[1];

const outputs = whole(tools).flatMap(({ submission, document }) => [submission, document]);
const warm = bestOf(rounds, {
  json: timed(() => outputs.map(text => JSON.stringify(JSON.parse(text)))),
  check: timed(() => texts.map(check)),
  whole: timed(() => whole(tools)),
  pdf: timed(() => whole(withPdf)),
});

const folder = mkdtempSync(join(tmpdir(), 'casetally-bench-'));
const program = join(dist, 'cli', 'main.js');
const example = examplePath('embolisation.yaml');
cpuOfProcess(program, 'prepare', example, '--out', join(folder, 'made'));
let made = 0;
const cold = bestOf(Math.ceil(rounds / 2), {
  node: () => cpuOfProcess('-e', '0'),
  check: () => cpuOfProcess(program, 'check', example),
  validate: () => cpuOfProcess(program, 'validate', join(folder, 'made', 'document.json')),
  prepare: () => {
    made += 1;
    return cpuOfProcess(program, 'prepare', example, '--out', join(folder, `${made}`));
  },
});
rmSync(folder, { recursive: true });

const rows = [
  ['a whole case without PDF, warm', 'reading and writing its JSON', warm.whole, warm.json],
  ['checking alone, warm', 'reading and writing its JSON', warm.check, warm.json],
  ['a whole case with the PDF of its document, warm', 'the same without', warm.pdf, warm.whole],
  ['`check`, cold', '`node -e 0`', cold.check, cold.node],
  ['`validate`, cold', '`node -e 0`', cold.validate, cold.node],
  ['`prepare` with four PDFs, cold', '`node -e 0`', cold.prepare, cold.node],
] as const;
if (values.json)
  console.log(
    JSON.stringify(
      {
        ...machine(),
        ratios: rows.map(([what, against, time, base]) => ({
          what,
          against,
          time,
          base,
          ratio: time / base,
        })),
      },
      undefined,
      2,
    ),
  );
else {
  console.log(
    `${Object.values(machine()).join(', ')}\n\n| what | against | ms | ms | ratio |\n|---|---|---:|---:|---:|`,
  );
  for (const [what, against, time, base] of rows)
    console.log(
      `| ${what} | ${against} | ${time.toFixed(0)} | ${base.toFixed(0)} | ${(time / base).toFixed(1)} |`,
    );
}
