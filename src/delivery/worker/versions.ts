import { type ExactObject, objectAt, textAt } from '../answer/exact-json.js';
import { type Fields, withFields } from '../change/fields.js';
import type { Session } from '../destination/session.js';
import { compareResource } from '../held/compare.js';
import { type Wrote, wroteLast } from '../held/moved.js';
import { placesHeld } from '../held/read-back.js';
import { type EntryPresence, lookAtOnce } from '../held/reconcile.js';
import { mapAtOnce } from '../http/at-once.js';
import { resourceOf } from '../http/fhir-client.js';
import type { Outbox, OutboxItem } from '../outbox/outbox.js';
import type { Receipt, ReceiptEntry } from '../receipt/receipt.js';
import { keyOf, type Taken, tagOf, versionsTaken, withVersions } from '../request/if-match.js';
import { readSubmission, type SentEntry, type Submission } from '../request/submission.js';

/** See `WorkerDeps.alsoWrote`. */
export type AlsoWrote = (
  destination: string,
  values: readonly string[],
) => Promise<ReadonlyMap<string, Fields>>;

/**
 * The text of an item as it is to be sent now: its updates ask for the versions that the newest receipts of the case
 * tell of, so that nothing changed there since is overwritten. What an interrupted send of the same case has written
 * since then counts as ours, and its version is asked for.
 *
 * @returns `askAgainAt` where the server's searches do not find yet what it took of the case: its conditional writes
 * would make that a second time.
 */
export async function asOfNow(
  item: OutboxItem,
  submission: Submission,
  outbox: Pick<Outbox, 'list'>,
  session: Session,
  alsoWrote: AlsoWrote = async () => new Map(),
): Promise<{ readonly text: string; readonly wrote?: Wrote } | { readonly askAgainAt: number }> {
  const ofCase = await outbox.list({ destination: item.destination, caseKey: item.caseKey });
  const taken = ofCase.flatMap(({ payload, receipt }): Taken[] => (receipt ? [{ payload, receipt }] : []));
  const newest = taken.at(-1);
  if (!newest) return { text: item.payload };
  const versions = versionsTaken(taken);
  const surelyFoundAt =
    Date.parse(newest.receipt.sentAt) + session.destination.timeoutMs + session.destination.searchLagMs;
  if (session.clock() < surelyFoundAt) {
    const { entries } = await lookAtOnce(submission, session);
    if (entries.some(({ entry, state }) => state === 'absent' && versions.has(keyOf(entry) ?? '')))
      return { askAgainAt: surelyFoundAt };
  }
  if (item.overwrite) return { text: item.payload };
  const after = ofCase.slice(ofCase.findLastIndex(({ receipt }) => receipt) + 1);
  for (const { payload } of after.filter(({ attempts }) => attempts > 0)) {
    const begun = readSubmission(payload);
    const written = begun ? await heldAsSent(begun, session) : [];
    for (const { entry, version } of written) versions.set(keyOf(entry) ?? '', tagOf(version));
  }
  return {
    text: withVersions(item.payload, versions),
    wrote: await withAlso(
      wroteLast(taken.map(({ payload }) => payload)),
      submission,
      item.destination,
      alsoWrote,
    ),
  };
}

/** What was written last, with what was changed in it since outside the outbox. */
async function withAlso(
  wrote: Wrote,
  { entries }: Submission,
  destination: string,
  alsoWrote: AlsoWrote,
): Promise<Wrote> {
  const updates = entries.flatMap(entry => {
    const { method, type, criteria } = entry;
    const key = keyOf(entry);
    const before = key === undefined ? undefined : wrote.get(key);
    if (method !== 'PUT' || criteria?.parameter !== 'identifier' || key === undefined || !before) return [];
    return [{ key, type, before, value: criteria.value.slice(criteria.value.lastIndexOf('|') + 1) }];
  });
  if (updates.length === 0) return wrote;
  const values = updates.map(({ value }) => value);
  const changed = await alsoWrote(destination, values);
  const also = updates.flatMap(({ key, type, before, value }): [string, ExactObject][] => {
    const fields = changed.get(`${type} ${value}`);
    return fields ? [[key, withFields(before, fields)]] : [];
  });
  return new Map([...wrote, ...also]);
}

/** The updates of a submission that the destination has exactly so now, with their versions. */
async function heldAsSent(
  submission: Submission,
  session: Session,
): Promise<{ readonly entry: SentEntry; readonly version: string | undefined }[]> {
  const seen = await lookAtOnce(submission, session);
  const places = placesHeld(seen.entries);
  const now = await mapAtOnce(seen.entries.filter(isUpdate), async ({ entry, held }) => {
    const [only] = held;
    const read = only && (await readNow(entry.type, only.id, session));
    if (!read || !entry.resource) return [];
    const differs = compareResource(entry.resource, read.resource, places).some(
      ({ kind }) => kind === 'changed' || kind === 'dropped',
    );
    return differs ? [] : [{ entry, version: read.version }];
  });
  return now.flat();
}

function isUpdate({ entry, held }: EntryPresence): boolean {
  return entry.method === 'PUT' && held.length === 1;
}

/** A resource itself: a search may answer out of date. */
async function readNow(type: string, id: string, session: Session) {
  const resource = resourceOf(await session.client.read(type, id));
  return resource && { resource, version: textAt(objectAt(resource, 'meta'), 'versionId') };
}

/**
 * A receipt of what was found by searching, with the versions that its updates have now: an update that changed
 * nothing leaves a search that is out of date looking right.
 */
export async function withReadVersions(
  receipt: Receipt,
  submission: Submission,
  session: Session,
): Promise<Receipt> {
  const updates = new Set(submission.entries.filter(e => e.method === 'PUT').map(e => e.fullUrl));
  const entries = await mapAtOnce(receipt.entries, async (line): Promise<ReceiptEntry> => {
    if (!updates.has(line.fullUrl) || line.id === undefined) return line;
    const read = await readNow(line.type, line.id, session);
    return read?.version === undefined ? line : { ...line, version: read.version };
  });
  return { ...receipt, entries };
}
