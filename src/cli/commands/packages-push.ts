import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { listPackages } from '../../conformance/packages/cache.js';
import { packageFiles } from '../../conformance/packages/read.js';
import type { ExactObject } from '../../delivery/answer/exact-json.js';
import { type Pushed, planPush, push } from '../../delivery/destination/push.js';
import { CasetallyError } from '../../findings/errors.js';
import { defaultCache } from '../../pipeline/definitions.js';
import { conformanceResources, ownPackage } from '../../pipeline/own-package.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes, worstOf } from '../exit.js';
import { jsonText, type Output } from '../output.js';
import { table } from '../terminal/fill.js';
import { openOne } from './open-destination.js';

interface PushFlags {
  readonly to?: string;
  readonly site?: string;
  readonly package?: readonly string[];
  readonly cache?: string;
  readonly dryRun?: boolean;
  readonly yes?: boolean;
  readonly json?: boolean;
}

/**
 * Loads our conformance resources, and those of the packages named, on a destination: what is there as it should be is left
 * alone. @param ask a question to be answered with yes; undefined where nobody sits at a terminal.
 */
export async function pushPackages(
  flags: PushFlags,
  output: Output,
  ask: (question: string) => Promise<boolean | undefined>,
): Promise<ExitCode> {
  const opened = await openOne(flags, output);
  if (!opened) return exitCodes.usage;
  const { site, target, session } = opened;
  const others = (flags.package ?? []).flatMap(one => packaged(one, flags.cache ?? defaultCache()));
  output.progress?.(`Asking ${target.destination.name} for what it has`);
  const planned = await planPush([...others, ...ownPackage(softwareVersion, site.fhir.canonical)], session);
  const open = planned.filter(({ now }) => now === 'new' || now === 'differs');
  if (flags.dryRun) {
    if (flags.json) output.out(jsonText(planned.map(({ type, address, now }) => ({ type, address, now }))));
    else
      output.out(
        table([['now', 'type', 'address'], ...planned.map(p => [p.now, p.type, p.address])], output.columns),
      );
    return worstOf(planned.map(({ now }) => (now === 'not-told' ? 4 : now === 'several' ? 3 : 0)));
  }
  if (open.length > 0 && !flags.yes) {
    const answer = await ask(
      `Load ${open.length} conformance resources on ${target.destination.name}, for everyone who uses it?`,
    );
    if (answer === undefined)
      throw new CasetallyError(
        'usage',
        'nobody is there to be asked: give --yes, or --dry-run to see what would be loaded.',
      );
    if (!answer) {
      output.out('Nothing was loaded.\n');
      return exitCodes.ok;
    }
  }
  output.progress?.(`Loading ${open.length} resources on ${target.destination.name}`);
  const pushed = await push(planned, session);
  if (flags.json) output.out(jsonText(pushed));
  else output.out(table([['result', 'type', 'address'], ...pushed.map(rowOf)], output.columns));
  return worstOf(pushed.map(codeOf));
}

const rowOf = ({ result, type, address, said }: Pushed) => [
  result,
  type,
  said === undefined ? address : `${address}  ${said}`,
];

function codeOf({ result }: Pushed): ExitCode {
  if (result === 'not-told') return exitCodes.unreachable;
  return result === 'refused' || result === 'several' ? exitCodes.refused : exitCodes.ok;
}

/** The conformance resources of a package: a path, or `name#version` in the cache. */
function packaged(wanted: string, cache: string): ExactObject[] {
  const path = existsSync(wanted) ? wanted : join(cache, wanted);
  if (!existsSync(path)) {
    const near = listPackages(cache).map(({ name, version }) => `${name}#${version}`);
    throw new CasetallyError(
      'usage',
      `the package ${wanted} is neither a file or folder nor in ${cache} (${near.join(', ') || 'which is empty'}): get its .tgz and run 'casetally packages add FILE'.`,
    );
  }
  return conformanceResources(packageFiles(path));
}
