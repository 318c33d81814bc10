import { createHash } from 'node:crypto';
import { type Finding, stops } from '../findings/finding.js';
import { readText } from '../record/read.js';
import { unmarked } from '../record/tree.js';
import { deltaBetween, reversed } from './delta.js';
import { type EditBatch, editsBetween, type Refused } from './edit.js';
import type { Edit } from './edits.js';
import { type Contended, type Merged, mergeEdits, mergeText } from './merge.js';
import type { Conflict } from './merge-nodes.js';
import { type Draft, type DraftState, type Drafts, type NewVersion, nextStates } from './store/drafts.js';

/** Who saves what was made for which version. */
export interface Saving {
  readonly id: string;
  readonly base: number;
  readonly by: string;
  readonly at: number;
  /** Merges when it may; undefined where too many wait for that. At once where nobody says. */
  readonly inTurn?: <Result>(merge: () => Result) => Promise<Result> | undefined;
}

/** What came of saving. */
export type Saved =
  | {
      readonly kind: 'saved';
      readonly version: number;
      readonly text: string;
      /** What others changed since the version that it was made for. */
      readonly theirs: readonly Edit[];
      /** Takes it out again. */
      readonly inverse?: EditBatch;
      /** It had been saved before, and was not again. */
      readonly repeated?: true;
    }
  | { readonly kind: 'missing' }
  /** The draft has not come to that version: it was restored from an earlier copy, or the version is of another. */
  | { readonly kind: 'ahead'; readonly version: number }
  | { readonly kind: 'closed'; readonly state: DraftState; readonly version: number }
  /** The id of the batch was used for other edits. */
  | { readonly kind: 'other batch' }
  | {
      readonly kind: 'conflict';
      readonly version: number;
      readonly text: string;
      readonly conflicts: readonly Conflict[];
      readonly findings: readonly Finding[];
      readonly theirs: readonly Edit[];
    }
  | { readonly kind: 'refused'; readonly findings: readonly Finding[] }
  /** Others were faster each time, or too many save at once. */
  | { readonly kind: 'busy' };

/** Times that a draft may change between reading and writing it. */
const TRIES = 50;

/**
 * Saves edits that were made for a version of a draft; what others changed since is kept beside them. A batch that was
 * saved before is not saved again, and answered as it was.
 */
export async function saveEdits(
  drafts: Drafts,
  saving: Saving & { readonly batch: string },
  { edits, exact }: EditBatch,
): Promise<Saved> {
  const { id, batch } = saving;
  const digest = digestOf(JSON.stringify(edits));
  const there = await drafts.batch(id, batch, digest);
  if (there) return repeated(drafts, id, there);
  return save(drafts, saving, input => mergeEdits(input, { edits, ...(exact && { exact }) }), {
    batch,
    digest,
  });
}

/** Saves a whole text that was made from a version of a draft. */
export async function saveText(drafts: Drafts, saving: Saving, text: string): Promise<Saved> {
  // The answer may have been lost on the way.
  const digest = digestOf(text);
  const later = await drafts.versions(saving.id, saving.base);
  const same = later.find(one => one.base === saving.base && one.digest === digest);
  if (same) return repeated(drafts, saving.id, { repeated: same.version, same: true });
  return save(drafts, saving, input => pasted(input, text), { digest });
}

const digestOf = (text: string) => createHash('sha256').update(text).digest('hex');

interface Input {
  readonly base: string;
  readonly theirs: string;
  readonly theirEdits: readonly Edit[];
}

function pasted(input: Input, text: string): Merged | Contended | Refused {
  if (input.base !== input.theirs) return mergeText(input, text);
  const between = editsBetween(input.theirs, text);
  if ('findings' in between) return between;
  const back = editsBetween(text, input.theirs);
  const exact = reversed(deltaBetween(input.theirs, text));
  const inverse = { edits: 'edits' in back ? back.edits : [], exact };
  return { text, inverse, edits: between.edits, theirs: [] };
}

