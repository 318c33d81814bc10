import type { Lease, Outbox, OutboxItem, Settlement } from '../../delivery/outbox/outbox.js';
import type { Register } from '../../register/store/register.js';
import { type OpenedSite, openBytes } from '../open-case.js';
import { recordOf } from '../outbox-item.js';
import { factsOfCase } from './take.js';

/** What feeding the register needs. */
export interface FeedDeps {
  readonly register: Pick<Register, 'take' | 'notReplayed' | 'setReplayed'>;
  readonly site: OpenedSite;
  readonly clock: () => number;
  /** Told of the cases whose resources at destinations are to be looked at since a case came in. */
  readonly onChanged?: (cases: readonly string[]) => void;
}

/**
 * An outbox that tells the register of each case as soon as a destination has accepted it. What goes wrong with the
 * register never touches the delivery: `catchUp` takes in what was missed, from what the outbox keeps.
 */
export function feeding(outbox: Outbox, deps: FeedDeps, onFault: (error: unknown) => void): Outbox {
  return new Proxy(outbox, {
    get(target, name) {
      if (name === 'settle')
        return async (lease: Lease, settlement: Settlement, now: number): Promise<boolean> => {
          const held = await target.settle(lease, settlement, now);
          if (held && settlement.kind === 'delivered') await feed(lease.item, deps).catch(onFault);
          return held;
        };
      const value: unknown = Reflect.get(target, name, target);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}

/** Takes in whatever was accepted and is not in the register yet: after a crash, or from before there was one. @returns how many items. */
export async function catchUp(outbox: Pick<Outbox, 'idsOf' | 'get'>, deps: FeedDeps): Promise<number> {
  const missed = await deps.register.notReplayed(await outbox.idsOf('delivered'));
  for (const id of missed) {
    const item = await outbox.get(id);
    if (item) await feed(item, deps);
  }
  return missed.length;
}

async function feed(item: OutboxItem, { register, site, clock, onChanged }: FeedDeps): Promise<void> {
  const record = recordOf(item);
  const opened = record === undefined ? undefined : await openBytes(Buffer.from(record, 'utf8'), site);
  const facts = opened && factsOfCase(opened, site.site);
  // An item of an earlier release has no record beside it; there is nothing to take in.
  if (!facts || record === undefined) await register.setReplayed([item.id]);
  else {
    const { id, destination, receipt } = item;
    const acceptedAt = receipt === undefined ? clock() : Date.parse(receipt.sentAt);
    const { changed } = await register.take({ facts, record, item: id, destination }, acceptedAt);
    onChanged?.(changed);
  }
}
