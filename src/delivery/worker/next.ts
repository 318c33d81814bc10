import type { Gate, Outbox, OutboxItem } from '../outbox/outbox.js';
import { holdsUp } from '../outbox/rules.js';

/** What the last attempt came to where the server itself asked to be left alone. */
const ASKED_TO_WAIT: readonly (string | undefined)[] = ['rate-limit', 'unavailable'];

/** True when the server, not Casetally, set the time before which nothing is to be sent. */
export function serverAsked({ lastReason }: Pick<OutboxItem, 'lastReason'>): boolean {
  return ASKED_TO_WAIT.includes(lastReason);
}

/** What happens next with an item, as one sentence for people; nothing in it is about the patient. */
export async function whatNext(
  item: OutboxItem,
  outbox: Pick<Outbox, 'list' | 'gate'>,
  now: number,
): Promise<string | undefined> {
  const { id, destination, state } = item;
  if (state === 'delivered' || state === 'discarded') return undefined;
  if (state === 'sending') return 'is being sent';
  if (state === 'parked') return `needs a person: casetally outbox show ${id}`;
  const before = await firstBefore(item, outbox);
  if (before) {
    const whose = before.caseKey === item.caseKey ? 'case' : 'patient';
    const why = before.state === 'parked' ? ', which needs a person' : '';
    return `waits behind ${before.id} of the same ${whose}${why}: casetally outbox show ${before.id}`;
  }
  const gate = await outbox.gate(destination);
  if (gate.paused !== undefined)
    return `waits because ${destination} needs a person (${gate.paused}): once that is mended, casetally outbox retry ${id}`;
  return item.unknownSince === undefined
    ? `goes again ${timeOf(item, gate, now)}`
    : `it is not known whether it arrived; ${destination} will be asked ${timeOf(item, gate, now)}`;
}

/** The earlier item that this one may not overtake; one that needs a person before one that waits behind it. */
async function firstBefore(item: OutboxItem, outbox: Pick<Outbox, 'list'>): Promise<OutboxItem | undefined> {
  const { destination, patientKey, sequence } = item;
  const open = await outbox.list({ destination, states: ['waiting', 'sending', 'parked'] });
  const earlier = open.filter(other => other.sequence < sequence);
  const parkedBefore = (one: OutboxItem) => earlier.find(other => holdsUp(other, one));
  // One that is held up itself holds nobody up but its own case.
  return (
    parkedBefore(item) ??
    earlier.find(o => o.state !== 'parked' && o.patientKey === patientKey && !parkedBefore(o))
  );
}

function timeOf(item: OutboxItem, gate: Gate, now: number): string {
  const at = Math.max(item.notBefore, gate.closedUntil);
  if (at <= now) return 'with the next run of the worker or casetally outbox retry';
  const seconds = Math.ceil((at - now) / 1000);
  const who = gate.closedUntil >= item.notBefore && serverAsked(item) ? ', the server asked for time' : '';
  return `at ${clockTime(at, now)} (in ${seconds} s${who})`;
}

/** Time of day on this machine's clock, with the date where it is another day. */
function clockTime(at: number, now: number): string {
  const date = new Date(at);
  const time = date.toTimeString().slice(0, 8);
  return date.toDateString() === new Date(now).toDateString() ? time : `${time} on ${date.toDateString()}`;
}
