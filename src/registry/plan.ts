import { entryDigest } from './digest.js';
import { coarser } from './disclosure/coarser.js';
import type { EntryElements } from './entry/elements.js';
import type { PatientNumber } from './patient-number.js';
import type { EntryName, Line, NewLine } from './store/submissions.js';

/** An entry of a case as it stands now. */
export interface PresentEntry {
  readonly name: EntryName;
  readonly elements: EntryElements;
  /** False where an error holds it back, or the registry does not take it: it is neither sent nor taken back. */
  readonly fit: boolean;
}

/** A case as it stands now. */
export interface PresentCase {
  readonly entries: readonly PresentEntry[];
  readonly caseVersion: number;
  readonly number: PatientNumber;
  /** How coarse its entries are to be; see `stepOf`. */
  readonly step: number;
}

/** What is to be sent of a case, and what waits. */
export interface CasePlan {
  readonly lines: readonly NewLine[];
  /** Changed, while the registry has not answered on the version before, or may not find it yet. */
  readonly waiting: readonly Line[];
  /** Refused, and not changed since. */
  readonly refused: readonly Line[];
  /** Left out of an answer, and not changed since. */
  readonly missing: readonly Line[];
}

const nameOf = ({ case: of, device, part = '', action = '' }: EntryName): string =>
  JSON.stringify([of, device, part, action]);

/**
 * What a registry is to hear of a case: entries that are new, entries that say something else than what was sent last, as
 * their next version, and those that the case no longer has, as entered in error. What is unchanged is not sent again.
 *
 * @param sent the newest line of each entry of the case
 * @param unsettled batches that were answered so lately that the registry may not find their entries yet
 */
export function planCase(
  present: PresentCase,
  sent: readonly Line[],
  unsettled: ReadonlySet<string>,
): CasePlan {
  const before = new Map(sent.map(line => [nameOf(line.name), line]));
  const lines: NewLine[] = [];
  const [waiting, refused, missing]: [Line[], Line[], Line[]] = [[], [], []];
  const next = (
    entry: PresentEntry | { name: EntryName; elements: EntryElements },
    last: Line | undefined,
  ) => {
    if (last && (last.state === 'open' || unsettled.has(last.batch))) {
      waiting.push(last);
      return;
    }
    const version = (last?.version ?? 0) + 1;
    const step = Math.max(present.step, last?.coarser ?? 0);
    const elements = { ...coarser(entry.elements, step), version };
    const { caseVersion, number } = present;
    const digest = entryDigest(elements);
    lines.push({ name: entry.name, version, caseVersion, digest, elements, coarser: step, number });
  };
  for (const entry of present.entries) {
    const last = before.get(nameOf(entry.name));
    if (!entry.fit) continue;
    // What was never sent need not be taken back.
    if (!last && entry.elements.status === 'entered-in-error') continue;
    // What went out finer stays as it went out: it cannot be called back, and nothing new is to be said.
    const same = last && entryDigest(coarser(entry.elements, last.coarser)) === last.digest;
    if (!same) next(entry, last);
    else if (last.state === 'refused') refused.push(last);
    else if (last.state === 'missing') missing.push(last);
  }
  const names = new Set(present.entries.map(({ name }) => nameOf(name)));
  for (const last of sent) {
    const gone = !names.has(nameOf(last.name)) && last.elements.status !== 'entered-in-error';
    // What the registry refused, it does not hold.
    if (gone && last.state !== 'refused')
      next({ name: last.name, elements: { ...last.elements, status: 'entered-in-error' } }, last);
  }
  return { lines, waiting, refused, missing };
}
