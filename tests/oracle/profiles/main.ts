/**
 * Holds the profiles against the reference implementation: its verdicts on every example and every known-bad example,
 * and its snapshots beside ours. Needs what the agreement run needs; see docs/agreement.md.
 */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { snapshots } from '../../../scripts/profiles/snapshot.js';
import { isProfile, type RawElement, sources } from '../../../scripts/profiles/source.js';
import { knownBad } from '../../profiles/known-bad.js';
import { allExamples, spoilt } from '../../profiles/validators.js';
import { isError } from '../oracles/oracle.js';
import { missing, referenceOracle } from '../oracles/reference.js';

const why = missing();
if (why !== undefined) {
  console.log(`skipped: ${why}`);
  process.exit(0);
}

const top = join(import.meta.dirname, '../../..');
let failed = 0;
const fail = (text: string) => {
  failed += 1;
  console.log(`FAIL: ${text}`);
};

const oracle = referenceOracle([join(top, 'profiles')]);
const question = (id: string, text: string) => ({ id, text, profiles: [] });
const good = allExamples().map(({ resource, text }) => question(resource.id, text));
const bad = knownBad.map(one => question(`${one.profile}: ${one.what}`, spoilt(one)));
const verdicts = await oracle.ask([...good, ...bad], () => {});
oracle.close();
for (const [i, { id }] of [...good, ...bad].entries()) {
  const found = verdicts[i];
  if (!found || found.failure !== undefined) fail(`${id}: no verdict ${found?.failure ?? ''}`);
  else if (isError(found) !== i >= good.length)
    fail(
      `${id}: ${found.issues.map(x => `${x.severity} ${x.path} ${x.message}`).join('\n  ') || 'no error'}`,
    );
}
console.log(`${good.length} examples and ${bad.length} known-bad examples judged`);

const ours = snapshots(sources().filter(isProfile));
let compared = 0;
for (const { url, snapshot } of referenceSnapshots()) {
  const mine = ours.get(url) ?? [];
  const theirs = snapshot.element;
  const [a, b] = [mine, theirs].map(list => list.map(({ id }) => id).join('\n'));
  if (a !== b) fail(`${url}: other elements, or in another order`);
  for (const [i, element] of mine.entries()) {
    const other = theirs[i];
    if (other?.id !== element.id) continue;
    compared += 1;
    const [x, y] = [said(element), said(other)];
    for (const key of Object.keys(x)) {
      const [one, two] = [JSON.stringify(x[key] ?? null), JSON.stringify(y[key] ?? null)];
      if (one !== two) fail(`${url} ${element.id} ${key}: ours ${one}, the reference ${two}`);
    }
    // The reference adds the rules of the profile that a type names; a validator reads them there.
    const lacking = keys(element).filter(key => !keys(other).includes(key));
    if (lacking.length > 0) fail(`${url} ${element.id}: the reference has no rule ${lacking.join(', ')}`);
  }
}
console.log(`${ours.size} snapshots, ${compared} elements compared`);
process.exit(failed > 0 || compared === 0 ? 1 : 0);

/** What an element means; texts, and how a content reference is spelled, may differ. */
function said(element: RawElement): Record<string, unknown> {
  const { min, max, mustSupport, sliceName, type, binding, slicing, base } = element;
  const rules = slicing as { discriminator?: unknown; rules?: string } | undefined;
  const values = Object.entries(element).filter(([key]) => /^(fixed|pattern|minValue|maxValue)/.test(key));
  return {
    min,
    max,
    mustSupport: mustSupport ?? false,
    sliceName,
    type: type?.map(t => [t.code, t.profile, t.targetProfile]),
    binding: binding && [binding.strength, binding.valueSet],
    slicing: rules && [rules.discriminator, rules.rules],
    base,
    values,
  };
}

function keys({ constraint }: RawElement): string[] {
  return (constraint ?? []).map(({ key }) => key);
}

interface Made {
  readonly url: string;
  readonly snapshot: { readonly element: readonly RawElement[] };
}

function referenceSnapshots(): Made[] {
  const jars = join(top, 'tests/oracle/java/target/lib', '*');
  const folders = ['hl7.fhir.uv.ips', 'hl7.fhir.uv.extensions.r4'].map(name =>
    join(top, 'node_modules', name),
  );
  const program = join(import.meta.dirname, 'Snapshots.java');
  const printed = execFileSync('java', ['-Xmx1g', '-cp', jars, program, ...folders, join(top, 'profiles')], {
    encoding: 'utf8',
    maxBuffer: 100_000_000,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return printed
    .trim()
    .split('\n')
    .map(line => JSON.parse(line) as Made);
}
