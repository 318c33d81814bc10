import { stops } from '../../../findings/finding.js';
import { type RegistryBuild, RegistryBuilder } from '../../../pipeline/registry/build.js';
import type { BuiltFile } from '../../../pipeline/registry/collect.js';
import { openRegistry } from '../../../pipeline/registry/in-use.js';
import { heldToRing } from '../../../pipeline/registry/key-ring.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { joined, writeAll } from '../../files.js';
import { counted, jsonText, type Output } from '../../output.js';
import { hasSubmissions, openSubmissions } from '../../process.js';
import { numbers, numbersLine } from '../../terminal/counts.js';
import { filled } from '../../terminal/fill.js';
import { findingsText, ownLines } from '../../terminal/findings.js';
import { openSite } from '../open-site.js';
import { collectCases, type RegistryFlags, validatorOf } from './open.js';

interface BuildFlags extends RegistryFlags {
  readonly out?: string;
}

/** Builds the entries of cases for one registry. What an error holds back is left out and named. */
export async function buildRegistry(
  places: readonly string[],
  flags: BuildFlags,
  output: Output,
): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const registry = await openRegistry(site, flags.registry, validatorOf(site));
  const { name, options, key, definition } = registry;
  if (options.key !== undefined && hasSubmissions(flags.data)) {
    const submissions = await openSubmissions(flags.data);
    try {
      await heldToRing(name, key, options, submissions, Date.now());
    } finally {
      await submissions.close();
    }
  }
  const builder = await RegistryBuilder.open(registry);
  try {
    const { unread, sources } = await collectCases(places, builder, { site }, flags, output);
    const built = builder.finish();
    const file = `entries.${EXTENSIONS[definition?.format.kind ?? 'fhir ndjson']}`;
    if (flags.out !== undefined)
      await writeAll(flags.out, { [file]: built.pieces(), 'manifest.json': jsonText(built.manifest) });
    const settings = [...registry.findings, ...built.findings];
    const results: Iterable<BuiltFile> = {
      *[Symbol.iterator]() {
        if (settings.length > 0) yield { file: flags.site ?? 'registry', findings: settings };
        yield* built.files;
      },
    };
    const came = summed(results);
    const said = { built, results, came, left: came.left + built.manifest.unreadable };
    if (flags.json) tellInJson(name, file, flags, said, output);
    else tell(name, flags, said, sources, output);
    if (unread.length > 0 || built.noCase) return exitCodes.usage;
    return came.held ? exitCodes.findings : exitCodes.ok;
  } finally {
    builder.close();
  }
}

/** A build, what there is to say of each file, and what that comes to. */
interface Told {
  readonly built: RegistryBuild;
  readonly results: Iterable<BuiltFile>;
  readonly came: Summed;
  /** Files that gave no entry though they should have: held back, waiting or unreadable. */
  readonly left: number;
}

interface Summed {
  /** Findings of each kind. */
  readonly found: readonly number[];
  readonly left: number;
  /** True where anything is held back or waits. */
  readonly held: boolean;
}

function summed(results: Iterable<BuiltFile>): Summed {
  let found: readonly number[] = [];
  let [left, held] = [0, false];
  for (const { fate, findings } of results) {
    found = numbers(findings).map((n, kind) => n + (found[kind] ?? 0));
    if (fate === 'held back' || fate === 'waiting') left += 1;
    held ||= fate === 'waiting' || findings.some(stops);
  }
  return { found, left, held };
}

/** Written piece by piece: the whole can be larger than any text may be. */
function tellInJson(
  name: string,
  file: string,
  flags: BuildFlags,
  { built, results, left }: Told,
  output: Output,
): void {
  const { manifest } = built;
  const plain = file === 'entries.ndjson' ? 'ndjson' : 'text';
  output.out(`{\n  "registry": ${jsonText(name).trimEnd()},\n`);
  if (flags.out === undefined) {
    output.out(`  "${plain}": "`);
    for (const piece of joined(built.pieces())) output.out(jsonText(piece).trimEnd().slice(1, -1));
    output.out('",\n');
  } else output.out(`  "out": ${jsonText(flags.out).trimEnd()},\n`);
  output.out(`  "manifest": ${jsonText(manifest).trimEnd()},\n  "leftOut": ${left},\n  "results": [`);
  let between = '\n';
  for (const one of results) {
    output.out(`${between}${jsonText(one).trimEnd()}`);
    between = ',\n';
  }
  output.out('\n  ]\n}\n');
}

/** What came of it stands before the reasons. */
function tell(
  name: string,
  { out }: BuildFlags,
  { built, results, came, left }: Told,
  sources: ReadonlyMap<string, Uint8Array>,
  output: Output,
): void {
  const { manifest } = built;
  const made = `${counted(manifest.entries, 'entry', 'entries')} of ${counted(manifest.cases, 'case', 'cases')} for ${name}`;
  const where = out === undefined ? '' : ` written to ${out}`;
  const without = left === 0 ? '' : `; ${counted(left, 'case', 'cases')} left out`;
  const line = filled(`${made}${where}${without}; ${numbersLine(came.found)}`, output.columns, '', '  ');
  if (out !== undefined) output.out(line);
  else if (came.found.some(n => n > 0)) output.err(line);
  for (const { file: of, findings } of results) {
    const source = sources.get(of);
    output.err(findingsText(of, findings, output, source && ownLines(output, source)));
  }
  if (out === undefined) for (const piece of joined(built.pieces())) output.out(piece);
}

const EXTENSIONS = { 'fhir ndjson': 'ndjson', 'fhir bundle': 'json', csv: 'csv' } as const;
