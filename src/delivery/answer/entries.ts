import { parseLocation, type ReceiptEntry } from '../receipt/receipt.js';
import type { SentEntry } from '../request/submission.js';
import { entryStatus } from './classify.js';
import { type ExactJson, listAt, objectAt, textAt } from './exact-json.js';
import { issuesOf, type ServerIssue } from './issues.js';

/** What a server answered about one entry. */
interface EntryAnswer {
  readonly status: number;
  readonly location: string | undefined;
  readonly etag: string | undefined;
  /** The id of the resource in the answer itself. */
  readonly idInBody?: string | undefined;
  readonly outcome?: readonly ServerIssue[];
}

/** The receipt line of an entry; 'not-found' where neither its location, of the right type, nor its body tells the place. */
export function receiptLine(
  { fullUrl, type }: SentEntry,
  { status, location, etag, idInBody, outcome = [] }: EntryAnswer,
): ReceiptEntry {
  const named = parseLocation(location);
  const place = named?.type === type ? named : undefined;
  const id = place?.id ?? idInBody;
  const base = { fullUrl, type, status, ...(outcome.length > 0 && { outcome }) };
  if (id === undefined) return { ...base, found: 'not-found' };
  const version = place?.version ?? etag?.replace(/^(?:W\/)?"(.*)"$/, '$1');
  return {
    ...base,
    found: 'answer',
    location: (place && location) ?? `${type}/${id}`,
    id,
    ...(version !== undefined && { version }),
    ...(etag !== undefined && { etag }),
  };
}

/**
 * Maps the entries of an answer to those sent: by index, confirmed by the resource type in the location. An
 * entry that this does not confirm is 'not-found', to be looked up by its identifier.
 */
export function matchEntries(body: ExactJson | undefined, sent: readonly SentEntry[]): ReceiptEntry[] {
  const answers = listAt(body, 'entry');
  return sent.map((entry, i) => {
    const response = objectAt(answers[i], 'response');
    const status = entryStatus(answers[i]) ?? 0;
    // With fewer answers than entries the index says nothing.
    const location = answers.length === sent.length ? textAt(response, 'location') : undefined;
    const outcome = issuesOf(response?.['outcome'], sent, entry.index);
    return receiptLine(entry, { status, location, etag: textAt(response, 'etag'), outcome });
  });
}
