/**
 * A case from its sources: an order on the embedded server, a kit, labels as a scanner sends them, spoken lines and a dose
 * report, and what people typed beside them. Prints which lines of the record nobody typed, and the seconds that it took;
 * ends with 1 where the record is not whole.
 */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isMap, isSeq, parseDocument, type YAMLMap } from 'yaml';
import { scan } from '../src/cli/commands/intake/scan.js';
import { run } from '../src/cli/program.js';
import { startSandbox } from '../src/service/sandbox/server.js';

const examples = join(import.meta.dirname, '..', 'examples');
const at = (name: string) => join(examples, 'intake', name);
const folder = mkdtempSync(join(tmpdir(), 'demo-intake-'));
const file = join(folder, 'case.yaml');
const site = join(folder, 'intake', 'site.yaml');
const show = process.argv.includes('--show');
const output = {
  out: (text: string) => void process.stdout.write(text),
  err: (text: string) => void process.stdout.write(text),
  color: false,
};

interface Entry {
  readonly resource: object;
}
const { entry } = JSON.parse(readFileSync(at('order.json'), 'utf8')) as { entry: readonly Entry[] };
const server = await startSandbox({ preload: entry.map(({ resource }) => resource) });
cpSync(join(examples, 'kits'), join(folder, 'kits'), { recursive: true });
cpSync(join(examples, 'intake'), join(folder, 'intake'), { recursive: true });
writeFileSync(
  site,
  readFileSync(at('site.yaml'), 'utf8').replace('http://127.0.0.1:8090/fhir', server.baseUrl),
);

/** Lines of the record that say something: no comments, nothing empty, and not where its values came from. */
function tellingLines(): number {
  const text = readFileSync(file, 'utf8').replace(/^sources:\n(?:[ -].*\n)*/m, '');
  return text.split('\n').filter(line => !/^\s*(?:#|$)/.test(line)).length;
}

/** Puts what people typed into the record, as an editor would: what is there already stays. */
function type(): void {
  const record = parseDocument(readFileSync(file, 'utf8'));
  const typed = parseDocument(readFileSync(at('typed.yaml'), 'utf8'));
  joinInto(record.contents as YAMLMap, typed.contents as YAMLMap);
  writeFileSync(file, record.toString({ lineWidth: 0 }));
}
function joinInto(into: YAMLMap, from: YAMLMap): void {
  for (const { key, value } of from.items) {
    const own = into.get(key, true);
    if (isMap(own) && isMap(value)) joinInto(own, value);
    else if (isSeq(own) && isSeq(value)) own.items.push(...value.items);
    else if (own === undefined) into.set(key, value);
    else own.value = isMap(value) || isSeq(value) ? value : (value as typeof own).value;
  }
}

async function* labels() {
  yield* readFileSync(at('labels.txt'), 'utf8').trim().split('\n');
}
const casetally = (...args: string[]) => run([...args, '--site', site], output);

const steps: [string, number, number][] = [];
async function step(name: string, work: () => unknown): Promise<void> {
  console.log(`\n== ${name}`);
  const [before, started] = [steps.length === 0 ? 0 : tellingLines(), performance.now()];
  await work();
  steps.push([name, tellingLines() - before, (performance.now() - started) / 1000]);
}

await step('order and kit', () =>
  casetally(
    'new',
    '--order',
    'OR-24-8812',
    '--from',
    'records',
    '--kit',
    'nephrostomy',
    '--case',
    'SB-24-0611',
    '--date',
    '2024-03-14',
    '--out',
    file,
  ),
);
await step('six labels', () => scan(file, { site, lines: labels() }, output));
await step('typed by people', type);
await step('twenty spoken lines', () => casetally('add', file, '--lines', at('lines.txt'), '--accept'));
await step('dose report', () => casetally('add', file, '--dose', at('dose.dcm')));
console.log('\n== check');
const code = await casetally('check', file);
if (show) console.log(readFileSync(file, 'utf8'));

const all = steps.reduce((sum, [, lines]) => sum + lines, 0);
const typed = steps.find(([name]) => name === 'typed by people')?.[1] ?? 0;
console.log('\n| source | lines of the record | seconds |\n|---|---|---|');
for (const [name, lines, seconds] of steps) console.log(`| ${name} | ${lines} | ${seconds.toFixed(1)} |`);
console.log(
  `\n${all} lines, of which nobody typed ${all - typed}: ${Math.round((100 * (all - typed)) / all)} %.`,
);
await server.close();
rmSync(folder, { recursive: true });
process.exitCode = code;
