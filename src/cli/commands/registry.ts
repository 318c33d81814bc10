import { CasetallyError } from '../../findings/errors.js';
import { stops } from '../../findings/finding.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import { type RegistryBuild, RegistryBuilder } from '../../pipeline/registry/build.js';
import { registryKey } from '../../pipeline/registry/key.js';
import { canonicalOf } from '../../pipeline/settings.js';
import { loadTools } from '../../pipeline/tools.js';
import { type RegistryOptions, registrySchema } from '../../registry/options.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { writeAll } from '../files.js';
import { counted, jsonText, type Output } from '../output.js';
import { countLine } from '../terminal/counts.js';
import { filled } from '../terminal/fill.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { openCase, openSite } from './open-case.js';

interface RegistryFlags {
  readonly registry?: string;
  readonly out?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** Builds the entries of cases for one registry. What an error holds back is left out and named. */
export async function buildRegistry(
  files: readonly string[],
  flags: RegistryFlags,
  output: Output,
): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const { name, options } = chosen(site, flags.registry);
  const { key, findings: keyFindings } = await registryKey(name, options, site.folder);
  const canonical = canonicalOf(site.site);
  const { validator } = loadTools(softwareVersion, canonical);
  const builder = new RegistryBuilder({ name, options: { ...options, ...canonical }, key, validator });
  const sources = new Map<string, Uint8Array>();
  for (const file of files) {
    const opened = await openCase(file, site, output);
    builder.add(file, opened);
    // Only a terminal shows lines of the text.
    if (!flags.json) sources.set(file, opened.bytes);
  }
  const built = builder.finish();
  const { ndjson, manifest } = built;
  if (flags.out !== undefined)
    await writeAll(flags.out, { 'entries.ndjson': ndjson, 'manifest.json': jsonText(manifest) });
  const settings = [...keyFindings, ...built.findings];
  const results = [
    ...(settings.length > 0 ? [{ file: flags.site ?? 'registry', findings: settings }] : []),
    ...built.files,
  ];
  if (flags.json) {
    const where = flags.out === undefined ? { ndjson } : { out: flags.out };
    output.out(jsonText({ registry: name, ...where, manifest, leftOut: leftOut(built), results }));
    return exitOfBuild(built);
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
  for (const { file, findings } of results) {
    const source = sources.get(file);
    output.err(findingsText(file, findings, output, source && ownLines(output, source)));
  }
  if (flags.out === undefined) output.out(ndjson);
  return exitOfBuild(built);
}

/** Files that gave no entry though they should have: held back, waiting or unreadable. */
const leftOut = ({ files, manifest }: RegistryBuild): number =>
  files.filter(({ fate }) => fate === 'held back' || fate === 'waiting').length + manifest.unreadable;

/** 2 where a file is no case, 1 where anything is held back or waits. */
function exitOfBuild({ files, noCase }: RegistryBuild): ExitCode {
  if (noCase) return exitCodes.usage;
  const held = files.some(({ fate, findings }) => fate === 'waiting' || findings.some(stops));
  return held ? exitCodes.findings : exitCodes.ok;
}

function chosen({ site }: OpenedSite, asked: string | undefined): { name: string; options: RegistryOptions } {
  const names = Object.keys(site.registries);
  const name = asked ?? (names.length === 1 ? names[0] : undefined);
  const options = name === undefined ? undefined : site.registries[name];
  if (name !== undefined && options) return { name, options };
  if (asked !== undefined)
    throw new CasetallyError(
      'usage',
      `the site configuration has no registry '${asked}'; it has ${names.join(', ') || 'none'}.`,
    );
  if (names.length > 1)
    throw new CasetallyError(
      'usage',
      `the site has several registries: name one with --registry (${names.join(', ')}).`,
    );
  return { name: 'unnamed registry', options: registrySchema.parse({ name: 'unnamed registry' }) };
}
