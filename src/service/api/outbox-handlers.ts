import { z } from 'zod';
import { itemStates, type Outbox, type OutboxItem } from '../../delivery/outbox/outbox.js';
import {
  type Choice,
  cannotBe,
  type Decision,
  decideItem,
  makeDue,
  reopen,
} from '../../delivery/worker/decisions.js';
import { nextRows, whatNext } from '../../delivery/worker/next.js';
import { reasonMessage } from '../../delivery/worker/reason.js';
import { CasetallyError } from '../../findings/errors.js';
import type { Language } from '../../findings/languages.js';
import { say } from '../../findings/say.js';
import { attributed, type Caller } from './guard.js';
import { line } from './one-line.js';
import { type Reply, refusal, reply } from './reply.js';

/** Most items of one answer. */
const MAX_LISTED = 500;

/** GET /outbox: what stands where, in order of arrival, without the cases. `?state=` asks for those of one state. */
export async function outboxListHandler(state: unknown, outbox: Outbox): Promise<Reply> {
  const wanted = itemStates.find(one => one === state);
  if (state !== undefined && !wanted)
    return refusal(400, 'invalid', `Write ?state= with ${itemStates.join(', ')}, or nothing.`);
  const items = await outbox.list({ ...(wanted && { states: [wanted] }), limit: MAX_LISTED + 1 });
  return reply(200, {
    items: items.slice(0, MAX_LISTED).map(item => shown(item)),
    more: items.length > MAX_LISTED,
  });
}

/** GET /outbox/:id: where an item stands, with its receipt; never the case itself. */
export async function outboxItemHandler(id: string, outbox: Outbox, language?: Language): Promise<Reply> {
  const item = await outbox.get(id);
  if (!item) return noItem();
  const { parked, receipt } = item;
  const members = { ...shown(item, language), ...(parked && { parked }), ...(receipt && { receipt }) };
  return about(item, reply(200, members, { language }));
}

/** GET /outbox/:id/receipt: what the destination made of a delivered item. */
export async function receiptHandler(id: string, outbox: Outbox): Promise<Reply> {
  const item = await outbox.get(id);
  if (!item) return noItem();
  return about(
    item,
    item.receipt
      ? reply(200, item.receipt)
      : refusal(404, 'not-found', `The item is ${item.state} and has no receipt.`),
  );
}

/** Words that are kept with an item and shown on a terminal. */
export const decision = z.strictObject({
  by: line(100).optional(),
  why: line(1_000).optional(),
  accept: z.array(line(100)).min(1).max(50).optional(),
  overwrite: z.literal(true).optional(),
});

/** What deciding needs beside the request. */
export interface DecisionPorts {
  readonly caller: Caller;
  readonly outbox: Outbox;
  readonly clock: () => number;
}

/**
 * POST /outbox/:id/retry, park, discard: what a person decides about an item, with the words of the command line. The
 * worker sends what was made due.
 */
export async function decideHandler(
  id: string,
  what: Decision,
  body: unknown,
  { caller, outbox, clock }: DecisionPorts,
): Promise<Reply> {
  const read = decision.safeParse(body);
  if (!read.success) return refusal(400, 'invalid', whyNot(what));
  const { why, accept, overwrite } = read.data;
  const by = attributed(read.data.by, caller);
  if (by === undefined) return refusal(400, 'invalid', whyNot(what));
  const chooses = accept !== undefined || overwrite !== undefined;
  if (why === undefined && (what !== 'retry' || chooses)) return refusal(400, 'invalid', whyNot(what));
  if (chooses && what !== 'retry') return refusal(400, 'invalid', whyNot(what));
  const item = await outbox.get(id);
  if (!item) return noItem();
  const noted = { items: [item.id], person: caller.person?.name ?? read.data.by ?? by };
  try {
    const done =
      what === 'retry'
        ? await retried(outbox, item, clock(), chooses ? { ...read.data, by, why: why ?? '' } : undefined)
        : await decideItem(outbox, item, what, { by, why: why ?? '' }, clock());
    const now = (await outbox.get(id)) ?? item;
    if (!done) return { ...refusal(409, 'conflict', cannotBe(what, now)), noted };
    const next = await whatNext(now, outbox, clock());
    return { ...reply(200, { ...shown(now), ...nextRows(next) }), noted };
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage')
      return { ...refusal(422, 'invalid', error.message), noted };
    throw error;
  }
}

async function retried(outbox: Outbox, item: OutboxItem, now: number, choice?: Choice): Promise<boolean> {
  const done = await makeDue(outbox, item, now, choice);
  if (done) await reopen(outbox, item.destination, [item]);
  return done;
}

const whyNot = (what: Decision) =>
  what === 'retry'
    ? `To retry an item send {"by": who}; to accept a near match as well, {"by": who, "why": reason, "accept": [field]}; to replace what others wrote, "overwrite": true: all are kept with it.`
    : `To ${what} an item send {"by": who, "why": reason}: both are kept with it.`;

const noItem = () => refusal(404, 'not-found', 'The outbox has no such item.');

const about = ({ id }: OutboxItem, answer: Reply): Reply => ({ ...answer, noted: { items: [id] } });

/** What may be shown of an item without opening the case; `said` is what people read, where a language is named. */
export const shown = (item: OutboxItem, language?: Language) => ({
  id: item.id,
  destination: item.destination,
  state: item.state,
  created: new Date(item.createdAt).toISOString(),
  attempts: item.attempts,
  outcomeUnknown: item.unknownSince !== undefined,
  reason: reasonOf(item),
  ...(language && { said: { reason: said(reasonOf(item), language) } }),
  digest: item.digest,
});

const reasonOf = ({ parked, lastReason }: OutboxItem) => parked?.reason ?? lastReason;
const said = (reason: string | undefined, language: Language) =>
  reason === undefined ? undefined : say(reasonMessage(reason), language);
