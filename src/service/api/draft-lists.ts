import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { OutboxItem } from '../../delivery/outbox/outbox.js';
import { nameParts } from '../../delivery/patient/names.js';
import { dayAt } from '../../drafts/head.js';
import type { DraftSummary } from '../../drafts/store/drafts.js';
import { isCalendarDate } from '../../record/time.js';
import { type DraftPorts, shown } from './draft-handlers.js';
import { line } from './one-line.js';
import { type Reply, refusal, reply } from './reply.js';
import type { Asked } from './route.js';

/** Most drafts of one answer. */
const MAX_LISTED = 500;
/** Most that a search looks through, and most that it finds. */
const MAX_SEARCHED = 5_000;
const MAX_FOUND = 50;
/** Days that a search goes back where it does not say. */
const DAYS = 30;

/** What a case needs next. */
type Next =
  | 'entering'
  | 'signature'
  | 'leaving'
  | 'delivery'
  | 'somebody'
  | 'nothing, delivered'
  | 'nothing, discarded';

/** GET /drafts: those of a day, today unless it is named, with what each needs next. */
export async function listHandler({ query }: Asked, ports: DraftPorts): Promise<Reply> {
  const { drafts, clock, timeZone } = ports;
  const day = query['on'] ?? dayAt(clock(), timeZone);
  if (typeof day !== 'string' || !isCalendarDate(day))
    return refusal(400, 'invalid', 'Write ?on= with a day, YYYY-MM-DD, or nothing.');
  const found = await drafts.list({ day, limit: MAX_LISTED + 1 });
  const rows = await Promise.all(found.slice(0, MAX_LISTED).map(one => rowOf(one, ports)));
  return reply(200, { on: day, drafts: rows, more: found.length > MAX_LISTED });
}

export const searched = z.strictObject({ find: line(200), since: z.iso.date().optional() });

/** POST /drafts/search: by patient, number, case or device; in the body, since addresses stand in logs. */
export async function searchHandler(asked: Asked, ports: DraftPorts): Promise<Reply> {
  const read = searched.safeParse(asked.body);
  const words = nameParts(read.data?.find ?? '');
  if (!read.success || words.length === 0)
    return refusal(400, 'invalid', 'Send {"find": words of patient, number, case or device, "since": day}.');
  const { drafts, clock, timeZone } = ports;
  const today = Temporal.PlainDate.from(dayAt(clock(), timeZone));
  const since = read.data.since ?? today.subtract({ days: DAYS }).toString();
  const all = await drafts.list({ since, limit: MAX_SEARCHED + 1 });
  const found = all
    .slice(0, MAX_SEARCHED)
    .filter(one => words.every(word => haystack(one).some(part => part.includes(word))))
    .reverse();
  const rows = await Promise.all(found.slice(0, MAX_FOUND).map(one => rowOf(one, ports)));
  return {
    ...reply(200, { since, drafts: rows, more: found.length > MAX_FOUND || all.length > MAX_SEARCHED }),
    noted: { drafts: rows.map(({ id }) => id) },
  };
}

const haystack = ({ case: number, patient, patientNumber, devices = [] }: DraftSummary) =>
  nameParts([number, patient, patientNumber, ...devices].join(' '));

async function rowOf(draft: DraftSummary, { drafts, outbox }: DraftPorts) {
  const [last] = await drafts.versions(draft.id, draft.version - 1);
  const items = await Promise.all((last?.items ?? []).map(id => outbox.get(id)));
  const there = items.flatMap(item => item ?? []);
  return {
    ...shown(draft),
    next: nextOf(draft, there, last?.why),
    ...(there.length > 0 && {
      items: there.map(({ id, destination, state }) => ({ id, destination, state })),
    }),
    ...(last?.signature && { leavesAt: new Date(last.signature.leavesAt).toISOString() }),
    ...(last?.why !== undefined && { why: last.why }),
  };
}

function nextOf({ state }: DraftSummary, items: readonly OutboxItem[], why: string | undefined): Next {
  switch (state) {
    case 'open':
      // It was signed, and then refused on its way out.
      return why === undefined ? 'entering' : 'somebody';
    case 'closed':
      return 'signature';
    case 'signed':
    case 'taking-in':
      return 'leaving';
    case 'discarded':
      return 'nothing, discarded';
    case 'taken-in':
      if (items.some(item => item.state === 'parked')) return 'somebody';
      return items.some(item => item.state === 'waiting' || item.state === 'sending')
        ? 'delivery'
        : 'nothing, delivered';
  }
}
