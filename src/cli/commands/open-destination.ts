import { openSession, type Session, type Target } from '../../delivery/destination/session.js';
import type { WorkerDeps } from '../../delivery/worker/worker.js';
import { destinationsOf, openDestination, openDestinations } from '../../pipeline/destinations.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import type { Site } from '../../site/site.js';
import { findingLines, type Output } from '../output.js';
import { processDeps, secretsFrom } from '../process.js';
import { openSite } from './open-case.js';

/** A destination of the site configuration that a command speaks to. */
export interface OpenedDestination {
  readonly site: Site;
  readonly target: Target;
  readonly session: Session;
}

/** Opens the destination of `--to`; says every fault and gives undefined where it, or the site, cannot be used. */
export async function openOne(
  flags: { readonly site?: string; readonly to?: string },
  output: Output,
): Promise<OpenedDestination | undefined> {
  const opened = await openSite(flags.site, output);
  return opened && openOneOf(opened, flags, output);
}

/** Opens the destination of `--to` under a site that was opened before. */
export async function openOneOf(
  { site, folder }: OpenedSite,
  flags: { readonly site?: string; readonly to?: string },
  output: Output,
): Promise<OpenedDestination | undefined> {
  const process = processDeps(undefined);
  const [name = ''] = destinationsOf({ ...site, routes: [] }, undefined, flags.to);
  const { target, findings } = await openDestination(site, name, secretsFrom(folder), process.clock);
  if (target) return { site, target, session: openSession(target.destination, { ...process, ...target }) };
  output.err(findingLines(findings, flags.site ?? '--to', output.color));
  return undefined;
}

/** Opens destinations that items of the outbox go to, as far as they can be; says what stands against the others. */
export async function openTargets(
  { site, folder }: OpenedSite,
  names: readonly string[],
  flags: { readonly site?: string },
  { clock }: Pick<WorkerDeps, 'clock'>,
  output: Output,
): Promise<readonly Target[]> {
  const { targets, findings } = await openDestinations(site, names, secretsFrom(folder), clock);
  output.err(findingLines(findings, flags.site ?? 'outbox', output.color));
  return targets;
}
