import { randomBytes } from 'node:crypto';
import { CasetallyError } from '../../findings/errors.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import { reservedHosts } from '../../pipeline/reserved-hosts.js';
import { canonicalOf } from '../../pipeline/settings.js';
import { type RegistryEntry, registryEntries } from '../../registry/entry.js';
import { type PseudonymKey, type RegistryOptions, registrySchema } from '../../registry/options.js';
import { registrySubmission } from '../../registry/submission.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { readBytes, writeAll } from '../files.js';
import { counted, jsonText, type Output } from '../output.js';
import { countLine } from '../terminal/counts.js';
import { filled } from '../terminal/fill.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { exitOf, openCase, openSite } from './open-case.js';

interface RegistryFlags {
  readonly registry?: string;
  readonly out?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** Builds the entries of cases for one registry. Entries that lack a mandatory element are held back and named. */
export async function buildRegistry(
  files: readonly string[],
  flags: RegistryFlags,
  output: Output,
): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const { name, options } = chosen(site, flags.registry);
  const { key, findings: keyFindings } = await keyOf(name, options);
  const results: { file: string; findings: readonly Finding[] }[] = [];
  const texts: string[] = [];
  const tell = (file: string, findings: readonly Finding[], source?: Uint8Array) => {
    results.push({ file, findings });
    texts.push(findingsText(file, findings, output, source && ownLines(output, source)));
  };
  const cases: { id: string; entries: RegistryEntry[] }[] = [];
  let worst: ExitCode = exitCodes.ok;
  const raise = (code: ExitCode) => {
    if (code > worst) worst = code;
  };
  if (keyFindings.length > 0) tell(flags.site ?? 'registry', keyFindings);
  for (const file of files) {
    const opened = await openCase(file, site, output);
    const { record, assessment } = opened;
    if (!record || !assessment) {
      tell(file, opened.findings, opened.bytes);
      raise(exitOf(opened));
      continue;
    }
    const entries = registryEntries(record, assessment, { ...options, ...canonicalOf(site.site) }, key);
    const found = entries
      .flatMap(entry => entry.findings)
      .map(f => ({ ...f, ...opened.parsed.locate(f.path) }));
    if (entries.length === 0) found.push({ ...finding('registry.no-device', '', { case: record.case.id }) });
    tell(file, found, opened.bytes);
    if (found.some(f => f.severity === 'error')) raise(exitCodes.findings);
    cases.push({ id: record.case.id, entries });
  }
  const built = registrySubmission(cases, name, options);
  const { ndjson, manifest } = built;
  const reserved = reservedHosts(ndjson, name);
  if (reserved.length > 0) tell(flags.site ?? name, reserved);
  const left = files.length - cases.length;
  if (flags.out !== undefined)
    await writeAll(flags.out, { 'entries.ndjson': ndjson, 'manifest.json': jsonText(manifest) });
  if (flags.json) {
    const where = flags.out === undefined ? { ndjson } : { out: flags.out };
    output.out(jsonText({ registry: name, ...where, manifest, leftOut: left, results }));
  } else {
    // What came of it stands before the reasons.
    const said = results.flatMap(({ findings }) => findings);
    const made = `${counted(manifest.entries, 'entry', 'entries')} of ${counted(cases.length, 'case', 'cases')} for ${name}`;
    const where = flags.out === undefined ? '' : ` written to ${flags.out}`;
    const without = left === 0 ? '' : `; ${counted(left, 'case', 'cases')} left out`;
    const line = filled(`${made}${where}${without}; ${countLine(said)}`, output.columns, '', '  ');
    if (flags.out !== undefined) output.out(line);
    else if (said.length > 0) output.err(line);
    output.err(texts.join(''));
    if (flags.out === undefined) output.out(ndjson);
  }
  return worst;
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

/** The secret of the registry; without one a throw-away secret, so that pseudonyms never rest on something public. */
async function keyOf(
  name: string,
  options: RegistryOptions,
): Promise<{ key: PseudonymKey; findings: Finding[] }> {
  if (options.key === undefined)
    return {
      key: { id: 'once', secret: randomBytes(32) },
      findings: [finding('registry.key-missing', '', { registry: name })],
    };
  const [kind, ...rest] = options.key.split(':');
  const place = rest.join(':');
  const secret = kind === 'env' ? Buffer.from(process.env[place] ?? '', 'utf8') : await readBytes(place);
  if (secret.length < 16)
    throw new CasetallyError(
      'settings-invalid',
      `the secret of registry '${name}' (${options.key}) is missing or shorter than 16 bytes.`,
    );
  return { key: { id: options.keyId, secret }, findings: [] };
}
