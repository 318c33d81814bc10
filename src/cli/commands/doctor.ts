import { examineDestination } from '../../delivery/destination/examine.js';
import { openSession } from '../../delivery/destination/session.js';
import { destinationsOf, openDestination } from '../../pipeline/destinations.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { findingLines, jsonText, type Output, table } from '../output.js';
import { processDeps, secrets } from '../process.js';
import { openSite } from './open-case.js';

interface DoctorFlags {
  readonly to?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** Looks whether a destination can be sent to, with reads only. */
export async function doctor(flags: DoctorFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const process = processDeps(undefined);
  const [name = ''] = destinationsOf({ ...site.site, routes: [] }, undefined, flags.to);
  const { target, findings } = await openDestination(site.site, name, secrets, process.clock);
  if (!target) {
    output.err(findingLines(findings, flags.site ?? '--to', output.color));
    return exitCodes.usage;
  }
  const session = openSession(target.destination, { ...process, ...target });
  const { checks, capabilities } = await examineDestination(session);
  if (flags.json) output.out(jsonText({ destination: target.destination.name, checks, capabilities }));
  else {
    output.out(`${target.destination.name}\n`);
    output.out(table([['check', 'verdict', 'seen'], ...checks.map(c => [c.name, c.verdict, c.detail])]));
  }
  const failed = checks.filter(c => c.verdict === 'fail');
  if (failed.length === 0) return exitCodes.ok;
  return failed.some(c => c.name === 'reachable') ? exitCodes.unreachable : exitCodes.refused;
}
