import { type ExactJson, listAt, objectAt, parseExact, textAt, withEntries } from '../answer/exact-json.js';
import type { NewItem, Outbox } from '../outbox/outbox.js';
import type { Receipt, ReceiptEntry } from '../receipt/receipt.js';
import { digestOf } from './submission.js';

/** What was sent, and what the destination took of it. */
interface Taken {
  readonly payload: string;
  readonly receipt: Receipt;
}

/**
 * A submission whose updates ask for the versions that earlier receipts tell of: what was changed at the
 * destination since then is not overwritten. The version tag is the server's own, letter for letter, where it gave
 * one. Later receipts count before earlier ones; updates that no receipt knows stay as they are.
 *
 * A resource is known by what the request looks for, not by its place in the case: a new version of a document has
 * the place of the old one and is another resource.
 */
export function withVersions(submission: string, taken: readonly Taken[]): string {
  const known = new Map<string, string>();
  for (const { payload, receipt } of taken) {
    const looked = lookedFor(payload);
    for (const line of receipt.entries) {
      const key = looked.get(line.fullUrl);
      const tag = tagOf(line);
      if (key === undefined) continue;
      if (tag !== undefined) known.set(key, tag);
      else known.delete(key);
    }
  }
  if (known.size === 0) return submission;
  let changed = false;
  const text = rewritten(submission, request => {
    const tag = known.get(keyOf(request) ?? '');
    if (textAt(request, 'method') !== 'PUT' || tag === undefined) return request;
    changed = true;
    return { ...request, ifMatch: tag };
  });
  return changed ? text : submission;
}

/** What each entry of a submission looks for, by its fullUrl. */
function lookedFor(submission: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const item of listAt(parseExact(submission), 'entry')) {
    const request = objectAt(item, 'request');
    const key = request && keyOf(request);
    const fullUrl = textAt(item, 'fullUrl');
    if (key !== undefined && fullUrl !== undefined) found.set(fullUrl, key);
  }
  return found;
}

/** `Type?criteria` of a conditional create or update, or the address of a plain update. */
function keyOf(request: Request): string | undefined {
  const url = textAt(request, 'url');
  const criteria = textAt(request, 'ifNoneExist');
  if (textAt(request, 'method') === 'POST')
    return criteria === undefined ? undefined : `${url}?${criteria.replace(/^\?/, '')}`;
  return url;
}

/** A submission without the versions that its updates ask for: the same for two that differ in these alone. */
function withoutVersions(submission: string): string {
  return rewritten(submission, ({ ifMatch: _tag, ...request }) => request);
}

/** A request of an entry. */
type Request = { readonly [key: string]: ExactJson };

function rewritten(submission: string, change: (request: Request) => Request): string {
  return withEntries(parseExact(submission), item => {
    const request = objectAt(item, 'request');
    return request ? { ...item, request: change(request) } : item;
  });
}

function tagOf({ etag, version }: ReceiptEntry): string | undefined {
  return etag ?? (version === undefined ? undefined : `W/"${version}"`);
}

/**
 * An item for the outbox with the versions of what the same destination took of the same case before. When the
 * newest item of the case says the same, that one is meant, whatever versions it asked for: a case that is sent
 * twice is still one item.
 */
export async function afterReceipts(item: NewItem, outbox: Pick<Outbox, 'list'>): Promise<NewItem> {
  const { destination, caseKey } = item;
  const earlier = (await outbox.list({ destination, caseKey })).filter(e => e.state !== 'discarded');
  const newest = earlier.at(-1);
  if (!newest) return item;
  if (withoutVersions(newest.payload) === withoutVersions(item.payload))
    return { ...item, payload: newest.payload, digest: newest.digest };
  const payload = withVersions(
    item.payload,
    earlier.flatMap(({ payload: sent, receipt }) => (receipt ? [{ payload: sent, receipt }] : [])),
  );
  return { ...item, payload, digest: digestOf(payload) };
}
