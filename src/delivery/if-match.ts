import {
  type ExactJson,
  exactText,
  isExactObject,
  listAt,
  objectAt,
  parseExact,
  textAt,
} from './exact-json.js';
import type { NewItem, Outbox } from './outbox/outbox.js';
import type { Receipt, ReceiptEntry } from './receipt.js';

/**
 * A submission whose updates ask for the versions that earlier receipts tell of: what was changed at the
 * destination since then is not overwritten. The version tag is the server's own, letter for letter, where it gave
 * one. Later receipts count before earlier ones; updates that no receipt knows stay as they are.
 */
export function withVersions(submission: string, receipts: readonly Receipt[]): string {
  const known = new Map<string, string>();
  for (const { entries } of receipts)
    for (const line of entries) {
      const tag = tagOf(line);
      if (tag !== undefined) known.set(line.fullUrl, tag);
      else known.delete(line.fullUrl);
    }
  if (known.size === 0) return submission;
  let changed = false;
  const text = rewritten(submission, (request, fullUrl) => {
    const tag = known.get(fullUrl);
    if (textAt(request, 'method') !== 'PUT' || tag === undefined) return request;
    changed = true;
    return { ...request, ifMatch: tag };
  });
  return changed ? text : submission;
}

/** A submission without the versions that its updates ask for: the same for two that differ in these alone. */
function withoutVersions(submission: string): string {
  return rewritten(submission, ({ ifMatch: _tag, ...request }) => request);
}

type Request = { readonly [key: string]: ExactJson };

function rewritten(submission: string, change: (request: Request, fullUrl: string) => Request): string {
  const bundle = parseExact(submission);
  if (!isExactObject(bundle)) return submission;
  const entry = listAt(bundle, 'entry').map(item => {
    const request = objectAt(item, 'request');
    return request && isExactObject(item)
      ? { ...item, request: change(request, textAt(item, 'fullUrl') ?? '') }
      : item;
  });
  return exactText({ ...bundle, entry });
}

function tagOf({ etag, version }: ReceiptEntry): string | undefined {
  return etag ?? (version === undefined ? undefined : `W/"${version}"`);
}

/**
 * An item for the outbox with the versions of what the same destination took of the same case before. When the
 * newest item of the case says the same, that one is meant, whatever versions it asked for: a case that is sent
 * twice is still one item.
 *
 * @param digestOf `sha256:…` of a text.
 */
export async function afterReceipts(
  item: NewItem,
  outbox: Pick<Outbox, 'list'>,
  digestOf: (text: string) => string,
): Promise<NewItem> {
  const { destination, caseKey } = item;
  const earlier = (await outbox.list({ destination, caseKey })).filter(e => e.state !== 'discarded');
  const newest = earlier.at(-1);
  if (!newest) return item;
  if (withoutVersions(newest.payload) === withoutVersions(item.payload))
    return { ...item, payload: newest.payload, digest: newest.digest };
  const payload = withVersions(
    item.payload,
    earlier.flatMap(({ receipt }) => receipt ?? []),
  );
  return { ...item, payload, digest: digestOf(payload) };
}
