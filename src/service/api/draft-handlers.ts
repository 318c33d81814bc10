import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { dayAt } from '../../drafts/head.js';
import { moveDraft, standsAgainst } from '../../drafts/save.js';
import type { DraftSummary, Drafts, VersionRow } from '../../drafts/store/drafts.js';
import { beginRecord } from '../../intake/begin.js';
import { decodeUtf8 } from '../../record/read.js';
import { isCalendarDate } from '../../record/time.js';
import type { DraftChanges } from './draft-changes.js';
import type { Caller } from './guard.js';
import { type Reply, refusal, reply } from './reply.js';
import type { Asked } from './routes.js';

/** Most drafts of one answer. */
const MAX_LISTED = 500;

/** What the routes of drafts work with. */
export interface DraftPorts {
  readonly drafts: Drafts;
  readonly changes: DraftChanges;
  readonly clock: () => number;
  readonly timeZone?: string | undefined;
}

export const etagOf = (version: number): string => `"${version}"`;
const numberOf = (text: string): number | undefined =>
  /^[1-9]\d{0,14}$/.test(text) ? Number(text) : undefined;

/** The version that a request was made for, or why it is refused. */
export function baseOf(asked: Asked): number | Reply {
  const given = asked.header('if-match');
  if (given === undefined)
    return refusal(428, 'invalid', 'Send If-Match with the ETag of the version that this was made for.');
  const version = numberOf(/^"(.*)"$/.exec(given.trim())?.[1] ?? '');
  return version ?? refusal(400, 'invalid', 'If-Match takes one ETag of this draft, such as "3".');
}

