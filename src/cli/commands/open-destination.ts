import { openSession, type Session, type Target } from '../../delivery/destination/session.js';
import type { WorkerDeps } from '../../delivery/worker/worker.js';
import { destinationsOf, openDestination, openDestinations } from '../../pipeline/destinations.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import type { Site } from '../../site/site.js';
import type { Output } from '../output.js';
import { processDeps, secretsFrom } from '../process.js';
import { findingsText } from '../terminal/findings.js';
import { openSite } from './open-site.js';

/** A destination of the site configuration that a command speaks to. */
export interface OpenedDestination {
  readonly opened: OpenedSite;
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

/** Opens the destination of `--to`, or of another flag, under a site that was opened before. */
export async function openOneOf(
  opened: OpenedSite,
  flags: { readonly site?: string; readonly to?: string },
  output: Output,
  flag = '--to',
): Promise<OpenedDestination | undefined> {
  const { site, folder } = opened;
  const process = processDeps(undefined);
  const [name = ''] = destinationsOf({ ...site, routes: [] }, undefined, flags.to, flag);
  const { target, findings } = await openDestination(site, name, secretsFrom(folder), process.clock);
  if (target)
    return { opened, site, target, session: openSession(target.destination, { ...process, ...target }) };
  output.err(findingsText(flags.site ?? flag, findings, output));
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
  output.err(findingsText(flags.site ?? 'outbox', findings, output));
  return targets;
}
