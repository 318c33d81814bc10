import { stops } from '../../../findings/finding.js';
import { type RegistryBuild, RegistryBuilder } from '../../../pipeline/registry/build.js';
import { openRegistry } from '../../../pipeline/registry/in-use.js';
import { heldToRing } from '../../../pipeline/registry/key-ring.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { writeAll } from '../../files.js';
import { counted, jsonText, type Output } from '../../output.js';
import { hasSubmissions, openSubmissions } from '../../process.js';
import { countLine } from '../../terminal/counts.js';
import { filled } from '../../terminal/fill.js';
import { findingsText, ownLines } from '../../terminal/findings.js';
import { openSite } from '../open-case.js';
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
  const builder = new RegistryBuilder(registry);
  const { unread, sources } = await collectCases(places, builder, { site }, flags, output);
  const built = builder.finish();
  const { text, manifest } = built;
  const file = `entries.${EXTENSIONS[definition?.format.kind ?? 'fhir ndjson']}`;
  if (flags.out !== undefined)
    await writeAll(flags.out, { [file]: text, 'manifest.json': jsonText(manifest) });
  const settings = [...registry.findings, ...built.findings];
  const results = [
    ...(settings.length > 0 ? [{ file: flags.site ?? 'registry', findings: settings }] : []),
    ...built.files,
  ];
  const exit = unread.length > 0 ? exitCodes.usage : exitOfBuild(built);
  if (flags.json) {
    const shown = file === 'entries.ndjson' ? { ndjson: text } : { text };
    const where = flags.out === undefined ? shown : { out: flags.out };
    output.out(jsonText({ registry: name, ...where, manifest, leftOut: leftOut(built), results }));
    return exit;
  }
  // What came of it stands before the reasons.
  const made = `${counted(manifest.entries, 'entry', 'entries')} of ${counted(manifest.cases, 'case', 'cases')} for ${name}`;
  const where = flags.out === undefined ? '' : ` written to ${flags.out}`;
  const left = leftOut(built);
  const without = left === 0 ? '' : `; ${counted(left, 'case', 'cases')} left out`;
  const said = results.flatMap(({ findings }) => findings);
  const line = filled(`${made}${where}${without}; ${countLine(said)}`, output.columns, '', '  ');
  if (flags.out !== undefined) output.out(line);
  else if (said.length > 0) output.err(line);
  for (const { file: of, findings } of results) {
    const source = sources.get(of);
    output.err(findingsText(of, findings, output, source && ownLines(output, source)));
  }
  if (flags.out === undefined) output.out(text);
  return exit;
}

const EXTENSIONS = { 'fhir ndjson': 'ndjson', 'fhir bundle': 'json', csv: 'csv' } as const;

/** Files that gave no entry though they should have: held back, waiting or unreadable. */
const leftOut = ({ files, manifest }: RegistryBuild): number =>
  files.filter(({ fate }) => fate === 'held back' || fate === 'waiting').length + manifest.unreadable;

/** 2 where a file is no case, 1 where anything is held back or waits. */
function exitOfBuild({ files, noCase }: RegistryBuild): ExitCode {
  if (noCase) return exitCodes.usage;
  const held = files.some(({ fate, findings }) => fate === 'waiting' || findings.some(stops));
  return held ? exitCodes.findings : exitCodes.ok;
}
