/**
 * The agreement run: our validator against the reference implementation and two JavaScript validators, over
 * published examples, our own documents and thousands of seeded mutants of both. See docs/agreement.md.
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { agreement, compare } from './compare.js';
import { type Example, publishedExamples } from './corpus/examples.js';
import { explain, explanations } from './explained.js';
import { fhirPackageOracle } from './oracles/fhir-package.js';
import { keeping } from './oracles/kept.js';
import { medplumOracle } from './oracles/medplum.js';
import { isError, type Oracle, type Verdict } from './oracles/oracle.js';
import { oursOracle } from './oracles/ours.js';
import { missing, referenceOracle } from './oracles/reference.js';
import { mutants, operators, type Pair, published } from './pairs.js';
import { list, matrix, percent } from './report.js';
import { speeds } from './speed.js';

const { values: flags } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    most: { type: 'string', default: '20' },
    family: { type: 'string' },
    operator: { type: 'string' },
    'no-speed': { type: 'boolean', default: false },
    save: { type: 'boolean', default: false },
  },
});

const why = missing();
if (why !== undefined) {
  console.log(`skipped: ${why}`);
  process.exit(0);
}

const profiles = join(import.meta.dirname, '../../profiles');
const reference = keeping(referenceOracle(existsSync(profiles) ? [profiles] : []));
const ours = oursOracle();
const peers = [keeping(medplumOracle()), keeping(fhirPackageOracle())];
let failed = false;
const fail = (text: string) => {
  failed = true;
  console.log(`FAIL: ${text}`);
};

const corpus = [...publishedExamples(), ...(await ownDocuments())];
const wanted = (pair: Pair) =>
  (flags.family === undefined || pair.family === flags.family) &&
  (flags.operator === undefined || pair.operator === flags.operator);
const originals = published(corpus).filter(pair => pair.operator === 'as-published' || wanted(pair));
const originalVerdicts = await ask(reference, originals);
// Mutants are made only from examples the reference finds clean, so that an error in a mutant comes from its mutation.
const clean = new Set(
  originals
    .filter((p, i) => p.operator === 'as-published' && !isError(verdict(originalVerdicts, i)))
    .map(p => p.example),
);
const changed = mutants(
  corpus.filter(ex => clean.has(ex.id)),
  flags.seed,
  Number(flags.most),
).filter(wanted);
const pairs = [...originals, ...changed];
const referenceVerdicts = [...originalVerdicts, ...(await ask(reference, changed))];
console.log(
  `${corpus.length} examples, ${clean.size} clean by the reference, ${operators.length} operators, ${changed.length} mutants, ${pairs.length} pairs`,
);
for (const [i, pair] of originals.entries()) {
  if (pair.example.startsWith('own/') && pair.operator === 'as-published')
    ownExample(pair, verdict(referenceVerdicts, i), 'the reference');
}

const mine = await ask(ours, pairs);
for (const [i, pair] of originals.entries()) {
  if (pair.example.startsWith('own/') && pair.operator === 'as-published')
    ownExample(pair, verdict(mine, i), 'ours');
}
const against = compare(pairs, mine, referenceVerdicts);
const known = explanations();
const used = new Set<unknown>();
const open = against.disagreements.filter(d => {
  const covering = explain(d, known);
  for (const e of covering ?? []) used.add(e);
  return covering === undefined;
});
if (flags.save) save(pairs, mine, referenceVerdicts);
console.log(`\n${matrix('reference', against)}`);
console.log(`every disagreement: ${list('reference', against.disagreements, d => explain(d, known))}`);
for (const stale of known.filter(e => !used.has(e)))
  console.log(`unused explanation: ${stale.operator} ${stale.side} ${stale.issue}`);
const missed = open.filter(d => d.side === 'missed');
console.log(
  `explained ${against.disagreements.length - open.length}, open ${open.length} (${missed.length} missed errors)`,
);
if (open.length > 0) fail(`${open.length} disagreements with the reference have no explanation`);
const explained = against.disagreements.length - open.length;
const raw = agreement(against.total);
const settled = agreement(against.total, explained);
console.log(`agreement ${percent(raw)}; over the pairs no explanation covers ${percent(settled)}`);
if (settled < 0.99) fail(`agreement with the reference is ${percent(settled)}`);
const outvoted = new Map(against.disagreements.map(d => [d.pair, explain(d, known)]));
for (const peer of peers) {
  const beside = compare(pairs, mine, await ask(peer, pairs));
  console.log(`\n${matrix(peer.name, beside)}`);
  const file = list(peer.name, beside.disagreements, d =>
    outvoted.has(d.pair) ? outvoted.get(d.pair) : `the reference implementation gives our verdict`,
  );
  console.log(`every disagreement: ${file}`);
}
if (!flags['no-speed'])
  console.log(
    `\n${await speeds(
      corpus.filter(ex => clean.has(ex.id)),
      ours,
      [reference, ...peers],
    )}`,
  );
for (const oracle of [reference, ...peers]) oracle.close();
process.exit(failed ? 1 : 0);

/** Imported late, so that a pipeline that does not load still leaves the rest of the comparison. */
async function ownDocuments(): Promise<Example[]> {
  try {
    const { ownExamples } = await import('./corpus/own.js');
    return ownExamples();
  } catch (failure) {
    fail(`our own documents cannot be prepared: ${String(failure)}`);
    return [];
  }
}

async function ask(oracle: Oracle, questions: readonly Pair[]): Promise<Verdict[]> {
  const start = performance.now();
  let shown = start;
  const verdicts = await oracle.ask(questions, done => {
    if (performance.now() - shown < 15_000) return;
    shown = performance.now();
    console.error(`${oracle.name}: ${done} of ${questions.length}, ${Math.round((shown - start) / 1000)} s`);
  });
  return verdicts;
}

function verdict(verdicts: readonly Verdict[], index: number): Verdict {
  const found = verdicts[index];
  if (!found) throw new Error(`no verdict at ${index}`);
  return found;
}

function ownExample(pair: Pair, found: Verdict, who: string): void {
  for (const issue of found.issues.filter(i => i.severity === 'error' || i.severity === 'fatal')) {
    fail(`${pair.example}: ${who} says ${issue.path} ${issue.message}`);
  }
}

/** For study: texts with both verdicts, so that a single disagreement can be opened without a run. */
function save(all: readonly Pair[], mine: readonly Verdict[], theirs: readonly Verdict[]): void {
  const folder = join(import.meta.dirname, 'out');
  mkdirSync(folder, { recursive: true });
  const rows = all.flatMap((pair, i) =>
    isError(verdict(mine, i)) === isError(verdict(theirs, i))
      ? []
      : [JSON.stringify({ ...pair, ours: mine[i], reference: theirs[i] })],
  );
  writeFileSync(join(folder, 'reference.ndjson'), `${rows.join('\n')}\n`);
}
