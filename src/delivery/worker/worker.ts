import type { Attempt, SendOutcome } from '../answer/outcome.js';
import type { StatementStore } from '../destination/capability-cache.js';
import { openSession, type SendDeps, type Session, type Target } from '../destination/session.js';
import { waitFor } from '../http/wait.js';
import type { Lease, Outbox, OutboxItem, Settlement } from '../outbox/outbox.js';
import type { SourceOf } from '../request/submission.js';
import { attemptItem } from './attempt.js';
import { backoffMs } from './backoff.js';
import { type Decision, decide, RETRY_POLICY, type RetryPolicy } from './decide.js';
import { gateAfter, lanesOpen } from './gates.js';
import { hold, LeaseLost } from './holding.js';
import type { AlsoWrote } from './versions.js';

/** One request of an attempt, for logs and figures. */
interface RequestFacts {
  /** Sent as X-Request-Id. */
  readonly requestId: string;
  readonly status?: number;
  readonly state: string;
  readonly reason: string;
  readonly durationMs: number;
}

/** What happened to an item, built up field by field; nothing in it is about the patient. */
export interface WorkerEvent {
  readonly item: string;
  readonly destination: string;
  readonly came: Settlement['kind'] | 'lease-lost' | 'too-early';
  readonly reason?: string;
  readonly attempts: number;
  readonly durationMs: number;
  /** The requests that carried the submission. */
  readonly requests: readonly RequestFacts[];
}

/** Runs a piece of work under a name, for traces; attributes have nothing about a patient. */
export type Traced = <T>(
  name: string,
  attributes: Readonly<Record<string, string | number>>,
  work: (note: (more: Readonly<Record<string, string | number>>) => void) => Promise<T>,
) => Promise<T>;

export const untraced: Traced = (_name, _attributes, work) => work(() => undefined);

export interface WorkerDeps {
  readonly outbox: Outbox;
  readonly targets: readonly Target[];
  readonly clock: () => number;
  readonly newId: () => string;
  /** A number in [0, 1). */
  readonly random: () => number;
  readonly sleep?: NonNullable<SendDeps['sleep']>;
  /** Ends the claiming of new items; what is being sent is finished. */
  readonly stop?: AbortSignal;
  /** Cuts off what is being sent; its outcome is then unknown and stays written down as such. */
  readonly abort?: AbortSignal;
  readonly policy?: RetryPolicy;
  /** How many items go to one destination at the same time; 4 by default. */
  readonly lanes?: number;
  /** How long a claimed item is held without a sign of life; 60 s by default. */
  readonly leaseMs?: number;
  /** The record path behind a place in the submission of an item. */
  readonly sourceOf?: (item: OutboxItem) => SourceOf;
  readonly onEvent?: (event: WorkerEvent) => void;
  readonly traced?: Traced;
  /** Where what servers say of themselves is kept; without it they are not asked before a submission is sent. */
  readonly statements?: StatementStore;
  /**
   * What elements were made to say at a destination outside the outbox, by `Type value`, for some values of business
   * identifiers: what Casetally itself changed there is nobody else's change.
   */
  readonly alsoWrote?: AlsoWrote;
  /** What an attempt came to, in full. It may hold patient data: for showing to a person, never for a log. */
  readonly onOutcome?: (item: OutboxItem, outcome: SendOutcome) => void;
}

/** How many items came to what. */
export type Tally = Record<'delivered' | 'again' | 'parked' | 'lease-lost' | 'too-early', number>;

/**
 * Sends everything that is due now, each destination for itself and several patients at once, and returns when
 * nothing more is due or every destination is closed.
 */
export async function drain(deps: WorkerDeps): Promise<Tally> {
  const tally: Tally = { delivered: 0, again: 0, parked: 0, 'lease-lost': 0, 'too-early': 0 };
  const lanes = deps.lanes ?? 4;
  await Promise.all(
    deps.targets.map(target => {
      const session = openSession(target.destination, {
        ...target,
        clock: deps.clock,
        newId: deps.newId,
        ...(deps.sleep && { sleep: deps.sleep }),
        ...(deps.abort && { signal: deps.abort }),
        ...(deps.statements && { statements: deps.statements }),
      });
      return Promise.all(
        Array.from({ length: lanes }, (_, lane) => runLane(session, lane, lanes, tally, deps)),
      );
    }),
  );
  return tally;
}

