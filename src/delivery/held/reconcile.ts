import type { Session } from '../destination/session.js';
import { mapAtOnce } from '../http/at-once.js';
import type { ReceiptEntry } from '../receipt/receipt.js';
import { isOwn, type SentEntry, type Submission } from '../request/submission.js';
import { compareResource } from './compare.js';
import { type Held, type Lookup, lookUp } from './lookup.js';
import { placesHeld } from './read-back.js';

/** What a destination holds of one entry. */
export interface EntryPresence {
  readonly entry: SentEntry;
  /** 'equal': there, with our content. 'differs': there, with other content. 'not-asked': it has no identifier. */
  readonly state: 'equal' | 'differs' | 'absent' | 'several' | 'not-asked' | 'no-answer';
  readonly held: readonly Held[];
}

/** What asking the server by business identifiers has shown. */
export interface Reconciliation {
  /**
   * 'all': everything of the case is there, as sent. 'none': nothing of this submission took effect, sending
   * again is right. 'some': part of it did. 'differs': the identifiers are taken by other content, such as an
   * earlier state of the case. 'several': an identifier has several resources. 'no-answer': the server could
   * not be asked.
   */
  readonly verdict: 'all' | 'none' | 'some' | 'differs' | 'several' | 'no-answer';
  /** True when it may look otherwise once the server's searches have caught up with its writes. */
  readonly mayLag: boolean;
  readonly entries: readonly EntryPresence[];
}

/** Waits between the tries of a reconciliation, in milliseconds, until the search lag has passed. */
const PAUSES = [1_000, 4_000, 15_000, 40_000];

/**
 * Asks a destination what it holds of a submission whose outcome is unknown. 'Not found' is believed only when
 * the search lag has passed; everything found is believed at once.
 *
 * @param lagMs the search lag; that of the destination where it is not given.
 */
export async function reconcile(
  submission: Submission,
  session: Session,
  lagMs = session.destination.searchLagMs,
): Promise<Reconciliation> {
  const started = session.clock();
  for (let attempt = 0; ; attempt += 1) {
    const seen = await lookAtOnce(submission, session);
    const left = lagMs - (session.clock() - started);
    if (!seen.mayLag || left <= 0 || session.signal?.aborted) return seen;
    await session.wait(Math.min(left, PAUSES[attempt] ?? 60_000));
  }
}

/** One round of searches, without waiting. */
export async function lookAtOnce(
  submission: Submission,
  { client, destination }: Session,
): Promise<Reconciliation> {
  // A server that does not answer one search would hold up every other one for its time limit too.
  const found = await mapAtOnce(
    submission.entries,
    async entry => ({ entry, lookup: await lookUp(client, entry) }),
    ({ lookup }) => lookup === 'no-answer',
  );
  const seen = presenceOf(found, destination.mode);
  if (seen.verdict !== 'all' || !seen.mayLag) return seen;
  // Searches that find the case have caught up since the first of them were made.
  const again = await mapAtOnce(found, async ({ entry, lookup }) =>
    Array.isArray(lookup) && lookup.length === 0
      ? { entry, lookup: await lookUp(client, entry) }
      : { entry, lookup },
  );
  return presenceOf(again, destination.mode);
}

function presenceOf(
  found: readonly { readonly entry: SentEntry; readonly lookup: Lookup | undefined }[],
  mode: Session['destination']['mode'],
): Reconciliation {
  const places = placesHeld(found.map(({ entry, lookup }) => ({ entry, held: lookup })));
  const entries = found.map(({ entry, lookup }): EntryPresence => {
    if (lookup === undefined) return { entry, state: 'not-asked', held: [] };
    if (lookup === 'no-answer') return { entry, state: 'no-answer', held: [] };
    const [first, second] = lookup;
    if (!first) return { entry, state: 'absent', held: [] };
    if (second) return { entry, state: 'several', held: lookup };
    const content = entry.resource ? compareResource(entry.resource, first.resource, places) : [];
    const differs = content.some(d => d.kind === 'changed' || d.kind === 'dropped');
    return { entry, state: differs ? 'differs' : 'equal', held: lookup };
  });
  const verdict = verdictOf(entries, mode);
  const settled =
    verdict === 'differs' || verdict === 'several' || (verdict === 'all' && !entries.some(isAbsent));
  return { verdict, mayLag: !settled, entries };
}

function isAbsent({ state }: EntryPresence): boolean {
  return state === 'absent';
}

/**
 * Only the case's own entries count: patients and sites are there anyhow. An update whose content is equal
 * proves nothing by itself, for it may have been equal before; a create that is there proves that it was made.
 */
function verdictOf(
  entries: readonly EntryPresence[],
  mode: Session['destination']['mode'],
): Reconciliation['verdict'] {
  if (entries.some(e => e.state === 'no-answer')) return 'no-answer';
  if (entries.some(e => e.state === 'several')) return 'several';
  const own = entries.filter(e => isOwn(e.entry) && e.state !== 'not-asked');
  if (own.length === 0) return 'no-answer';
  if (own.every(e => e.state === 'equal')) return 'all';
  const creates = own.filter(e => e.entry.method === 'POST');
  if (creates.some(e => e.state === 'differs')) return 'differs';
  // Sent one by one, a part is where to go on from: every write is conditional.
  return mode === 'transaction' && creates.some(e => e.state === 'equal') ? 'some' : 'none';
}

/** The receipt lines of a reconciliation in which everything was found. */
export function entriesFound({ entries }: Reconciliation): ReceiptEntry[] {
  return entries.map(({ entry, held }) => {
    const [first] = held;
    const base = { fullUrl: entry.fullUrl, type: entry.type, status: first ? 200 : 0 };
    if (!first) return { ...base, found: 'not-found' };
    return {
      ...base,
      found: 'search',
      id: first.id,
      location: `${entry.type}/${first.id}`,
      ...(first.version !== undefined && { version: first.version }),
    };
  });
}
