import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import type { Outbox } from '../../delivery/outbox/outbox.js';
import { dayAt } from '../../drafts/head.js';
import { moveDraft, standsAgainst } from '../../drafts/save.js';
import type { DraftSignature, DraftSummary, Drafts, VersionRow } from '../../drafts/store/drafts.js';
import { beginRecord } from '../../intake/begin.js';
import { decodeUtf8 } from '../../record/read.js';
import type { DraftChanges } from './draft-changes.js';
import { attributed, type Caller } from './guard.js';
import { line } from './one-line.js';
import { type Reply, refusal, reply } from './reply.js';
import type { Asked } from './route.js';

/** What the routes of drafts work with. */
export interface DraftPorts {
  readonly drafts: Drafts;
  readonly changes: DraftChanges;
  readonly clock: () => number;
  readonly timeZone?: string | undefined;
  /** Where taken-in cases are. */
  readonly outbox: Pick<Outbox, 'get'>;
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

/** Who does something to a draft: as it is kept with the version, and as it stands in the log. */
export interface By {
  readonly by: string;
  readonly person: string;
}

/** @param typed the name that was sent; whoever is signed in need not send one */
export function byOf(typed: string | undefined, caller: Caller): By | undefined {
  const by = attributed(typed, caller);
  return by === undefined ? undefined : { by, person: caller.person?.name ?? typed ?? by };
}

/** Who sends a text, from a header since the body is the text: percent-encoded, as addresses are. */
export function byOfHeader(asked: Asked): By | Reply {
  try {
    const header = asked.header('casetally-by');
    const read = line(100)
      .optional()
      .safeParse(header === undefined ? undefined : decodeURIComponent(header));
    const by = read.success ? byOf(read.data, asked.caller) : undefined;
    if (by) return by;
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

/** Without what only a search reads. */
export const shown = ({ begunAt, changedAt, devices: _, ...rest }: DraftSummary) => ({
  ...rest,
  begun: new Date(begunAt).toISOString(),
  changed: new Date(changedAt).toISOString(),
});

/** What the last version says of how the draft stands: who signed it, why it is where it is, its items. */
const endShown = ({ signature, why, items }: VersionRow) => ({
  ...(signature && { signature: signatureShown(signature) }),
  ...{ why, items },
});

const signatureShown = ({ leavesAt, ...rest }: DraftSignature) => ({
  ...rest,
  leavesAt: new Date(leavesAt).toISOString(),
});

const versionShown = ({ at, digest: _, signature, ...rest }: VersionRow) => ({
  ...rest,
  ...(signature && { signature: signatureShown(signature) }),
  at: new Date(at).toISOString(),
});

/** POST /drafts: begins one, from a text or empty. */
export async function beginHandler(asked: Asked, { drafts, clock, timeZone }: DraftPorts): Promise<Reply> {
  const by = byOfHeader(asked);
  if ('status' in by) return by;
  const given = textIn(asked);
  if (typeof given !== 'string') return given;
  const text = given === '' ? beginRecord({}) : given;
  const findings = standsAgainst(text);
  if (findings.length > 0) return refusal(422, 'structure', 'The text is no record.', findings);
  const at = clock();
  const id = randomUUID();
  const begun = await drafts.begin(id, dayAt(at, timeZone), {
    ...{ text, by: by.by, at, state: 'open', edits: [], base: 0 },
  });
  return {
    ...reply(201, { ...shown(begun), text }),
    headers: { etag: etagOf(1), location: `/v1/drafts/${id}` },
    noted: { drafts: [id], person: by.person },
  };
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
  const [last] = await drafts.versions(id, draft.version - 1);
  return {
    ...reply(200, { ...shown(summary), ...(last && endShown(last)), text }),
    headers: { etag: etagOf(draft.version) },
    noted,
  };
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

export const discarded = z.strictObject({ by: line(100).optional(), why: line(1_000) });

/** POST /drafts/:id/discard. */
export async function discardHandler(asked: Asked, ports: DraftPorts): Promise<Reply> {
  const { drafts, changes, clock } = ports;
  const base = baseOf(asked);
  if (typeof base !== 'number') return base;
  const read = discarded.safeParse(asked.body);
  const who = read.success ? byOf(read.data.by, asked.caller) : undefined;
  if (!read.success || !who)
    return refusal(400, 'invalid', 'Send {"by": who, "why": reason}: both are kept with it.');
  const { by, person } = who;
  const id = asked.params['id'] ?? '';
  const moved = await moveDraft(drafts, { id, base, by, at: clock() }, 'discarded', { why: read.data.why });
  const noted = { drafts: [id], person };
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
  const typed = line(100).safeParse(asked.query['by']);
  const by = attributed(typed.data, asked.caller) ?? asked.caller.name ?? '';
  return {
    ...{ status: 200, body: '' },
    headers: { 'content-type': 'text/event-stream; charset=utf-8', 'x-accel-buffering': 'no' },
    noted: { drafts: [id] },
    stream: sink => changes.listen(id, by, after, sink),
  };
}
