/**
 * Gives seeded cases to an invented registry that takes files in a folder, answers them in part, mends what was refused and
 * sends again: `npx tsx bench/registry.ts --cases 10000`. Prints what the registry holds beside what the site says of it, and
 * the seconds of each step beside those of reading and assessing the same cases without sending. Exit 1 when counts differ.
 */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { parse } from 'csv-parse/sync';
import { run } from '../src/cli/program.js';
import { checkCase } from '../src/pipeline/check.js';
import { unconfiguredSite } from '../src/site/site.js';
import { drainCase } from '../tests/support/drain-life.js';
import { examplePath } from '../tests/support/examples.js';

const { values } = parseArgs({ options: { cases: { type: 'string', default: '10000' } } });
const total = Number(values.cases);
const folder = mkdtempSync(join(tmpdir(), 'bench-registry-'));
const at = (...names: string[]) => join(folder, ...names);
for (const name of ['cases', 'answers']) mkdirSync(at(name));
writeFileSync(at('key'), 'an invented secret of the bench');
writeFileSync(
  at('site.yaml'),
  `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "https://ids.tawhai-inlet.example/cases" }
registries:
  returns: { name: Returns, key: "file:key", definition: "${examplePath('registries/implant-returns.yaml')}", folder: out, answers: answers }
`,
);

/** Two of three cases place a drain, the third exchanges that of the case before. */
function caseText(k: number, mended: boolean): string {
  const date = `2024-${String(1 + (k % 12)).padStart(2, '0')}-${String(1 + (k % 28)).padStart(2, '0')}`;
  const lot = `L${k}${mended ? 'M' : ''}`;
  const one = {
    id: `C-${String(k).padStart(6, '0')}`,
    date,
    placed: lot,
    patient: `PT-${Math.floor(k / 3)}`,
  };
  return drainCase(k % 3 === 2 ? { ...one, before: `L${k - 1}`, carried: 'date: 2023-12-01' } : one);
}
const write = (k: number, mended = false) =>
  writeFileSync(at('cases', `C-${String(k).padStart(6, '0')}.yaml`), caseText(k, mended));

async function registry(...args: string[]): Promise<{ code: number; out: string; seconds: number }> {
  const started = performance.now();
  const out: string[] = [];
  const code = await run(['registry', ...args, '--data', at('data'), '--site', at('site.yaml')], {
    out: text => void out.push(text),
    err: () => undefined,
    color: false,
  });
  return { code, out: out.join(''), seconds: (performance.now() - started) / 1000 };
}

type Row = Record<string, string>;
/** What the registry holds: the newest version of each entry that it took. */
const holds = new Map<string, Row>();
const answered = new Set<string>();
/** Takes every batch; the first time it refuses one line of ten and says nothing of one of twenty. */
function answerAll(first: boolean): void {
  for (const name of readdirSync(at('out')).filter(file => file.endsWith('.csv') && !answered.has(file))) {
    answered.add(name);
    const rows = parse(readFileSync(at('out', name)), { columns: true, delimiter: ';' }) as Row[];
    const lines = rows.flatMap((row, n) => {
      if (first && n % 20 === 7) return [];
      const refused = first && n % 10 === 3;
      if (!refused) holds.set(row['entry'] ?? '', row);
      return [`${row['entry']};${row['version']};${refused ? 'NOT TAKEN;R02' : 'TAKEN;'};`];
    });
    writeFileSync(
      at('answers', name),
      ['ENTRY;VERSION;RESULT;CODE;TEXT', ...lines, 'END;;;;', ''].join('\r\n'),
    );
  }
}
const batches = () => readdirSync(at('out')).filter(file => file.endsWith('.csv')).length;
const counts = (out: string) =>
  /(\d+) entr(?:y|ies)\s+accepted,\s+(\d+)\s+refused,\s+(\d+)\s+left/.exec(out)?.slice(1).map(Number) ?? [];

for (let k = 0; k < total; k += 1) write(k);
const started = performance.now();
for (let k = 0; k < Math.min(total, 500); k += 1) checkCase(caseText(k, false), unconfiguredSite);
const floor = ((performance.now() - started) / 1000) * (total / Math.min(total, 500));

const steps: [string, number, string][] = [];
const step = (name: string, { code, out, seconds }: Awaited<ReturnType<typeof registry>>) => {
  steps.push([name, seconds, `exit ${code}; ${out.split('\n').slice(0, 2).join(' ').trim()}`]);
  return out;
};
step('send', await registry('send', at('cases')));
const before = batches();
answerAll(true);
const mixed = counts(step('reconcile a mixed answer', await registry('reconcile')));
// Every case is mended: what was refused now has another lot, and so has everything else that was placed.
for (let k = 0; k < total; k += 1) if (k % 3 !== 2) write(k, true);
step('resend what was mended and left out', await registry('resend', at('cases')));
answerAll(false);
step('reconcile', await registry('reconcile'));
step('resend what is left', await registry('resend', at('cases'), '--refused'));
answerAll(false);
const last = counts(step('reconcile the rest', await registry('reconcile')));
const made = batches();
step('send a second time', await registry('send', at('cases')));
const again = batches() - made;

const memory = Math.round(process.resourceUsage().maxRSS / 1024);
console.log(`\n| step | s | of reading and assessing | came to |\n|---|---|---|---|`);
for (const [name, seconds, said] of steps)
  console.log(`| ${name} | ${seconds.toFixed(1)} | ${(seconds / floor).toFixed(2)} | ${said} |`);
console.log(
  `\n${total} cases, ${before} batches at first; mixed answer: ${mixed.join(' accepted, ')}; peak ${memory} MB`,
);
console.log(
  `the site says ${last[0]} accepted, ${last[1]} refused, ${last[2]} left out; the registry holds ${holds.size} entries; a second send made ${again} batches`,
);
rmSync(folder, { recursive: true });
if (last[0] !== holds.size || last[1] !== 0 || last[2] !== 0 || again !== 0) process.exitCode = 1;
