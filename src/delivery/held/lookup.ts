import { type ExactJson, type ExactObject, listAt, objectAt, textAt } from '../answer/exact-json.js';
import { type FhirClient, type Reply, succeeded } from '../http/fhir-client.js';
import type { Criteria, SentEntry } from '../request/submission.js';

/** One resource that a search by business identifier found. */
export interface Held {
  readonly id: string;
  readonly version?: string;
  readonly resource: ExactObject;
}

/** What a destination holds for one entry; 'no-answer' when it could not be asked. */
export type Lookup = readonly Held[] | 'no-answer';

/** The one resource that a lookup found; undefined for none, several, and where the destination could not be asked. */
export function onlyOf(lookup: Lookup | undefined): Held | undefined {
  return Array.isArray(lookup) && lookup.length === 1 ? lookup[0] : undefined;
}

/** Pages of one search that are followed: far more than any honest identifier search has. */
const MAX_PAGES = 10;

/** Address of the page after this one. */
export const nextPageOf = (bundle: ExactJson): string | undefined =>
  textAt(
    listAt(bundle, 'link').find(link => textAt(link, 'relation') === 'next'),
    'url',
  );

/** Searches for an entry by its business identifier; an entry without one gives undefined. */
export async function lookUp(client: FhirClient, entry: SentEntry): Promise<Lookup | undefined> {
  return entry.criteria && search(client, entry.type, entry.criteria);
}

/** Everything of a type that one search parameter finds, page after page; `onFailure` gets the answer that told nothing. */
export async function search(
  client: Pick<FhirClient, 'search' | 'follow'>,
  type: string,
  { parameter, value }: Criteria,
  onFailure: (reply: Reply) => void = () => undefined,
): Promise<Lookup> {
  const held: Held[] = [];
  let reply = await client.search(type, { [parameter]: value });
  for (let page = 1; ; page += 1) {
    if (!succeeded(reply) || textAt(reply.body, 'type') !== 'searchset') {
      onFailure(reply);
      return 'no-answer';
    }
    for (const item of listAt(reply.body, 'entry')) {
      const resource = objectAt(item, 'resource');
      const id = textAt(resource, 'id');
      if (resource && id && textAt(resource, 'resourceType') === type) {
        const version = textAt(objectAt(resource, 'meta'), 'versionId');
        held.push({ id, resource, ...(version !== undefined && { version }) });
      }
    }
    const address = nextPageOf(reply.body);
    if (address === undefined) return held;
    const following = page < MAX_PAGES ? await client.follow(address) : undefined;
    if (!following) {
      onFailure(reply);
      return 'no-answer';
    }
    reply = following;
  }
}
