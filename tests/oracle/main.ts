/**
 * The agreement run: our validator against the reference implementation and two JavaScript validators, over
 * published examples, our own documents and thousands of seeded mutants of both. See docs/agreement.md.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { sampled } from '../support/sampled.js';
import { agreedBefore, keepAgreement, uncleanBefore } from './agreed.js';
import { agreement, compare, decidedAgreement } from './compare.js';
import { type Example, publishedExamples } from './corpus/examples.js';
import { decidedByStandard, explain, explanations } from './explained.js';
import { fhirPackageOracle } from './oracles/fhir-package.js';
import { keeping } from './oracles/kept.js';
import { medplumOracle } from './oracles/medplum.js';
import { isError, type Oracle, type Verdict } from './oracles/oracle.js';
import { oursOracle } from './oracles/ours.js';
import { missing, referenceOracle } from './oracles/reference.js';
import { asPublished, mutants, operators, type Pair, published } from './pairs.js';
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
    sample: { type: 'boolean', default: false },
  },
});

/** Texts with the verdicts of both sides, in the same order. */
interface Judged {
  readonly pairs: readonly Pair[];
  readonly ours: readonly Verdict[];
  readonly reference: readonly Verdict[];
  /** Ids of the examples in which the reference finds errors as they are. */
  readonly unclean: readonly string[];
}

const why = missing();
if (why !== undefined) {
  console.log(`skipped: ${why}`);
  process.exit(0);
}

let failed = false;
const fail = (text: string) => {
  failed = true;
  console.log(`FAIL: ${text}`);
};
const { sample } = flags;
/** A smaller part is enough where nothing that the verdicts depend on has changed since a whole run agreed. */
const [ofTexts, ofMutants] = agreedBefore() ? [12, 70] : [6, 35];
if (sample && !agreedBefore())
  console.log(
    'something that the verdicts depend on has changed since the last whole run that agreed: a larger part is judged. ' +
      'Run npm run test:oracle and commit tests/oracle/agreed.txt.',
  );
/** What is judged of a list: all, or the part whose turn it is. */
const judgedOf = <T>(name: string, all: readonly T[], stride = ofTexts) =>
  sample ? sampled(name, all, stride) : all;
const whole = !sample && flags.family === undefined && flags.operator === undefined && flags.seed === '1';
const most = Number(flags.most);
const everyExample = publishedExamples();
const corpus = judgedOf('published examples', everyExample);
// A part is judged by one process, whose start takes as long as many verdicts; no published example claims our profiles.
const profilesFolder = join(import.meta.dirname, '../../profiles');
const reference = keeping(referenceOracle(sample ? [profilesFolder] : []));
const ours = oursOracle();
const open = await judgePublished();
const own = await judgeOwn();
const judged: Judged = {
  pairs: [...open.pairs, ...own.pairs],
  ours: [...open.ours, ...own.ours],
  reference: [...open.reference, ...own.reference],
  unclean: [...open.unclean, ...own.unclean],
};
if (flags.save) save(judged);
const explained = report(judged);
// Nothing hangs on the other validators: they are for the account of a whole run.
const peers = sample ? [] : [keeping(medplumOracle()), keeping(fhirPackageOracle())];
for (const peer of peers) await reportPeer(peer, judged, explained);
if (!flags['no-speed'] && !sample) {
  const unclean = new Set(open.unclean);
  console.log(
    `\n${await speeds(
      corpus.filter(ex => !unclean.has(ex.id)),
      ours,
      [reference, ...peers],
    )}`,
  );
}
if (whole && most >= 20 && !failed) keepAgreement([...open.unclean, ...own.unclean]);
reference.close();
process.exit(failed ? 1 : 0);

async function judgePublished(): Promise<Judged> {
  const originals = published(corpus).filter(pair => pair.operator === 'as-published' || wanted(pair));
  const verdicts = await ask(reference, originals);
  const unclean = uncleanOf(originals, verdicts);
  const clean = everyExample.filter(ex => !unclean.has(ex.id));
  const made = mutants(clean, flags.seed, most).filter(wanted);
  const changed = judgedOf('mutants of published examples', made, ofMutants);
  const pairs = [...originals, ...changed];
  console.log(
    `${corpus.length} published examples, ${corpus.filter(ex => !unclean.has(ex.id)).length} clean by the reference; ${operators.length} operators, ` +
      `${changed.length} mutants, ${pairs.length} texts`,
  );
  return {
    pairs,
    ours: await ask(ours, pairs),
    reference: [...verdicts, ...(await ask(reference, changed))],
    unclean: [...unclean],
  };
}

/** Our own output, with our profiles loaded on both sides. Imported late, so that a pipeline that does not load leaves the rest. */
async function judgeOwn(): Promise<Judged> {
  try {
    const { ownCorpus, ownDefinitions } = await import('./corpus/own.js');
    const own = ownCorpus();
    const whole = judgedOf('our own documents', own.whole);
    const parts = judgedOf('our own resources', own.parts);
    const withProfiles = sample ? reference : keeping(referenceOracle([profilesFolder]));
    const definitions = ownDefinitions();
    const mine = oursOracle(definitions.source, definitions.resources);
    const originals = asPublished(dedupe([...whole, ...parts]));
    const verdicts = await ask(withProfiles, originals);
    const unclean = uncleanOf(originals, verdicts);
    // Our own kinds of resource are fewer, so a few mutants of each operator go round.
    const made = mutants(
      own.parts.filter(ex => !unclean.has(ex.id)),
      flags.seed,
      Math.ceil(most / 4),
    ).filter(wanted);
    const changed = judgedOf('mutants of our own resources', made, ofMutants);
    const pairs = [...originals, ...changed];
    const answers = await ask(mine, pairs);
    const faults = originals.flatMap((pair, i) => [
      ...errorsIn(pair, verdict(verdicts, i), 'the reference'),
      ...errorsIn(pair, verdict(answers, i), 'ours'),
    ]);
    for (const fault of faults) fail(fault);
    console.log(
      `${whole.length} submissions, documents and profile examples of our own and ${parts.length} single resources, ` +
        `${originals.filter(pair => unclean.has(pair.example)).length} with errors by the reference; ${changed.length} mutants`,
    );
    const all = [...verdicts, ...(await ask(withProfiles, changed))];
    if (withProfiles !== reference) withProfiles.close();
    return { pairs, ours: answers, reference: all, unclean: [...unclean] };
  } catch (failure) {
    fail(`our own documents cannot be judged: ${String(failure)}`);
    return { pairs: [], ours: [], reference: [], unclean: [] };
  }
}

