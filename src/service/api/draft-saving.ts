import { z } from 'zod';
import type { EditBatch } from '../../drafts/edit.js';
import { readEdits } from '../../drafts/edits.js';
import { type Saved, saveEdits, saveText } from '../../drafts/save.js';
import {
  type By,
  baseOf,
  byOf,
  byOfHeader,
  type DraftPorts,
  etagOf,
  noDraft,
  textIn,
} from './draft-handlers.js';
import { inTurn } from './in-turn.js';
import { line } from './one-line.js';
import { type Reply, refusal, reply } from './reply.js';
import type { Asked } from './route.js';

/** A process has one event loop, whatever it serves. */
const oneByOne = inTurn();

export const sent = z.strictObject({
  batch: z.string().regex(/^[\w-]{8,64}$/),
  by: line(100).optional(),
  edits: z.unknown(),
  exact: z.strictObject({ at: z.number().int().min(0), was: z.string(), is: z.string() }).optional(),
});

/** PATCH /drafts/:id: edits made for a version. */
export async function patchHandler(asked: Asked, ports: DraftPorts): Promise<Reply> {
  const base = baseOf(asked);
  if (typeof base !== 'number') return base;
  const read = sent.safeParse(asked.body);
  const who = read.success ? byOf(read.data.by, asked.caller) : undefined;
  if (!read.success || !who)
    return refusal(
      400,
      'invalid',
      'Send {"batch": id, "by": who, "edits": [{"path", "value"}]}: the id is made anew for each batch, 8 to 64 letters, digits, _ or -, and sent again with a repetition.',
    );
  const { batch, exact } = read.data;
  const edits = readEdits(read.data.edits);
  if ('findings' in edits)
    return refusal(422, 'invalid', 'The edits cannot be read; none was made.', edits.findings);
  const made: EditBatch = { edits: edits.edits, ...(exact && { exact }) };
  const id = asked.params['id'] ?? '';
  const at = ports.clock();
  const saved = await saveEdits(ports.drafts, { id, base, batch, at, by: who.by, inTurn: oneByOne }, made);
  return answered(id, who, saved, ports);
}

/** PUT /drafts/:id: a whole text made from a version. */
export async function putHandler(asked: Asked, ports: DraftPorts): Promise<Reply> {
  const base = baseOf(asked);
  if (typeof base !== 'number') return base;
  const who = byOfHeader(asked);
  if ('status' in who) return who;
  const text = textIn(asked);
  if (typeof text !== 'string') return text;
  const id = asked.params['id'] ?? '';
  const saving = { id, base, by: who.by, at: ports.clock(), inTurn: oneByOne };
  return answered(id, who, await saveText(ports.drafts, saving, text), ports);
}

function answered(id: string, { person }: By, saved: Saved, { changes }: DraftPorts): Reply {
  const answer = replyTo(id, saved, changes);
  // An id that no draft has may be anything, and is not logged.
  return saved.kind === 'missing' ? answer : { ...answer, noted: { drafts: [id], person } };
}

function replyTo(id: string, saved: Saved, changes: DraftPorts['changes']): Reply {
  switch (saved.kind) {
    case 'saved': {
      const { version, text, theirs, inverse } = saved;
      if (!saved.repeated) void changes.changed(id);
      const members = {
        id,
        version,
        text,
        ...(inverse && { inverse }),
        ...(theirs.length > 0 && { theirs }),
      };
      return { ...reply(200, members), headers: { etag: etagOf(version) } };
    }
    case 'missing':
      return noDraft();
    case 'ahead':
      return {
        ...refusal(412, 'conflict', 'The draft has no such version: it may have been restored from a copy.'),
        headers: { etag: etagOf(saved.version) },
      };
    case 'closed':
      return {
        ...refusal(409, 'conflict', `The draft is ${saved.state} and is not changed.`),
        headers: { etag: etagOf(saved.version) },
      };
    case 'other batch':
      return refusal(409, 'conflict', 'A batch with this id was saved before, with other edits.');
    case 'refused':
      return refusal(422, 'invalid', 'Nothing was changed.', saved.findings);
    case 'busy':
      return refusal(
        503,
        'transient',
        'Too many save at once; nothing was changed. Send it again later.',
        [],
        {
          'retry-after': '1',
        },
      );
    case 'conflict': {
      const { version, text, conflicts, findings, theirs } = saved;
      const refused = refusal(
        412,
        'conflict',
        'Others set the same places differently; nothing was changed.',
        findings,
      );
      const more = JSON.stringify({ version, text, conflicts, theirs }).slice(1);
      return {
        ...refused,
        body: `${String(refused.body).slice(0, -1)},${more}`,
        headers: { etag: etagOf(version) },
      };
    }
  }
}
