import { type ExactJson, listAt, objectAt, parseExact, textAt, withEntries } from '../answer/exact-json.js';
import type { Receipt, ReceiptEntry } from '../receipt/receipt.js';
import type { Submission } from './submission.js';

/** What was sent, and what the destination took of it. */
export interface Taken {
  readonly payload: string;
  readonly receipt: Receipt;
}

/**
 * The version tag of each resource that receipts tell of, by what a request for it looks for; undefined where the
 * destination told none. The tag is the server's own, letter for letter, where it gave one. Later receipts count
 * before earlier ones.
 *
 * A resource is known by what the request looks for, not by its place in the case: a new version of a document has
 * the place of the old one and is another resource.
 */
export function versionsTaken(taken: readonly Taken[]): Map<string, string | undefined> {
  const known = new Map<string, string | undefined>();
  for (const { payload, receipt } of taken) {
    const looked = lookedFor(payload);
    for (const line of receipt.entries) {
      const key = looked.get(line.fullUrl);
      if (key !== undefined) known.set(key, line.etag ?? tagOf(line.version));
    }
  }
  return known;
}

/**
 * A submission whose updates ask for the versions given: what was changed at the destination since then is not
 * overwritten. Updates of which no version is known ask for none.
 */
export function withVersions(submission: string, versions: ReadonlyMap<string, string | undefined>): string {
  let changed = false;
  const text = withEntries(parseExact(submission), item => {
    const request = objectAt(item, 'request');
    const key = request && keyOf(requestIn(request));
    if (key === undefined || textAt(request, 'method') !== 'PUT' || !versions.has(key)) return item;
    const tag = versions.get(key);
    const { ifMatch: before, ...rest } = request ?? {};
    if (before === tag) return item;
    changed = true;
    return { ...item, request: tag === undefined ? rest : { ...rest, ifMatch: tag } };
  });
  return changed ? text : submission;
}

/** A submission that asks for other versions of some of its entries, by fullUrl; its digest stays that of what was taken in. */
export function withTags(submission: Submission, tags: ReadonlyMap<string, string>): Submission {
  if (tags.size === 0) return submission;
  const text = withEntries(parseExact(submission.text), item => {
    const tag = tags.get(textAt(item, 'fullUrl') ?? '');
    return tag === undefined ? item : { ...item, request: { ...objectAt(item, 'request'), ifMatch: tag } };
  });
  const entries = submission.entries.map(entry => {
    const tag = tags.get(entry.fullUrl);
    return tag === undefined ? entry : { ...entry, ifMatch: tag };
  });
  return { ...submission, text, bytes: Buffer.byteLength(text, 'utf8'), entries };
}

/** What each entry of a submission looks for, by its fullUrl. */
function lookedFor(submission: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const item of listAt(parseExact(submission), 'entry')) {
    const request = objectAt(item, 'request');
    const key = request && keyOf(requestIn(request));
    const fullUrl = textAt(item, 'fullUrl');
    if (key !== undefined && fullUrl !== undefined) found.set(fullUrl, key);
  }
  return found;
}

/** How an entry asks for its resource. */
interface Asking {
  readonly method?: string | undefined;
  readonly url?: string | undefined;
  readonly ifNoneExist?: string | undefined;
}

/** `Type?criteria` of a conditional create or update, or the address of a plain update. */
export function keyOf({ method, url, ifNoneExist }: Asking): string | undefined {
  if (method !== 'POST') return url;
  return ifNoneExist === undefined ? undefined : `${url}?${ifNoneExist.replace(/^\?/, '')}`;
}

function requestIn(request: ExactJson): Asking {
  return {
    method: textAt(request, 'method'),
    url: textAt(request, 'url'),
    ifNoneExist: textAt(request, 'ifNoneExist'),
  };
}

/** `W/"3"` of a version. */
export function tagOf(version: ReceiptEntry['version']): string | undefined {
  return version === undefined ? undefined : `W/"${version}"`;
}
