import { itemStates, type Outbox, type OutboxItem } from '../../delivery/outbox/outbox.js';
import { type Reply, refusal, reply } from './reply.js';

/** Most items of one answer. */
const MAX_LISTED = 500;

/** GET /outbox: what stands where, in order of arrival, without the cases. `?state=` asks for those of one state. */
export async function outboxListHandler(state: unknown, outbox: Outbox): Promise<Reply> {
  const wanted = itemStates.find(one => one === state);
  if (state !== undefined && !wanted)
    return refusal(400, 'invalid', `Write ?state= with ${itemStates.join(', ')}, or nothing.`);
  const items = await outbox.list({ ...(wanted && { states: [wanted] }), limit: MAX_LISTED + 1 });
  return reply(200, { items: items.slice(0, MAX_LISTED).map(shown), more: items.length > MAX_LISTED });
}

/** GET /outbox/:id: where an item stands, with its receipt; never the case itself. */
export async function outboxItemHandler(id: string, outbox: Outbox): Promise<Reply> {
  const item = await outbox.get(id);
  if (!item) return noItem();
  const { parked, receipt } = item;
  return reply(200, { ...shown(item), ...(parked && { parked }), ...(receipt && { receipt }) });
}

/** GET /outbox/:id/receipt: what the destination made of a delivered item. */
export async function receiptHandler(id: string, outbox: Outbox): Promise<Reply> {
  const item = await outbox.get(id);
  if (!item) return noItem();
  return item.receipt
    ? reply(200, item.receipt)
    : refusal(404, 'not-found', `The item is ${item.state} and has no receipt.`);
}

const noItem = () => refusal(404, 'not-found', 'The outbox has no such item.');

/** What may be shown of an item without opening the case. */
export const shown = (item: OutboxItem) => ({
  id: item.id,
  destination: item.destination,
  state: item.state,
  created: new Date(item.createdAt).toISOString(),
  attempts: item.attempts,
  outcomeUnknown: item.unknownSince !== undefined,
  reason: item.parked?.reason ?? item.lastReason,
  digest: item.digest,
});
