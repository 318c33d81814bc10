import { type ExactObject, objectAt, textAt } from '../answer/exact-json.js';
import type { Session } from '../destination/session.js';
import { mapAtOnce } from '../http/at-once.js';
import { type FhirClient, resourceOf } from '../http/fhir-client.js';
import { keyOf } from '../request/if-match.js';
import { readSubmission, type SentEntry, type Submission } from '../request/submission.js';
import { compareResource, type EntryDifference } from './compare.js';
import { type Held, lookUp } from './lookup.js';
import { placesHeld } from './read-back.js';

/** What a submission goes by that is no longer as its receipts tell. */
export interface Moved {
  /** What others changed. */
  readonly differences: readonly EntryDifference[];
  /**
   * The version tag to ask for now, by fullUrl, of what has another version and the same content: a server that indexes
   * anew or is restored counts on without anybody having changed anything.
   */
  readonly renewed: ReadonlyMap<string, string>;
}

/**
 * What was changed at the destination since the receipts that the updates of a submission go by, found with reads
 * before anything is sent: many servers do not look at `If-Match` in a conditional update. Where the destination does
 * not tell a version, its own answer to `If-Match` has to do.
 *
 * @param wrote what was sent last: only what others changed of it is told, not what this version changes.
 */
export async function movedSince(
  submission: Submission,
  { client }: Session,
  wrote: Wrote = new Map(),
): Promise<Moved> {
  const asking = submission.entries.filter(
    ({ method, ifMatch }) => method === 'PUT' && ifMatch !== undefined,
  );
  const renewed = new Map<string, string>();
  if (asking.length === 0) return { differences: [], renewed };
  const found = await mapAtOnce(asking, async entry => ({ entry, held: await moved(client, entry) }));
  const places = placesHeld(found.map(({ entry, held }) => ({ entry, held: held && [held] })));
  const differences = found.flatMap(({ entry, held }): EntryDifference[] => {
    if (!held || !entry.resource) return [];
    const { fullUrl, type, ifMatch = '' } = entry;
    const version = {
      kind: 'changed',
      path: `${type}.meta.versionId`,
      sent: versionOf(ifMatch),
      held: held.version ?? '',
      alarm: true,
    } as const;
    const before = wrote.get(keyOf(entry) ?? '');
    const edited = before && new Set(compareResource(before, held.resource, places).map(({ path }) => path));
    if (edited?.size === 0) {
      renewed.set(fullUrl, ifMatch.replace(versionOf(ifMatch), held.version ?? ''));
      return [];
    }
    const content = compareResource(entry.resource, held.resource, places).filter(
      ({ path, kind }) => kind !== 'digits' && (edited ? edited.has(path) : kind !== 'added'),
    );
    // Where nothing but the version tells of it, the version is told.
    const told = content.length > 0 ? content : [version];
    return told.map(difference => ({ ...difference, fullUrl, address: `${type}/${held.id}` }));
  });
  return { differences, renewed };
}

/** What was sent last of each resource, by what a request for it looks for. */
export type Wrote = ReadonlyMap<string, ExactObject>;

/** The resources of the newest of several submissions, by what a request for them looks for. */
export function wroteLast(payloads: readonly string[]): Wrote {
  const wrote = new Map<string, ExactObject>();
  for (const payload of payloads)
    for (const entry of readSubmission(payload)?.entries ?? []) {
      const key = keyOf(entry);
      if (key !== undefined && entry.resource) wrote.set(key, entry.resource);
    }
  return wrote;
}

/** What is held of an entry in another version than its receipt tells of; undefined when it is that one or not told. */
async function moved(client: FhirClient, entry: SentEntry): Promise<Held | undefined> {
  const found = await lookUp(client, entry);
  const [only, second] = found === 'no-answer' ? [] : (found ?? []);
  const asked = versionOf(entry.ifMatch ?? '');
  if (!only || second || only.version === undefined || only.version === asked) return undefined;
  // A search may answer out of date: the resource itself has the last word.
  const reply = await client.read(entry.type, only.id);
  const resource = resourceOf(reply);
  const version = textAt(objectAt(resource, 'meta'), 'versionId');
  return resource && version !== undefined && version !== asked
    ? { id: only.id, version, resource }
    : undefined;
}

/** The version in a tag: `W/"3"`, `"3"` or `3`. */
const versionOf = (tag: string) => tag.replace(/^W\//, '').replace(/^"(.*)"$/, '$1');
