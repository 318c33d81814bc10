import { z } from 'zod';
import { moveDraft } from '../../drafts/save.js';
import type { Wanted } from '../threads/case-job.js';
import { baseOf, byOf, etagOf, line, noDraft } from './draft-handlers.js';
import type { ServicePorts } from './handlers.js';
import { type Reply, refusal } from './reply.js';
import type { Asked } from './routes.js';

const takenBy = z.strictObject({ by: line(100) });
const itemsIn = z.object({ items: z.array(z.object({ id: z.string() })) });

const notSo = (state: string) => refusal(409, 'conflict', `The draft is ${state} and is not taken in.`);
const changed = () =>
  refusal(412, 'conflict', 'The draft was changed meanwhile: look at it before it is taken in.');

/**
 * POST /drafts/:id/take-in: takes the case in for delivery, as POST /cases does with its text. The draft is held before
 * and let go where the case is refused; where this is cut off it stays held, and asking again stores nothing twice.
 */
export async function takeInHandler(
  asked: Asked,
  { drafts, cases, clock }: ServicePorts,
  wanted: Wanted,
): Promise<Reply> {
  if (!drafts) return refusal(404, 'not-found', 'This service keeps no drafts.');
  const base = baseOf(asked);
  if (typeof base !== 'number') return base;
  const read = takenBy.safeParse(asked.body);
  if (!read.success) return refusal(400, 'invalid', 'Send {"by": who}: it is kept with the draft.');
  const id = asked.params['id'] ?? '';
  const by = byOf(read.data.by, asked.caller);
  const noted = { drafts: [id], person: read.data.by };
  const now = await drafts.store.get(id);
  if (!now) return noDraft();
  const move = (from: number, to: 'taking-in' | 'taken-in' | 'open', items: readonly string[] = []) =>
    moveDraft(drafts.store, { id, base: from, by, at: clock() }, to, items.length > 0 ? { items } : {});
  let held = base;
  if (now.state === 'taking-in') {
    if (now.version !== base) return { ...changed(), headers: { etag: etagOf(now.version) }, noted };
  } else {
    const moved = await move(base, 'taking-in');
    if (moved.kind === 'missing') return noDraft();
    if (moved.kind === 'not so') return { ...notSo(moved.state), noted };
    if (moved.kind === 'stale') return { ...changed(), headers: { etag: etagOf(moved.version) }, noted };
    held = moved.version;
  }
  const body = new TextEncoder().encode(now.text);
  const job = { body, type: 'application/yaml', maxBytes: body.byteLength, wanted };
  // Whoever asks may leave: what was begun is finished, so that draft and outbox agree.
  const answer = await cases.ask(job, new AbortController().signal);
  const items = itemsIn.safeParse(answer.status === 202 ? JSON.parse(String(bodyText(answer))) : undefined);
  const end = items.success
    ? await move(
        held,
        'taken-in',
        items.data.items.map(one => one.id),
      )
    : await move(held, 'open');
  void drafts.changes.changed(id);
  const version = end.kind === 'moved' ? end.version : held;
  return {
    ...answer,
    headers: { ...answer.headers, etag: etagOf(version) },
    noted: { ...answer.noted, ...noted },
  };
}

const bodyText = ({ body }: Reply): string =>
  typeof body === 'string' ? body : Buffer.from(body).toString('utf8');
