import { existsSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { loadDefinitions } from '../../conformance/definitions/load.js';
import { validateFiles } from '../../conformance/files.js';
import { toFinding, toOperationOutcome } from '../../conformance/outcome.js';
import { loadPackages } from '../../conformance/packages/cache.js';
import type { Issue, Result } from '../../conformance/result.js';
import { summarise } from '../../conformance/summary.js';
import { AnswerBook, askTerminologyServer, type Question } from '../../conformance/terminology/server.js';
import { createValidator } from '../../conformance/validator.js';
import { CasetallyError } from '../../findings/errors.js';
import { defaultCache, definitionsUnder } from '../../pipeline/definitions.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes, writeAll } from '../files.js';
import { counted, jsonText, type Output } from '../output.js';
import { table } from '../terminal/fill.js';
import { findingsText, verdictText } from '../terminal/findings.js';
import { openSite } from './open-site.js';

interface ValidateFlags {
  readonly site?: string;
  readonly profile?: readonly string[];
  readonly package?: readonly string[];
  readonly cache?: string;
  readonly summary?: boolean;
  readonly terminologyServer?: string;
  readonly terminologyCache?: string;
  readonly json?: boolean;
}

/** Checks FHIR JSON files; text that is no FHIR resource at all gives 2. */
export async function validate(
  files: readonly string[],
  flags: ValidateFlags,
  output: Output,
): Promise<ExitCode> {
  const opened = await openSite(flags.site, output);
  if (!opened) return exitCodes.usage;
  const { canonical } = opened.site.fhir;
  const { definitions, missing } = loadPackages(
    definitionsUnder(canonical),
    flags.package ?? [],
    flags.cache ?? defaultCache(),
  );
  for (const { name, version, neededBy } of missing)
    output.err(
      `casetally: package ${name}#${version}, needed by ${neededBy}, is not in the cache: what depends on it is reported as not loaded.\n`,
    );
  const asked = flags.profile ? { profiles: flags.profile } : {};
  const answers = await readAnswers(flags.terminologyCache);
  if (flags.terminologyServer !== undefined) {
    // First everything is checked to learn which codes are open; then they are asked for, once each.
    const first = createValidator(definitions, { answers });
    const open: Question[] = [];
    for await (const { result } of validateFiles(first, files, asked)) open.push(...result.open);
    const unanswered = await askTerminologyServer(open, answers, {
      base: flags.terminologyServer,
      fetch: globalThis.fetch,
    });
    if (unanswered.length > 0)
      output.err(
        `casetally: ${unanswered.length} codes stay unchecked: ${[...new Set(unanswered.map(u => u.reason))].join('; ')}\n`,
      );
    if (flags.terminologyCache !== undefined)
      await writeAll(dirname(flags.terminologyCache), {
        [basename(flags.terminologyCache)]: jsonText(answers.entries()),
      });
  }
  const validator = createValidator(definitions, { answers });
  const outcomes: object[] = [];
  const issues: Issue[] = [];
  let worst: ExitCode = exitCodes.ok;
  for await (const { file, record, result } of validateFiles(validator, files, asked)) {
    const findings = result.issues.map(toFinding);
    const code = findings.some(f => f.severity === 'fatal') ? exitCodes.usage : exitFor(findings);
    if (code > worst) worst = code;
    if (flags.json) outcomes.push(toOperationOutcome(result));
    else {
      const name = record === undefined ? file : `${file}#${record}`;
      const verdict = `checked against ${checkedAgainst(result, output.detail !== 'screen')}`;
      if (flags.summary) {
        issues.push(...result.issues);
        output.out(verdictText(name, findings, output, verdict));
      } else {
        const source = record === undefined && findings.some(f => f.line !== undefined);
        const text = source ? { source: await readBytes(file) } : {};
        output.out(findingsText(name, findings, output, { verdict, ...text }));
      }
    }
  }
  if (flags.json) output.out(jsonText(outcomes.length === 1 ? outcomes[0] : outcomes));
  else if (flags.summary)
    output.out(
      table(
        [
          ['count', 'severity', 'rule', 'first seen at'],
          ...summarise(issues).map(r => [String(r.count), r.severity, r.rule, r.first.path]),
        ],
        output.columns,
      ),
    );
  return worst;
}

/** Answers that a terminology server gave earlier. */
async function readAnswers(path: string | undefined): Promise<AnswerBook> {
  if (path === undefined || !existsSync(path)) return new AnswerBook();
  const read: unknown = JSON.parse(Buffer.from(await readBytes(path)).toString('utf8'));
  const entries = Array.isArray(read) ? read : [];
  return AnswerBook.from(
    entries.flatMap((entry: unknown) =>
      Array.isArray(entry) && typeof entry[0] === 'string' && typeof entry[1] === 'boolean'
        ? [[entry[0], entry[1]] as const]
        : [],
    ),
  );
}

const BASE = 'http://hl7.org/fhir/StructureDefinition/';

/** Profiles by name where all is shown, else counted; the types of the base standard are only counted. */
function checkedAgainst({ evaluated }: Result, named: boolean): string {
  const profiles = evaluated.profiles.filter(canonical => !canonical.startsWith(BASE));
  const types = evaluated.profiles.length - profiles.length;
  return [
    ...(named ? profiles : [counted(profiles.length, 'profile', 'profiles')]),
    `${counted(types, 'type', 'types')} of base R4`,
    counted(evaluated.rules.length, 'rule', 'rules'),
  ].join(', ');
}

/** Lists the packages that are at hand: those built in, and those in the cache. */
export async function packages(
  action: 'list' | 'add',
  path: string | undefined,
  flags: { readonly cache?: string; readonly json?: boolean },
  output: Output,
): Promise<ExitCode> {
  const { addPackage, listPackages } = await import('../../conformance/packages/cache.js');
  const cache = flags.cache ?? defaultCache();
  if (action === 'add') {
    if (path === undefined) throw new CasetallyError('usage', 'name a package file (.tgz) or folder.');
    const { name, version } = addPackage(path, cache);
    output.out(`${name}#${version} added to ${cache}\n`);
    return exitCodes.ok;
  }
  const builtIn = loadDefinitions().sources.map(({ name, version }) => ({
    name,
    version,
    where: 'built in',
  }));
  const found = listPackages(cache).map(({ name, version }) => ({ name, version, where: cache }));
  const all = [...builtIn, ...found];
  output.out(
    flags.json
      ? jsonText(all)
      : table(
          [['package', 'version', 'where'], ...all.map(p => [p.name, p.version, p.where])],
          output.columns,
        ),
  );
  return exitCodes.ok;
}
