import { examineDestination } from '../../delivery/destination/examine.js';
import { connect } from '../connect.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { findingLines, jsonText, type Output, table } from '../output.js';
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
  const { connection, findings } = await connect(site.site, flags.to);
  if (!connection) {
    output.err(findingLines(findings, flags.site ?? '--to', output.color));
    return exitCodes.usage;
  }
  const { checks, capabilities } = await examineDestination(connection.target.destination, connection.deps);
  if (flags.json)
    output.out(jsonText({ destination: connection.target.destination.name, checks, capabilities }));
  else {
    output.out(`${connection.target.destination.name}\n`);
    output.out(table([['check', 'verdict', 'seen'], ...checks.map(c => [c.name, c.verdict, c.detail])]));
  }
  const failed = checks.filter(c => c.verdict === 'fail');
  if (failed.length === 0) return exitCodes.ok;
  return failed.some(c => c.name === 'reachable') ? exitCodes.unreachable : exitCodes.refused;
}
