import {
  openSession,
  type SendDeps,
  type Session,
  type Target,
} from '../../../delivery/destination/session.js';
import type { Outbox } from '../../../delivery/outbox/outbox.js';
import { backoffMs } from '../../../delivery/worker/backoff.js';
import { RETRY_POLICY } from '../../../delivery/worker/decide.js';
import { LeaseLost } from '../../../delivery/worker/holding.js';
import type { Owed, OwedLease } from '../../../register/store/owed.js';
import type { Site } from '../../../site/site.js';
import { caseKeyOf } from '../../outbox-item.js';
import { resourceSystemOf } from '../../settings.js';
import { type UpdatedCase, updateCase } from './update-case.js';

/** What carrying out needs from the process around it. */
export interface CarryDeps extends Pick<SendDeps, 'clock' | 'newId' | 'statements' | 'sleep'> {
  readonly owed: Owed;
  readonly site: Site;
  readonly targets: readonly Target[];
  /** A number in [0, 1). */
  readonly random: () => number;
  /** Where cases wait for their destinations: what is on its way there is not changed before it has arrived. */
  readonly outbox?: Pick<Outbox, 'list' | 'gate'>;
  readonly withoutVersions?: boolean;
  /** Ends it after the case at hand. */
  readonly stop?: AbortSignal;
  readonly onCase?: (done: CarriedOut) => void;
}

/** What came of one case at one destination. */
export interface CarriedOut extends UpdatedCase {
  readonly case: string;
  readonly destination: string;
}

/** Long enough for a case; a slow server has the rest done with the next turn. */
const LEASE_MS = 120_000;
/** How soon a case is looked at again that has something on its way. */
const ON_ITS_WAY_MS = 30_000;

/**
 * Changes at destinations what is due to be changed there, each destination for itself, until nothing more is due or the
 * destination does not answer.
 *
 * @param cases only these; all by default.
 */
export async function carryOut(deps: CarryDeps, cases?: readonly string[]): Promise<CarriedOut[]> {
  const done: CarriedOut[] = [];
  await Promise.all(
    deps.targets.map(async target => {
      const session = openSession(target.destination, { ...target, ...processOf(deps) });
      for (let goesOn = true; goesOn && !deps.stop?.aborted; ) {
        const came = await carryOutNext(session, deps, cases);
        if (came) done.push(came);
        goesOn = came !== undefined && !isOfDestination(came);
      }
    }),
  );
  return done;
}

const processOf = ({ clock, newId, statements, sleep }: CarryDeps) => ({
  clock,
  newId,
  ...(statements && { statements }),
  ...(sleep && { sleep }),
});

/** What stopped one case would stop the others too. */
const isOfDestination = ({ came, reason }: CarriedOut) =>
  came === 'later' && !['not-found-yet', 'written-at-once', ON_ITS_WAY].includes(reason ?? '');
const ON_ITS_WAY = 'on-its-way';

async function carryOutNext(
  session: Session,
  deps: CarryDeps,
  cases: readonly string[] | undefined,
): Promise<CarriedOut | undefined> {
  const { owed, clock } = deps;
  const { name, timeoutMs } = session.destination;
  const lease = await owed.claim([name], clock(), LEASE_MS + 2 * timeoutMs, cases);
  if (!lease) return undefined;
  const came = (await waiting(lease, deps)) ?? (await worked(lease, session, deps));
  if (came.came === 'done') await owed.finish(lease, clock());
  else {
    // A server that asked for time has it, also when a person is impatient.
    const reason = came.waitMs === undefined ? (came.reason ?? '') : 'rate-limit';
    await owed.postpone(lease, reason, dueAgain(came, lease, deps));
  }
  const carried = { ...came, case: lease.case, destination: name };
  deps.onCase?.(carried);
  return carried;
}

function dueAgain(
  { came, notBefore, waitMs }: UpdatedCase,
  { attempts }: OwedLease,
  { clock, random }: CarryDeps,
): number | undefined {
  if (came === 'held') return undefined;
  if (notBefore !== undefined) return notBefore;
  return clock() + Math.round(waitMs ?? backoffMs(attempts, random(), RETRY_POLICY.backoff));
}

/** Why a case is left for now: its destination is closed, or something of the case is on its way there. */
async function waiting(
  { case: name, destination }: OwedLease,
  { outbox, site, clock }: CarryDeps,
): Promise<UpdatedCase | undefined> {
  if (!outbox) return undefined;
  const later = { came: 'later', updated: [], findings: [] } as const;
  const { paused, closedUntil } = await outbox.gate(destination);
  if (paused !== undefined) return { ...later, reason: paused };
  if (closedUntil > clock()) return { ...later, reason: 'unavailable', notBefore: closedUntil };
  const caseKey = caseKeyOf(name, site.namespace);
  const coming = await outbox.list({ destination, caseKey, states: ['waiting', 'sending'], limit: 1 });
  if (coming.length === 0) return undefined;
  return { ...later, reason: ON_ITS_WAY, notBefore: clock() + ON_ITS_WAY_MS };
}

async function worked(
  lease: OwedLease,
  session: Session,
  { owed, site, clock, withoutVersions }: CarryDeps,
): Promise<UpdatedCase> {
  const { timeoutMs } = session.destination;
  // Whoever comes after the lease may know more: nothing is written then.
  const guarded = session.guarded(async () => {
    if (clock() + timeoutMs > lease.until) throw new LeaseLost();
  });
  try {
    return await updateCase(lease, await owed.work(lease), guarded, {
      owed,
      namespace: site.namespace,
      resourceSystem: resourceSystemOf(site),
      ...(withoutVersions && { withoutVersions }),
    });
  } catch (error) {
    if (!(error instanceof LeaseLost)) throw error;
    return { came: 'later', reason: 'time-out', updated: [], findings: [] };
  }
}
