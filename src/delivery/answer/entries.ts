import { parseLocation, type ReceiptEntry } from '../receipt/receipt.js';
import type { SentEntry } from '../request/submission.js';
import { entryStatus } from './classify.js';
import { type ExactJson, listAt, objectAt, textAt } from './exact-json.js';
import { issuesOf } from './issues.js';

/**
 * Maps the entries of an answer to those sent: by index, confirmed by the resource type in the location. An
 * entry that this does not confirm is 'not-found', to be looked up by its identifier.
 */
export function matchEntries(body: ExactJson | undefined, sent: readonly SentEntry[]): ReceiptEntry[] {
  const answers = listAt(body, 'entry');
  return sent.map((entry, i) => {
    const answer = answers[i];
    const response = objectAt(answer, 'response');
    const status = (answer === undefined ? undefined : entryStatus(answer)) ?? 0;
    const location = textAt(response, 'location');
    const place = location === undefined ? undefined : parseLocation(location);
    const etag = textAt(response, 'etag');
    const outcome = issuesOf(response?.['outcome'], sent, i);
    const base = {
      fullUrl: entry.fullUrl,
      type: entry.type,
      status,
      ...(outcome.length > 0 && { outcome }),
    };
    if (answers.length !== sent.length || !place || place.type !== entry.type)
      return { ...base, found: 'not-found' };
    const version = place.version ?? etag?.replace(/^(?:W\/)?"(.*)"$/, '$1');
    return {
      ...base,
      found: 'answer',
      location: location ?? '',
      id: place.id,
      ...(version !== undefined && { version }),
      ...(etag !== undefined && { etag }),
    };
  });
}
