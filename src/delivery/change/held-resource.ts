import { classifyAnswer } from '../answer/classify.js';
import { type ExactObject, exactText, listAt, objectAt, textAt } from '../answer/exact-json.js';
import { ACCEPTED, type Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import { isPassing } from '../held/looking.js';
import { search } from '../held/lookup.js';
import { type Reply, resourceOf } from '../http/fhir-client.js';
import { numbersOf } from '../request/expected.js';
import { tagOf } from '../request/if-match.js';
import { askOnce } from '../send/once.js';

/** A resource as a destination has it now. */
export interface HeldResource {
  readonly type: string;
  readonly id: string;
  readonly resource: ExactObject;
  /** Version tag to ask for when it is changed; absent where the destination tells no version. */
  readonly tag?: string;
}

/** What is there under a business identifier. */
export type Look =
  | { readonly kind: 'found'; readonly held: HeldResource }
  | { readonly kind: 'absent' }
  /** It was there, and is deleted. */
  | { readonly kind: 'gone'; readonly address: string }
  | { readonly kind: 'several'; readonly addresses: readonly string[] }
  /** Asking again later may be answered. */
  | { readonly kind: 'later' }
  | { readonly kind: 'refused'; readonly status: number };

/** Looks for the one resource of an identifier. The search says where it is alone, for it may answer out of date. */
export async function lookFor(
  session: Session,
  type: string,
  identifier: { readonly system: string; readonly value: string },
): Promise<Look> {
  let failed: Reply | undefined;
  const criteria = { parameter: 'identifier', value: `${identifier.system}|${identifier.value}` };
  const found = await search(session.client, type, criteria, reply => {
    failed = reply;
  });
  if (found === 'no-answer') return unanswered(failed);
  const ids = [...new Set(found.map(({ id }) => id))];
  const [id] = ids;
  if (id === undefined) return { kind: 'absent' };
  if (ids.length > 1) return { kind: 'several', addresses: ids.map(one => `${type}/${one}`) };
  const look = await readHeld(session, type, id);
  const isOurs =
    look.kind !== 'found' ||
    numbersOf(look.held.resource).some(
      ({ system, value }) => system === identifier.system && value === identifier.value,
    );
  return isOurs ? look : { kind: 'absent' };
}

/** Reads a resource itself, with its digits. */
export async function readHeld(session: Session, type: string, id: string): Promise<Look> {
  const reply = await session.client.read(type, id);
  const resource = resourceOf(reply);
  if (!resource) {
    const status = reply.exchange.kind === 'answer' ? reply.exchange.status : 0;
    if (status === 404 || status === 410) return { kind: 'gone', address: `${type}/${id}` };
    // A success without a resource is no answer either.
    return status >= 200 && status < 300 ? { kind: 'later' } : unanswered(reply);
  }
  if (textAt(resource, 'resourceType') !== type || textAt(resource, 'id') !== id) return { kind: 'later' };
  const tag = versionTag(reply, resource);
  return { kind: 'found', held: { type, id, resource, ...(tag !== undefined && { tag }) } };
}

function unanswered(reply: Reply | undefined): Look {
  if (!reply || isPassing(reply) || reply.exchange.kind !== 'answer') return { kind: 'later' };
  const { status } = reply.exchange;
  if (status >= 200 && status < 300) return { kind: 'later' };
  // A server without the type has nothing of it.
  return status === 404 ? { kind: 'absent' } : { kind: 'refused', status };
}

/** The server's own tag, letter for letter, where it is that of the version: a gateway may put a hash there. */
function versionTag({ exchange }: Reply, resource: ExactObject): string | undefined {
  const version = textAt(objectAt(resource, 'meta'), 'versionId');
  const etag = exchange.kind === 'answer' ? exchange.headers.etag : undefined;
  if (version === undefined) return etag;
  return etag?.includes(`"${version}"`) ? etag : tagOf(version);
}

/** True for a part of a resource, which would lose the rest when it is written. */
export const isPart = ({ resource }: HeldResource): boolean =>
  listAt(objectAt(resource, 'meta'), 'tag').some(tag => textAt(tag, 'code') === 'SUBSETTED');

/** What came of writing a resource anew. */
export type Written =
  | { readonly kind: 'done' }
  /** Somebody changed it since it was read. */
  | { readonly kind: 'overtaken' }
  | { readonly kind: 'later'; readonly reason: string; readonly waitMs?: number }
  | { readonly kind: 'refused'; readonly status: number };

/** Writes a resource that was read before, asking for the version that was read. */
export async function writeHeld(
  session: Session,
  { type, id, tag }: HeldResource,
  resource: ExactObject,
): Promise<Written> {
  const headers = tag === undefined ? {} : { 'if-match': tag };
  const { reply, verdict } = await askOnce(
    session,
    renewToken => session.client.write('PUT', `${type}/${id}`, exactText(resource), headers, renewToken),
    (seen, tokenRenewed) => judge(seen, tokenRenewed, session.clock()),
  );
  const { exchange } = reply;
  if (exchange.kind === 'answer') {
    const { status } = exchange;
    if (verdict.state === 'delivered') return { kind: 'done' };
    // What is not there any more is found out by reading again.
    if (status === 404 || status === 409 || status === 410 || status === 412) return { kind: 'overtaken' };
    if (verdict.state === 'refused') return { kind: 'refused', status };
  }
  const { reason, waitMs } = verdict;
  return { kind: 'later', reason, ...(waitMs !== undefined && { waitMs }) };
}

function judge({ exchange, body }: Reply, tokenRenewed: boolean, now: number): Verdict {
  if (exchange.kind === 'answer' && (exchange.status === 200 || exchange.status === 201))
    return { ...ACCEPTED, status: exchange.status };
  return classifyAnswer({
    exchange,
    ...(body !== undefined && { body }),
    sent: [{ method: 'PUT', conditional: [] }],
    tokenRenewed,
    now,
  });
}