/** A name on one line. */
export const line = (most: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(most)
    .regex(/^\P{Cc}*$/u);

/** Whoever holds a token may write any name: the token's stands beside it. */
export const byOf = (person: string, { name }: Caller): string =>
  name === undefined ? person : `${person} (token ${name})`;

/** Who sends a text, from a header since the body is the text: percent-encoded, as addresses are. */
export function personOf(asked: Asked): string | Reply {
  try {
    const read = line(100).safeParse(decodeURIComponent(asked.header('casetally-by') ?? ''));
    if (read.success) return read.data;
  } catch {
    // Not percent-encoded.
  }
  return refusal(400, 'invalid', 'Say who this is in the header Casetally-By, percent-encoded.');
}

/** The text of a body, or why it is refused; '' where none came. */
export function textIn({ body }: Asked): string | Reply {
  if (!(body instanceof Uint8Array)) return '';
  const read = decodeUtf8(body);
  return 'text' in read ? read.text : refusal(422, 'structure', 'The text cannot be read.', [read.finding]);
}

export const noDraft = () => refusal(404, 'not-found', 'There is no such draft.');

export const shown = ({ begunAt, changedAt, ...rest }: DraftSummary) => ({
  ...rest,
  begun: new Date(begunAt).toISOString(),
  changed: new Date(changedAt).toISOString(),
});

const versionShown = ({ at, digest: _, ...rest }: VersionRow) => ({
  ...rest,
  at: new Date(at).toISOString(),
});

/** POST /drafts: begins one, from a text or empty. */
export async function beginHandler(asked: Asked, { drafts, clock, timeZone }: DraftPorts): Promise<Reply> {
  const person = personOf(asked);
  if (typeof person !== 'string') return person;
  const given = textIn(asked);
  if (typeof given !== 'string') return given;
  const text = given === '' ? beginRecord({}) : given;
  const findings = standsAgainst(text);
  if (findings.length > 0) return refusal(422, 'structure', 'The text is no record.', findings);
  const at = clock();
  const id = randomUUID();
  const by = byOf(person, asked.caller);
  const begun = await drafts.begin(id, dayAt(at, timeZone), {
    ...{ text, by, at, state: 'open', edits: [], base: 0 },
  });
  return {
    ...reply(201, { ...shown(begun), text }),
    headers: { etag: etagOf(1), location: `/v1/drafts/${id}` },
    noted: { drafts: [id] },
  };
}

/** GET /drafts: those of a day, today unless it is named. */
export async function listHandler({ query }: Asked, { drafts, clock, timeZone }: DraftPorts): Promise<Reply> {
  const day = query['on'] ?? dayAt(clock(), timeZone);
  if (typeof day !== 'string' || !isCalendarDate(day))
    return refusal(400, 'invalid', 'Write ?on= with a day, YYYY-MM-DD, or nothing.');
  const found = await drafts.list({ day, limit: MAX_LISTED + 1 });
  return reply(200, {
    on: day,
    drafts: found.slice(0, MAX_LISTED).map(shown),
    more: found.length > MAX_LISTED,
  });
}

/** GET /drafts/:id. */
export async function draftHandler(asked: Asked, { drafts }: DraftPorts): Promise<Reply> {
  const id = asked.params['id'] ?? '';
  const noted = { drafts: [id] };
  const known = asked.header('if-none-match');
  if (known !== undefined) {
    const version = await drafts.version(id);
    const etag = version === undefined ? undefined : etagOf(version);
    const tags = known.split(',').map(tag => tag.trim().replace(/^W\//, ''));
    if (etag !== undefined && tags.includes(etag)) return { status: 304, body: '', headers: { etag }, noted };
  }
  const draft = await drafts.get(id);
  if (!draft) return noDraft();
  const { text, ...summary } = draft;
  return { ...reply(200, { ...shown(summary), text }), headers: { etag: etagOf(draft.version) }, noted };
}

/** GET /drafts/:id/versions: who changed what, and when. */
export async function versionsHandler({ params }: Asked, { drafts }: DraftPorts): Promise<Reply> {
  const id = params['id'] ?? '';
  const rows = await drafts.versions(id);
  return rows.length === 0
    ? noDraft()
    : { ...reply(200, { versions: rows.map(versionShown) }), noted: { drafts: [id] } };
}

/** GET /drafts/:id/versions/:n: the text of one. */
export async function versionHandler({ params }: Asked, { drafts }: DraftPorts): Promise<Reply> {
  const [id, version] = [params['id'] ?? '', numberOf(params['n'] ?? '')];
  const text = version === undefined ? undefined : await drafts.textOf(id, version);
  if (text === undefined || version === undefined)
    return refusal(404, 'not-found', 'There is no such version of a draft.');
  const [row] = await drafts.versions(id, version - 1);
  return { ...reply(200, { ...(row && versionShown(row)), text }), noted: { drafts: [id] } };
}

const discarded = z.strictObject({ by: line(100), why: line(1_000) });

/** POST /drafts/:id/discard. */
export async function discardHandler(asked: Asked, ports: DraftPorts): Promise<Reply> {
  const { drafts, changes, clock } = ports;
  const base = baseOf(asked);
  if (typeof base !== 'number') return base;
  const read = discarded.safeParse(asked.body);
  if (!read.success)
    return refusal(400, 'invalid', 'Send {"by": who, "why": reason}: both are kept with it.');
  const id = asked.params['id'] ?? '';
  const by = byOf(read.data.by, asked.caller);
  const moved = await moveDraft(drafts, { id, base, by, at: clock() }, 'discarded', { why: read.data.why });
  const noted = { drafts: [id], person: read.data.by };
  if (moved.kind === 'missing') return noDraft();
  if (moved.kind === 'not so')
    return { ...refusal(409, 'conflict', `The draft is ${moved.state} and is not discarded.`), noted };
  const headers = { etag: etagOf(moved.version) };
  if (moved.kind === 'stale')
    return {
      ...refusal(412, 'conflict', 'The draft was changed meanwhile: look at it before it is discarded.'),
      ...{ headers, noted },
    };
  void changes.changed(id);
  return { ...reply(200, { id, version: moved.version, state: 'discarded' }), headers, noted };
}

/** GET /drafts/:id/changes: new versions and who is on the draft, as they come. */
export async function changesHandler(asked: Asked, { drafts, changes }: DraftPorts): Promise<Reply> {
  const id = asked.params['id'] ?? '';
  if ((await drafts.version(id)) === undefined) return noDraft();
  if (!changes.hasRoom(id))
    return refusal(503, 'throttled', 'Too many listen already.', [], { 'retry-after': '30' });
  const after = numberOf(asked.header('last-event-id') ?? '') ?? 0;
  const person = line(100).safeParse(asked.query['by']);
  const by = person.success ? byOf(person.data, asked.caller) : (asked.caller.name ?? '');
  return {
    ...{ status: 200, body: '' },
    headers: { 'content-type': 'text/event-stream; charset=utf-8', 'x-accel-buffering': 'no' },
    noted: { drafts: [id] },
    stream: sink => changes.listen(id, by, after, sink),
  };
}