/** Prints the matrix and what has no explanation; returns why each disagreement is as it is, where known. */
function report({
  pairs,
  ours: mine,
  reference: theirs,
}: Judged): ReadonlyMap<Pair, ReturnType<typeof explain>> {
  const against = compare(pairs, mine, theirs);
  const known = explanations();
  const reasons = new Map(against.disagreements.map(d => [d.pair, explain(d, known)]));
  const used = new Set([...reasons.values()].flatMap(covering => covering ?? []));
  const unexplained = against.disagreements.filter(d => reasons.get(d.pair) === undefined);
  const missed = unexplained.filter(d => d.side === 'missed').length;
  console.log(`\n${matrix('reference', against)}`);
  console.log(`every disagreement: ${list('reference', against.disagreements, d => reasons.get(d.pair))}`);
  for (const stale of known.filter(e => !used.has(e))) {
    console.log(`unused explanation: ${stale.operator} ${stale.side} ${stale.issue}`);
  }
  const count = against.disagreements.length - unexplained.length;
  const settled = agreement(against.total, count);
  console.log(`explained ${count}, unexplained ${unexplained.length} (${missed} errors that ours missed)`);
  const { decided, remembered } = decidedByStandard(reasons.values());
  console.log(
    `agreement ${percent(agreement(against.total))}; over the texts no explanation covers ${percent(settled)}`,
  );
  console.log(
    `agreement where the standard decides ${percent(decidedAgreement(against.total, decided))}: ` +
      `${decided} disagreements counted for ours because the reference contradicts a cited sentence of the ` +
      `standard (${remembered} of them by a sentence given from memory), ` +
      `${against.disagreements.length - decided} counted against`,
  );
  if (unexplained.length > 0)
    fail(`${unexplained.length} disagreements with the reference have no explanation`);
  if (settled < 0.99) fail(`agreement with the reference is ${percent(settled)}`);
  return reasons;
}

async function reportPeer(
  peer: Oracle,
  { pairs, ours: mine }: Judged,
  reasons: ReadonlyMap<Pair, ReturnType<typeof explain>>,
): Promise<void> {
  const beside = compare(pairs, mine, await ask(peer, pairs));
  console.log(`\n${matrix(peer.name, beside)}`);
  const file = list(peer.name, beside.disagreements, d =>
    reasons.has(d.pair) ? reasons.get(d.pair) : 'the reference implementation gives our verdict',
  );
  console.log(`every disagreement: ${file}`);
}

function wanted(pair: Pair): boolean {
  return (
    (flags.family === undefined || pair.family === flags.family) &&
    (flags.operator === undefined || pair.operator === flags.operator)
  );
}

/**
 * Ids of the examples in which the reference finds errors as they are: no mutants are made of them. Of those that are not
 * judged, the last whole run tells: so a part of the mutants is a part of what that run made.
 */
function uncleanOf(pairs: readonly Pair[], verdicts: readonly Verdict[]): Set<string> {
  const unclean = pairs.filter((p, i) => p.operator === 'as-published' && isError(verdict(verdicts, i)));
  return new Set([...(sample ? uncleanBefore() : []), ...unclean.map(p => p.example)]);
}

function dedupe(examples: readonly Example[]): Example[] {
  return [...new Map(examples.map(ex => [ex.id, ex])).values()];
}

async function ask(oracle: Oracle, questions: readonly Pair[]): Promise<Verdict[]> {
  const start = performance.now();
  let shown = start;
  return oracle.ask(questions, done => {
    if (performance.now() - shown < 15_000) return;
    shown = performance.now();
    console.error(`${oracle.name}: ${done} of ${questions.length}, ${Math.round((shown - start) / 1000)} s`);
  });
}

function verdict(verdicts: readonly Verdict[], index: number): Verdict {
  const found = verdicts[index];
  if (!found) throw new Error(`no verdict at ${index}`);
  return found;
}

function errorsIn(pair: Pair, found: Verdict, who: string): string[] {
  const wrong = found.issues.filter(i => i.severity === 'error' || i.severity === 'fatal');
  return [
    ...(found.failure === undefined ? [] : [`${pair.example}: ${who} crashed: ${found.failure}`]),
    ...wrong.slice(0, 5).map(i => `${pair.example}: ${who} says ${i.path} ${i.message.slice(0, 300)}`),
  ];
}

/** For study: the disagreements with both verdicts, so that one can be opened without a run. */
function save({ pairs, ours: mine, reference: theirs }: Judged): void {
  const folder = join(import.meta.dirname, 'out');
  mkdirSync(folder, { recursive: true });
  const rows = pairs.flatMap((pair, i) =>
    isError(verdict(mine, i)) === isError(verdict(theirs, i))
      ? []
      : [JSON.stringify({ ...pair, ours: mine[i], reference: theirs[i] })],
  );
  writeFileSync(join(folder, 'reference.ndjson'), `${rows.join('\n')}\n`);
}
