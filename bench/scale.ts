/**
 * How the time of checking and of preparing grows with the length of a case, and what many cases take:
 * `npm run bench:scale` (`--json`; `-- --dist FOLDER` for another build; `--cases N`, 100,000 unless told otherwise, which
 * take more than an hour and 20 GB of the disk, and 0 for none).
 *
 * Processor time of this process, best of several, of the built program (npm run build); the exponent is the slope of a
 * straight line through the logarithms. A record has 500 devices at most, so that two stretches are told apart: up to
 * there a device comes with each two events, beyond it only events are added. Many cases: `bench/bulk.ts`.
 */
import { parseArgs } from 'node:util';
import type * as Check from '../src/pipeline/check.js';
import type * as Prepare from '../src/pipeline/prepare.js';
import type * as ToolsModule from '../src/pipeline/tools.js';
import type * as Sites from '../src/site/site.js';
import type { ManyCases } from './bulk.js';
import { longCase } from './long-case.js';
import { builtIn, cpuOf, machine, ownDist, resultOf } from './measure.js';

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    dist: { type: 'string', default: ownDist },
    cases: { type: 'string', default: '100000' },
  },
});
const built = builtIn(values.dist);
const { checkCase } = await built<typeof Check>('pipeline/check.js');
const { prepareCase } = await built<typeof Prepare>('pipeline/prepare.js');
const { loadTools } = await built<typeof ToolsModule>('pipeline/tools.js');
const { unconfiguredSite } = await built<typeof Sites>('site/site.js');

const tools = loadTools('bench');
const sizes = [50, 100, 200, 400, 700, 1000, 2000, 3000] as const;
const stretches = {
  'devices and events, 50 to 1000': [50, 1000],
  'events alone, 1000 to 3000': [1000, 3000],
} as const;

/** Processor time in milliseconds, the best of some rounds. */
function timesOf(events: number): {
  readonly events: number;
  readonly check: number;
  readonly prepare: number;
} {
  const text = longCase(events);
  const best = { check: Number.POSITIVE_INFINITY, prepare: Number.POSITIVE_INFINITY };
  for (let round = 0; round < (events < 500 ? 12 : 5); round += 1) {
    const [{ record, assessment, findings }, check] = cpuOf(() => checkCase(text, unconfiguredSite));
    if (!record || !assessment) throw new Error(`${events}: ${findings[0]?.code}`);
    const [, prepare] = cpuOf(() => prepareCase(record, assessment, unconfiguredSite, tools));
    best.check = Math.min(best.check, check);
    best.prepare = Math.min(best.prepare, prepare);
  }
  return { events, ...best };
}

// Once for nothing: what is compiled and kept at the first case is no part of how time grows.
timesOf(200);
const rows = sizes.map(timesOf);

function exponent([from, to]: readonly [number, number], what: 'check' | 'prepare'): number {
  const points = rows
    .filter(({ events }) => events >= from && events <= to)
    .map(row => [Math.log(row.events), Math.log(row[what])] as const);
  const mean = (at: 0 | 1) => points.reduce((sum, point) => sum + point[at], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const slope = (other: 0 | 1, middle: number) =>
    points.reduce((sum, point) => sum + (point[0] - x) * (point[other] - middle), 0);
  return slope(1, y) / slope(0, x);
}

/** What others read of the result. */
export interface Scale {
  readonly exponents: readonly {
    readonly stretch: string;
    readonly check: number;
    readonly prepare: number;
  }[];
  readonly bulk?: ManyCases | undefined;
}

const exponents: Scale['exponents'] = Object.entries(stretches).map(([stretch, span]) => ({
  stretch,
  check: exponent(span, 'check'),
  prepare: exponent(span, 'prepare'),
}));
if (!values.json) {
  console.log(
    `${Object.values(machine()).join(', ')}\n\n| events | check, ms | prepare, ms |\n|---:|---:|---:|`,
  );
  for (const { events, check, prepare } of rows)
    console.log(`| ${events} | ${check.toFixed(0)} | ${prepare.toFixed(0)} |`);
  console.log('\n| exponent in | check | prepare |\n|---|---:|---:|');
  for (const { stretch, check, prepare } of exponents)
    console.log(`| ${stretch} | ${check.toFixed(2)} | ${prepare.toFixed(2)} |`);
}

if (!values.json && values.cases !== '0') console.log(`\n${values.cases} cases one after the other:`);
const bulk = values.cases === '0' ? undefined : resultOf(['plain.ts', 'bulk.ts'], '--cases', values.cases);
if (values.json) console.log(JSON.stringify({ ...machine(), rows, exponents, bulk }, undefined, 2));
else for (const [what, value] of Object.entries(bulk ?? {})) console.log(`${what.padEnd(18)} ${value}`);
