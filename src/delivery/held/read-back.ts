import type { ExactObject } from '../answer/exact-json.js';
import type { Session } from '../destination/session.js';
import { mapAtOnce } from '../http/at-once.js';
import { type FhirClient, resourceOf } from '../http/fhir-client.js';
import type { Receipt, ReceiptEntry } from '../receipt/receipt.js';
import { identifierOf, isSoftware, type SentEntry, type Submission } from '../request/submission.js';
import { compareResource, type EntryDifference, type Places } from './compare.js';
import { type Lookup, onlyOf } from './lookup.js';

/** One resource as the destination holds it now. */
export interface ReadBack {
  readonly fullUrl: string;
  readonly type: string;
  readonly id?: string;
  /** 'removed' after 404 or 410: it was accepted and is no longer there. */
  readonly state: 'read' | 'removed' | 'not-readable' | 'place-unknown';
  readonly resource?: ExactObject;
}

/** Reads every resource of a receipt from its destination, a few at the same time. */
export async function readBack(receipt: Receipt, { client }: Session): Promise<ReadBack[]> {
  return mapAtOnce(receipt.entries, entry => readEntry(client, entry));
}

async function readEntry(client: FhirClient, { fullUrl, type, id }: ReceiptEntry): Promise<ReadBack> {
  if (id === undefined) return { fullUrl, type, state: 'place-unknown' };
  const reply = await client.read(type, id);
  const resource = resourceOf(reply);
  if (resource) return { fullUrl, type, id, state: 'read', resource };
  const status = reply.exchange.kind === 'answer' ? reply.exchange.status : 0;
  return { fullUrl, type, id, state: status === 404 || status === 410 ? 'removed' : 'not-readable' };
}

/** Compares what was sent with what was read back; resources that could not be read are left to `ReadBack.state`. */
export function compareWithSent(
  submission: Submission,
  read: readonly ReadBack[],
  places: Places = placesOf(read, submission),
): EntryDifference[] {
  return read.flatMap((back, i) => {
    const sent = submission.entries[i]?.resource;
    if (!sent || !back.resource) return [];
    return compareResource(sent, back.resource, places).map(d => ({
      ...d,
      fullUrl: back.fullUrl,
      ...(back.id !== undefined && { address: `${back.type}/${back.id}` }),
    }));
  });
}

/**
 * `fullUrl` to `Type/id`, from a receipt or from what was read back. The software has no place of its own: the same
 * case sent again by another release of it is not another case.
 */
export function placesOf(
  entries: readonly { fullUrl: string; type: string; id?: string }[],
  submission: Pick<Submission, 'entries'>,
): Places {
  const sent = new Map(submission.entries.map(entry => [entry.fullUrl, entry]));
  return new Map(
    entries.flatMap(({ fullUrl, type, id }): [string, string][] => {
      const entry = sent.get(fullUrl);
      if (id === undefined || (entry && isSoftware(entry))) return [];
      const place = `${type}/${id}`;
      const identifier = identifierOf(entry?.resource);
      const known: [string, string][] = identifier
        ? [[`${identifier.system}|${identifier.value}`, place]]
        : [];
      return [[fullUrl, place], ...known];
    }),
  );
}

/** The same of what a lookup found once. */
export function placesHeld(
  found: readonly { readonly entry: SentEntry; readonly held: Lookup | undefined }[],
): Places {
  const once = found.flatMap(({ entry: { fullUrl, type }, held }) => {
    const only = onlyOf(held);
    return only ? [{ fullUrl, type, id: only.id }] : [];
  });
  return placesOf(once, { entries: found.map(({ entry }) => entry) });
}