async function save(
  drafts: Drafts,
  { id, base, by, at, inTurn = async merge => merge() }: Saving,
  merge: (input: Input) => Merged | Contended | Refused,
  more: Partial<NewVersion>,
): Promise<Saved> {
  for (let n = 0; n < TRIES; n += 1) {
    const now = await drafts.get(id);
    if (!now) return { kind: 'missing' };
    if (base > now.version) return { kind: 'ahead', version: now.version };
    if (now.state !== 'open') return { kind: 'closed', state: now.state, version: now.version };
    const input = await inputOf(drafts, now, base);
    if (!input) continue;
    const made = await inTurn(() => merge(input));
    if (!made) return { kind: 'busy' };
    if ('conflicts' in made) return { kind: 'conflict', version: now.version, text: now.text, ...made };
    if ('findings' in made) return { kind: 'refused', findings: made.findings };
    const { text, edits, theirs, inverse } = made;
    const version = { text, by, at, state: now.state, edits, base, ...more };
    const written = await drafts.write(id, now.version, version);
    if ('done' in written) return { kind: 'saved', version: written.done.version, text, theirs, inverse };
    if ('missing' in written) return { kind: 'missing' };
    if ('repeated' in written) return repeated(drafts, id, written);
  }
  return { kind: 'busy' };
}

/** What is merged; undefined where the draft changed meanwhile. */
async function inputOf(drafts: Drafts, now: Draft, base: number): Promise<Input | undefined> {
  if (base === now.version) return { base: now.text, theirs: now.text, theirEdits: [] };
  const text = await drafts.textOf(now.id, base);
  const later = await drafts.versions(now.id, base);
  if (text === undefined || later.at(-1)?.version !== now.version) return undefined;
  return { base: text, theirs: now.text, theirEdits: later.flatMap(({ edits }) => edits) };
}

async function repeated(
  drafts: Drafts,
  id: string,
  { repeated: version, same }: { readonly repeated: number; readonly same: boolean },
): Promise<Saved> {
  if (!same) return { kind: 'other batch' };
  const text = await drafts.textOf(id, version);
  if (text === undefined) return { kind: 'missing' };
  const [own] = await drafts.versions(id, version - 1);
  const since = own ? await drafts.versions(id, own.base) : [];
  const theirs = since.flatMap(one => (one.version < version ? one.edits : []));
  return { kind: 'saved', version, text, theirs, repeated: true };
}

/** What came of bringing a draft to another state. */
export type Moved =
  | { readonly kind: 'moved'; readonly version: number }
  | { readonly kind: 'missing' }
  | { readonly kind: 'stale'; readonly version: number }
  | { readonly kind: 'not so'; readonly state: DraftState };

/** Brings a version of a draft to another state. Text stays. @param why for one that is discarded */
export async function moveDraft(
  drafts: Drafts,
  { id, base, by, at }: Saving,
  state: Exclude<DraftState, 'open'> | 'open',
  more: Pick<Partial<NewVersion>, 'why' | 'items' | 'signature' | 'text' | 'edits'> = {},
): Promise<Moved> {
  const now = await drafts.get(id);
  if (!now) return { kind: 'missing' };
  if (now.version !== base) return { kind: 'stale', version: now.version };
  if (!nextStates[now.state].includes(state)) return { kind: 'not so', state: now.state };
  const written = await drafts.write(id, base, { text: now.text, by, at, state, edits: [], base, ...more });
  if ('done' in written) return { kind: 'moved', version: written.done.version };
  return 'stale' in written ? { kind: 'stale', version: written.stale } : { kind: 'missing' };
}

/** Why a text cannot become a draft: it must be readable as fields, however much it lacks. Empty where it can. */
export function standsAgainst(text: string): readonly Finding[] {
  const read = editsBetween(text, text);
  if ('findings' in read) return read.findings;
  return readText(unmarked(text)).findings.filter(found => stops(found) && found.severity === 'fatal');
}
