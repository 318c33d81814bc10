import { z } from 'zod';
import { moveDraft } from '../../drafts/save.js';
import type { Draft, DraftState, Drafts, VersionRow } from '../../drafts/store/drafts.js';
import type { Wanted } from '../threads/case-job.js';
import { baseOf, byOf, etagOf, noDraft } from './draft-handlers.js';
import type { ServicePorts } from './handlers.js';
import { line } from './one-line.js';
import { bodyText, type Reply, refusal } from './reply.js';
import type { Asked } from './route.js';

export const takenBy = z.strictObject({ by: line(100).optional() });
const itemsIn = z.object({ items: z.array(z.object({ id: z.string() })) });
const whyIn = z.looseObject({ issue: z.array(z.looseObject({ details: z.object({ text: z.string() }) })) });

/** How long a signed case waits that could not be taken in for the moment. */
const AGAIN_MS = 60_000;

const notSo = (state: string) => refusal(409, 'conflict', `The draft is ${state} and is not taken in.`);
const changed = () =>
  refusal(412, 'conflict', 'The draft was changed meanwhile: look at it before it is taken in.');

/** What taking in a draft needs. */
export interface TakeInPorts {
  readonly drafts: NonNullable<ServicePorts['drafts']>;
  readonly cases: ServicePorts['cases'];
  readonly clock: () => number;
}

/**
 * POST /drafts/:id/take-in: takes the case in for delivery, as POST /cases does with its text. The draft is held before
 * and let go where the case is refused; where this is cut off it stays held, and asking again stores nothing twice.
 */
export async function takeInHandler(asked: Asked, ports: ServicePorts, wanted: Wanted): Promise<Reply> {
  const { drafts, cases, clock } = ports;
  if (!drafts) return refusal(404, 'not-found', 'This service keeps no drafts.');
  const base = baseOf(asked);
  if (typeof base !== 'number') return base;
  const read = takenBy.safeParse(asked.body);
  const who = read.success ? byOf(read.data.by, asked.caller) : undefined;
  if (!who) return refusal(400, 'invalid', 'Send {"by": who}: it is kept with the draft.');
  const id = asked.params['id'] ?? '';
  const now = await drafts.store.get(id);
  if (!now) return noDraft();
  const noted = { drafts: [id], person: who.person };
  if (now.version !== base) return { ...changed(), headers: { etag: etagOf(now.version) }, noted };
  const answer = await takeIn(now, who.by, wanted, { drafts, cases, clock });
  return { ...answer, noted: { ...answer.noted, ...noted } };
}

/** Takes in a draft as it was read. What was signed and is refused is open again, without its signature. */
export async function takeIn(now: Draft, by: string, wanted: Wanted, ports: TakeInPorts): Promise<Reply> {
  const { drafts, cases, clock } = ports;
  const { id } = now;
  const signed = await signedVersion(drafts.store, now);
  const move = (from: number, to: DraftState, more: Parameters<typeof moveDraft>[3] = {}) =>
    moveDraft(drafts.store, { id, base: from, by, at: clock() }, to, more);
  let held = now.version;
  if (now.state !== 'taking-in') {
    const moved = await move(now.version, 'taking-in');
    if (moved.kind === 'missing') return noDraft();
    if (moved.kind === 'not so') return notSo(moved.state);
    if (moved.kind === 'stale') return { ...changed(), headers: { etag: etagOf(moved.version) } };
    held = moved.version;
  }
  const body = new TextEncoder().encode(now.text);
  const job = { body, type: 'application/yaml', maxBytes: body.byteLength, wanted };
  // Whoever asks may leave: what was begun is finished, so that draft and outbox agree.
  const answer = await cases.ask(job, new AbortController().signal);
  const items = itemsIn.safeParse(answer.status === 202 ? JSON.parse(bodyText(answer)) : undefined);
  const end = items.success
    ? await move(held, 'taken-in', { items: items.data.items.map(one => one.id) })
    : await letGo(answer, signed);
  void drafts.changes.changed(id);
  return {
    ...answer,
    headers: { ...answer.headers, etag: etagOf(end.kind === 'moved' ? end.version : held) },
  };

  async function letGo(refused: Reply, from: VersionRow | undefined) {
    if (!from?.signature) return move(held, 'open');
    // Busy, or a fault of the service: it is signed all the same, and tried again.
    if (refused.status >= 500 || refused.status === 429)
      return move(held, 'signed', { signature: { ...from.signature, leavesAt: clock() + AGAIN_MS } });
    const text = await drafts.store.textOf(id, from.signature.of);
    return move(held, 'open', { why: whyOf(refused), ...(text !== undefined && { text }) });
  }
}

/** The version in which what is taken in was signed; undefined where it was not. */
async function signedVersion(store: Drafts, { id, version, state }: Draft): Promise<VersionRow | undefined> {
  const last = await store.versions(id, Math.max(0, version - 2));
  const row = state === 'taking-in' ? last.find(one => one.version === version - 1) : last.at(-1);
  return row?.state === 'signed' ? row : undefined;
}

function whyOf(refused: Reply): string {
  const read = whyIn.safeParse(JSON.parse(bodyText(refused)));
  return read.success ? (read.data.issue[0]?.details.text ?? '') : `${refused.status}`;
}
