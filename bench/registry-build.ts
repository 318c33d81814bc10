/**
 * Makes the entries of seeded cases for an invented registry, each case opened before and given under many numbers, people
 * and days: `node --max-old-space-size=160 --import tsx bench/registry-build.ts --entries 1000000`. Prints, for a tenth of them and for all, the seconds of
 * adding and of finishing beside those of the same entries made and checked and then forgotten, and the highest memory.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { writeAll } from '../src/cli/files.js';
import { type OpenedCase, openBytes } from '../src/pipeline/open-case.js';
import { RegistryBuilder } from '../src/pipeline/registry/build.js';
import { readDefinition } from '../src/pipeline/registry/definition-file.js';
import { loadTools } from '../src/pipeline/tools.js';
import { registryEntries } from '../src/registry/entry/entries.js';
import { registrySchema } from '../src/registry/options.js';
import { unconfiguredSite } from '../src/site/site.js';
import { drainCase } from '../tests/support/drain-life.js';
import { examplePath } from '../tests/support/examples.js';

const { values } = parseArgs({ options: { entries: { type: 'string', default: '1000000' } } });
const total = Number(values.entries);
const key = { id: 'k1', secret: Buffer.from('an invented secret of the bench') };
const options = registrySchema.parse({ name: 'Returns' });
const { definition } = await readDefinition(examplePath('registries/implant-returns.yaml'), '.');
const { validator } = loadTools('bench', {});
const registry = { name: 'returns', options, key, validator, definition };
const site = { site: unconfiguredSite, given: false, folder: '.' };

const opened: OpenedCase[] = [];
for (let k = 0; k < 40; k += 1) {
  const text = drainCase({ id: `C-${k}`, date: '2024-03-04', placed: `L${k}` });
  opened.push(await openBytes(Buffer.from(text), site));
}

/** One of the opened cases under another number, on another day, of one of many people. */
function variant(k: number): OpenedCase {
  const one = opened[k % opened.length];
  const { record } = one ?? {};
  if (!one || !record) throw new Error('a seeded case has errors');
  const date = `${2015 + (k % 9)}-${String(1 + (k % 12)).padStart(2, '0')}-${String(1 + (k % 28)).padStart(2, '0')}`;
  const [number] = record.patient.identifiers;
  const identifiers = number ? [{ ...number, value: `PT-${k % 300_000}` }] : [];
  return {
    ...one,
    record: {
      ...record,
      case: { ...record.case, id: `C-${k}`, date },
      patient: { ...record.patient, identifiers },
    },
  };
}

const seconds = async (work: () => unknown): Promise<number> => {
  const started = performance.now();
  await work();
  return (performance.now() - started) / 1000;
};
const megabytes = () => Math.round(process.resourceUsage().maxRSS / 1024);

console.log(`${total} entries; ${megabytes()} MB with everything loaded\n`);
console.log(
  '| entries | add, s | finish, s | write, s | per entry made and forgotten | highest memory, MB | lines |',
);
console.log('|---|---|---|---|---|---|---|');
for (const n of [total / 10, total]) {
  const folder = mkdtempSync(join(tmpdir(), 'bench-build-'));
  const alone = await seconds(() => {
    for (let k = 0; k < n / 10; k += 1) {
      const { record, assessment } = variant(k);
      if (record && assessment) registryEntries(record, assessment, options, key);
    }
  });
  const builder = await RegistryBuilder.open(registry);
  const adding = await seconds(() => {
    for (let k = 0; k < n; k += 1) builder.add(`C-${k}.yaml`, variant(k));
  });
  let built: ReturnType<RegistryBuilder['finish']> | undefined;
  const finishing = await seconds(() => {
    built = builder.finish();
  });
  const writing = await seconds(() => built && writeAll(folder, { 'entries.csv': built.pieces() }));
  builder.close();
  const ratio = (adding + finishing + writing) / (alone * 10);
  console.log(
    `| ${n} | ${adding.toFixed(1)} | ${finishing.toFixed(1)} | ${writing.toFixed(1)} | ${ratio.toFixed(2)} | ${megabytes()} | ${built?.manifest.entries} |`,
  );
  if (n <= 100_000) {
    const written = readFileSync(join(folder, 'entries.csv'));
    const same = createHash('sha256').update(written).digest('hex') === built?.manifest.sha256;
    if (!same || built?.manifest.entries !== n) process.exitCode = 1;
  }
  rmSync(folder, { recursive: true });
}
