import type { Finding } from '../../findings/finding.js';
import type { SendOutcome } from '../answer/outcome.js';
import type { NewItem, OutboxItem } from '../outbox/outbox.js';
import { namedTime } from './next.js';
import { drain, type WorkerDeps } from './worker.js';

/** Where an item stands after it was put into the outbox and what is due was sent. */
export interface DurableResult {
  readonly item: OutboxItem;
  /** What its own attempt came to; absent when none was made, because of others before it or a closed destination. */
  readonly outcome?: SendOutcome;
  /** Why the destination is closed, when a person must open it again. */
  readonly paused?: string;
  readonly findings: readonly Finding[];
}

/**
 * Puts an item into the outbox, which is durable from then on, and sends what is due to its destination, in
 * order. What does not arrive now stays there for the worker or for a later try.
 *
 * @param overwrite true to update what is there whatever its version.
 */
export async function sendDurably(
  newItem: NewItem,
  deps: WorkerDeps,
  overwrite = false,
): Promise<DurableResult> {
  const put = await deps.outbox.put({ ...newItem, ...(overwrite && { overwrite }) }, deps.clock());
  // Who sends a case again that is there already has looked at it: it is tried again now, with every check anew. What a
  // person parked stays so, and a server's time is kept.
  const now = deps.clock();
  if (put.state === 'waiting' || put.parked?.by === 'casetally')
    await deps.outbox.retry(put.id, namedTime(put, now) ?? now);
  let outcome: SendOutcome | undefined;
  const targets = deps.targets.filter(t => t.destination.name === newItem.destination);
  await drain({
    ...deps,
    targets,
    onOutcome: (item, seen) => {
      deps.onOutcome?.(item, seen);
      if (item.id === put.id) outcome = seen;
    },
  });
  const kept = (await deps.outbox.get(put.id)) ?? put;
  const { paused } = await deps.outbox.gate(newItem.destination);
  return {
    item: kept,
    ...(outcome && { outcome }),
    ...(paused !== undefined && { paused }),
    findings: outcome?.findings ?? kept.parked?.findings ?? [],
  };
}

/**
 * The exit code of a command that sent through the outbox: 0 delivered, 1 not sent because of findings, 3 the
 * destination refused or a person is needed, 4 stored, not delivered yet or not known.
 */
export function durableExitCode({ item, outcome, paused }: DurableResult): 0 | 1 | 3 | 4 {
  if (item.state === 'delivered') return 0;
  if (outcome?.state === 'not-sent') return 1;
  return item.state === 'parked' || item.state === 'discarded' || paused !== undefined ? 3 : 4;
}
