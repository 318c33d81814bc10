import type { Outbox } from '../../../delivery/outbox/outbox.js';
import { destinationsOf, openDestination } from '../../../pipeline/destinations.js';
import type { OpenedSite } from '../../../pipeline/open-case.js';
import type { Register } from '../../../register/store/register.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import type { Output } from '../../output.js';
import { openOutbox, processDeps, secretsFrom } from '../../process.js';
import { findingsText } from '../../terminal/findings.js';
import { openSite } from '../open-site.js';
import type { BulkFlags } from './flags.js';
import type { Goal } from './job.js';

/** Where cases go to. */
export interface BulkStores {
  readonly outbox?: Pick<Outbox, 'list' | 'put'>;
  readonly register?: Pick<Register, 'take'>;
}

/**
 * Opens what the cases go to, with everything that would stop each of them alike looked at first. What works cases out
 * is loaded in the threads, and here only where it is needed.
 */
export async function openTarget(
  goal: Goal,
  flags: BulkFlags,
  output: Output,
  work: (site: OpenedSite, stores: BulkStores) => Promise<ExitCode>,
): Promise<ExitCode> {
  if (goal.do === 'register') {
    const { withRegister } = await import('../register/open.js');
    return withRegister(flags, output, ({ site, register }) => work(site, { register }));
  }
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  if (goal.sign !== undefined) {
    const { signingKey } = await import('../prepared.js');
    await signingKey(goal.sign, goal.do === 'store' ? 'send' : 'write');
  }
  if (goal.do === 'write') return work(site, {});
  for (const name of namesOf(site, goal.to)) {
    const { clock } = processDeps(flags.data);
    const { target, findings } = await openDestination(site.site, name, secretsFrom(site.folder), clock);
    if (target) continue;
    output.err(findingsText(flags.site ?? '--to', findings, output));
    return exitCodes.usage;
  }
  const { outbox } = await openOutbox(flags.data);
  try {
    return await work(site, { outbox });
  } finally {
    await outbox.close();
  }
}

/** Every destination that a case may go to. @throws CasetallyError 'usage' where one must be named */
function namesOf({ site }: OpenedSite, to: string | undefined): readonly string[] {
  return to === undefined && site.routes.length > 0
    ? [...new Set(site.routes.map(route => route.to))]
    : destinationsOf(site, undefined, to);
}
