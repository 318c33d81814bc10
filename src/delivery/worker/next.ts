import { type Message, message } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import type { Gate, ItemFilter, Outbox, OutboxItem } from '../outbox/outbox.js';
import { holdsUp } from '../outbox/rules.js';

/** What the last attempt came to where the server itself asked to be left alone. */
const ASKED_TO_WAIT: readonly (string | undefined)[] = ['rate-limit', 'unavailable'];

/** True when the server, not Casetally, asked for time before anything more is sent. */
export function serverAsked({ lastReason }: Pick<OutboxItem, 'lastReason'>): boolean {
  return ASKED_TO_WAIT.includes(lastReason);
}

/** The time that a server named itself (`Retry-After`) and that is still to come; undefined where it named none. */
export function namedTime(item: OutboxItem, now: number): number | undefined {
  // A retry before that time left it as the time at which the item is due.
  const named = item.parked ? item.parked.askedUntil : serverAsked(item) ? item.notBefore : undefined;
  return named !== undefined && named > now ? named : undefined;
}

/** What happens next with an item; nothing in it is about the patient. */
export interface Next {
  readonly message: Message;
  /** Milliseconds since the epoch, where it happens by itself at a time. */
  readonly at?: number;
}

/** What happens next with an item that is not done with; undefined for one that is. */
export async function whatNext(
  item: OutboxItem,
  outbox: Pick<Outbox, 'list' | 'gate'>,
  now: number,
): Promise<Next | undefined> {
  const { id, destination, state } = item;
  if (state === 'delivered' || state === 'discarded') return undefined;
  if (state === 'sending') return { message: message('next.sending') };
  if (state === 'parked') return { message: message('next.person', { id }) };
  const before = await firstBefore(item, outbox);
  if (before) return { message: behind(before, item) };
  const gate = await outbox.gate(destination);
  if (gate.paused !== undefined)
    return { message: message('next.paused', { destination, reason: gate.paused, id }) };
  const at = Math.max(item.notBefore, gate.closedUntil);
  const time = timeOf(item, gate, at, now);
  return {
    message:
      item.unknownSince === undefined
        ? message('next.again', { time })
        : message('next.asked', { destination, time }),
    ...(at > now && { at }),
  };
}

/** What happens next as rows of JSON. */
export const nextRows = (next: Next | undefined): { next?: string; nextAt?: string } => ({
  ...(next && { next: say(next.message) }),
  ...(next?.at !== undefined && { nextAt: new Date(next.at).toISOString() }),
});

function behind({ id, state, caseKey }: OutboxItem, item: OutboxItem): Message {
  const params = { before: id };
  if (state === 'parked') return message('next.behindParked', params);
  return caseKey === item.caseKey
    ? message('next.behindCase', params)
    : message('next.behindPatient', params);
}

/** The earlier item that this one may not overtake; one that needs a person before one that waits behind it. */
async function firstBefore(item: OutboxItem, outbox: Pick<Outbox, 'list'>): Promise<OutboxItem | undefined> {
  const { destination, caseKey, patientKey, sequence } = item;
  const open = async (of: ItemFilter) => {
    const found = await outbox.list({
      ...{ destination, states: ['waiting', 'sending', 'parked'], unreadable: true },
      ...of,
    });
    return found.filter(other => other.sequence < sequence);
  };
  const parkedBefore = async (one: OutboxItem) =>
    (await open({ caseKey: one.caseKey })).find(other => holdsUp(other, one));
  const parked = await parkedBefore({ ...item, caseKey });
  if (parked) return parked;
  // One that is held up itself holds nobody up but its own case.
  for (const other of await open({ patientKey }))
    if (other.state !== 'parked' && !(await parkedBefore(other))) return other;
  return undefined;
}

function timeOf(item: OutboxItem, gate: Gate, at: number, now: number): Message {
  if (at <= now) return message('next.soon');
  const params = { time: clockTime(at, now), seconds: String(Math.ceil((at - now) / 1000)) };
  return serverAsked(item) && (gate.closedUntil >= item.notBefore || namedTime(item, now) !== undefined)
    ? message('next.atAsked', params)
    : message('next.at', params);
}

/** Time of day on this machine's clock, with the date where it is another day. */
export function clockTime(at: number, now: number): string | Message {
  const date = new Date(at);
  const time = date.toTimeString().slice(0, 8);
  if (date.toDateString() === new Date(now).toDateString()) return time;
  const two = (n: number) => String(n).padStart(2, '0');
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return message('next.on', { time, date: { day } });
}