/** Works until `stop` says otherwise; sleeps while nothing is due. */
export async function runWorker(deps: WorkerDeps): Promise<void> {
  const names = deps.targets.map(t => t.destination.name);
  while (!deps.stop?.aborted) {
    await drain(deps);
    if (deps.stop?.aborted) return;
    const due = await deps.outbox.nextDue(names);
    const wait = due === undefined ? 1_000 : Math.min(1_000, Math.max(50, due - deps.clock()));
    await waitFor(
      { ...(deps.sleep && { sleep: deps.sleep }), ...(deps.stop && { signal: deps.stop }) },
      wait,
    );
  }
}

async function runLane(
  session: Session,
  lane: number,
  lanes: number,
  tally: Tally,
  deps: WorkerDeps,
): Promise<void> {
  const { name } = session.destination;
  const policy = deps.policy ?? RETRY_POLICY;
  while (!deps.stop?.aborted) {
    const gate = await deps.outbox.gate(name);
    if (lane >= lanesOpen(gate, deps.clock(), lanes, policy)) return;
    const lease = await deps.outbox.claim(name, deps.clock(), deps.leaseMs ?? 60_000);
    if (!lease) return;
    const attributes = { 'casetally.item': lease.item.id, 'casetally.destination': name };
    const came = await (deps.traced ?? untraced)('casetally.attempt', attributes, async note => {
      const result = await workOn(lease, session, policy, {
        ...deps,
        onEvent: event => {
          note(attributesOf(event));
          deps.onEvent?.(event);
        },
      });
      return result;
    });
    tally[came] += 1;
  }
}

async function workOn(
  lease: Lease,
  session: Session,
  policy: RetryPolicy,
  deps: WorkerDeps,
): Promise<keyof Tally> {
  const { outbox } = deps;
  const { item } = lease;
  const started = deps.clock();
  const tell = (came: WorkerEvent['came'], reason?: string, attempts: readonly Attempt[] = []) => {
    const durationMs = deps.clock() - started;
    deps.onEvent?.({
      ...{ item: item.id, destination: item.destination, came, attempts: item.attempts, durationMs },
      requests: attempts.map(factsOf),
      ...(reason !== undefined && { reason }),
    });
    return came;
  };
  const { clock, leaseMs = 60_000 } = deps;
  const holding = hold(lease, outbox, { clock, leaseMs, requestMs: session.destination.timeoutMs });
  try {
    const own = session.guarded(holding.assure);
    const result = await attemptItem(lease, own, outbox, deps.sourceOf?.(item), deps.alsoWrote);
    if (result.kind === 'lease-lost') return tell('lease-lost');
    if (result.kind === 'too-early') {
      const wait = backoffMs(item.attempts + 1, deps.random(), policy.backoff);
      const notBefore = Math.min(result.askAgainAt, deps.clock() + wait);
      await outbox.settle(
        lease,
        { kind: 'again', notBefore, reason: 'not-found-yet', unknown: 'as before' },
        deps.clock(),
      );
      return tell('too-early');
    }
    deps.onOutcome?.(item, result.outcome);
    const decision = decide(result.outcome, item, deps.clock(), deps.random(), policy);
    const came = await writeDown(decision, lease, policy, deps);
    return tell(came, reasonOf(decision.settlement), result.outcome.attempts);
  } catch (error) {
    if (error instanceof LeaseLost) return tell('lease-lost');
    throw error;
  } finally {
    holding.letGo();
  }
}

async function writeDown(
  { settlement, gate }: Decision,
  lease: Lease,
  policy: RetryPolicy,
  { outbox, clock, random }: WorkerDeps,
): Promise<Settlement['kind'] | 'lease-lost'> {
  const kept = await outbox.settle(lease, settlement, clock());
  const now = clock();
  const chance = random();
  if (gate.kind !== 'nothing')
    await outbox.changeGate(lease.item.destination, before => gateAfter(before, gate, now, chance, policy));
  return kept ? settlement.kind : 'lease-lost';
}

function factsOf({ requestId, status, durationMs, verdict }: Attempt): RequestFacts {
  const { state, reason } = verdict;
  return { requestId, ...(status !== undefined && { status }), state, reason, durationMs };
}

function attributesOf({ came, reason, requests }: WorkerEvent): Record<string, string | number> {
  return {
    'casetally.came': came,
    ...(reason !== undefined && { 'casetally.reason': reason }),
    'casetally.requests': requests.map(r => r.requestId).join(' '),
  };
}

function reasonOf(settlement: Settlement): string | undefined {
  if (settlement.kind === 'delivered') return undefined;
  return settlement.kind === 'parked' ? settlement.parked.reason : settlement.reason;
}
