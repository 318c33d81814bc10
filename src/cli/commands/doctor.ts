import { scopesMissing } from '../../delivery/auth/scopes.js';
import { type Check, examineDestination } from '../../delivery/destination/examine.js';
import { examineProfiles } from '../../delivery/destination/examine-profiles.js';
import type { Target } from '../../delivery/destination/session.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import { exampleFor, profileProbe } from '../../pipeline/probe.js';
import { conformanceTo, openReceiver, receiverFindings } from '../../pipeline/receiver.js';
import { needsOf } from '../../pipeline/scopes.js';
import type { Site } from '../../site/site.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { jsonText, type Output } from '../output.js';
import { filled, table } from '../terminal/fill.js';
import { findingsText } from '../terminal/findings.js';
import { openOne } from './open-destination.js';

interface DoctorFlags {
  readonly to?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** Looks whether a destination can be sent to, and what would make it so; nothing is written there. */
export async function doctor(flags: DoctorFlags, output: Output): Promise<ExitCode> {
  const opened = await openOne(flags, output);
  if (!opened) return exitCodes.usage;
  const { site, target, session } = opened;
  const { destination } = target;
  output.progress?.(`Asking ${destination.name}`);
  const { checks: seen, capabilities } = await examineDestination(session);
  const reached = !seen.some(c => c.name === 'reachable' && c.verdict !== 'pass');
  const profiles =
    reached && destination.fhirVersion === '4.0.1'
      ? await examineProfiles(session, profileProbe(site, destination, softwareVersion), capabilities)
      : undefined;
  const scopes = reached ? scopesOf(target, site) : undefined;
  const receiver = receiverOf(opened.opened, target);
  const further = [scopes, profiles, receiver].filter(one => one !== undefined);
  const checks = [...seen, ...further.map(({ check }) => check)];
  const proposals = further.flatMap(({ findings }) => findings);
  const failed = checks.filter(c => c.verdict === 'fail');
  if (flags.json) output.out(jsonText({ destination: destination.name, checks, proposals, capabilities }));
  else {
    const verdict =
      failed.length === 0
        ? 'can be sent to'
        : `cannot be sent to yet; ${failed.length} of ${checks.length} checks failed: ${failed.map(c => c.name).join(', ')}`;
    output.out(filled(`${destination.name}: ${verdict}`, output.columns, '', '  '));
    const rows = checks.map(c => [c.name, c.verdict, c.detail]);
    output.out(table([['check', 'verdict', 'seen'], ...rows], output.columns));
    output.out(findingsText(destination.name, proposals, output));
  }
  if (failed.length === 0) return exitCodes.ok;
  return failed.some(c => c.name === 'reachable') ? exitCodes.unreachable : exitCodes.refused;
}

/** How an example does by the profiles of the receiver; undefined where the settings name none. */
function receiverOf(
  site: OpenedSite,
  { destination }: Target,
): { readonly check: Check; readonly findings: readonly Finding[] } | undefined {
  const receiver = openReceiver(site, destination.name);
  if (!receiver) return undefined;
  const example = exampleFor(site.site, destination, softwareVersion).submission;
  const rows = conformanceTo(receiver, example);
  const detail = rows
    .map(({ type, profile, resources, conforming }) => `${type} ${conforming}/${resources} by ${profile}`)
    .join('; ');
  const findings = receiverFindings(receiver, example);
  return {
    check: { name: 'receiver', verdict: findings.length === 0 ? 'pass' : 'not-told', detail },
    findings,
  };
}

/** Whether the token may do what the contents need; undefined where it has no scope. */
function scopesOf(
  { destination: { name }, granted }: Target,
  site: Site,
): { readonly check: Check; readonly findings: readonly Finding[] } | undefined {
  const scope = granted?.();
  if (scope === undefined) return undefined;
  const missing = scopesMissing(scope, needsOf(site, name)).join(' ');
  if (missing === '')
    return { check: { name: 'scopes', verdict: 'pass', detail: 'all that is needed' }, findings: [] };
  return {
    check: { name: 'scopes', verdict: 'fail', detail: `not granted: ${missing}` },
    findings: [finding('delivery.scopes-missing', 'destination', { destination: name, missing })],
  };
}
