import { type Finding, finding, stops } from '../findings/finding.js';
import { canonicalText } from '../intake/write/expected.js';
import type { Tree } from '../record/read.js';
import { isGroup, unmarked } from '../record/tree.js';
import { aligned } from './align.js';
import { type Change, changesBetween } from './changes.js';
import { type Delta, deltaBetween, reversed, withDelta } from './delta.js';
import { type Edit, edited } from './edits.js';
import { Ids, type Node, nodeOf, treeOfNode } from './node.js';
import { readLately } from './read-lately.js';
import { changedText } from './splice.js';

/** Edits that belong together, and the very signs that they put into the text that they were made for. */
export interface EditBatch {
  readonly edits: readonly Edit[];
  /** Taken where it fits the text and says what the edits say: it brings comments and quotes back as they were. */
  readonly exact?: Delta;
}

/** A text with edits in it, and what takes them out again. */
export interface Edited {
  readonly text: string;
  /**
   * Gives the same bytes when made in this text. In a later one, changed by others since, it gives the same values in the
   * places that were edited.
   */
  readonly inverse: EditBatch;
}

export type Refused = { readonly findings: readonly Finding[] };

/**
 * Makes edits in the text of a record: all of them or none. Everything else stays as it is: order, comments, quotes, ends
 * of lines. What was made is read again: unless it says what it is to say, and no more is wrong with it than before,
 * nothing is changed.
 */
export function applyEdits(text: string, batch: readonly Edit[] | EditBatch): Edited | Refused {
  const { edits, exact } = 'edits' in batch ? batch : { edits: batch, exact: undefined };
  const ids = new Ids();
  const from = readDraft(text, ids);
  if ('findings' in from) return from;
  const made = edited(from.node, edits, ids);
  return 'findings' in made ? made : written(text, from, made.node, exact);
}

/** The edits that lead from one text of a record to another: what they say, not how it is written. */
export function editsBetween(before: string, after: string): { readonly edits: readonly Edit[] } | Refused {
  const ids = new Ids();
  const from = readDraft(before, ids);
  if ('findings' in from) return from;
  const to = readDraft(after, ids);
  if ('findings' in to) return to;
  const changes = changesBetween(from.node, aligned(from.node, to.node));
  return { edits: changes.map(({ edit }) => edit) };
}

/** A text that was read, with how much is wrong with it. */
export interface ReadDraft {
  readonly node: Node;
  readonly tree: Tree;
  readonly faults: number;
}

/** Reads the text of a draft. It may lack anything, but must be readable as fields. */
export function readDraft(text: string, ids: Ids): ReadDraft | Refused {
  const { tree, findings } = readLately(unmarked(text));
  if (isGroup(tree) && !findings.some(({ severity }) => severity === 'fatal'))
    return { tree, node: nodeOf(tree, ids), faults: findings.length };
  const said = findings.filter(stops);
  return { findings: said.length > 0 ? said : [finding('drafts.no-record', '', {})] };
}

/** Puts changed data into the text that it was read from. */
export function written(text: string, from: ReadDraft, to: Node, exact?: Delta): Edited | Refused {
  const changes = changesBetween(from.node, to);
  const wanted = canonicalText(treeOfNode(to));
  const made =
    (exact && asBefore(text, exact, wanted, from.faults)) ?? spliced(text, changes, wanted, from.faults);
  if (made === undefined) return { findings: [finding('drafts.not-written', '', {})] };
  const back = changesBetween(to, from.node).map(({ edit }) => edit);
  return { text: made, inverse: { edits: back, exact: reversed(deltaBetween(text, made)) } };
}

/** No more may be wrong with it than before: a key that stands twice says the same as once. */
function asBefore(text: string, exact: Delta, wanted: string, faults: number): string | undefined {
  const made = withDelta(text, exact);
  return made !== undefined && says(made, wanted, faults) ? made : undefined;
}

function spliced(
  text: string,
  changes: readonly Change[],
  wanted: string,
  faults: number,
): string | undefined {
  if (changes.length === 0) return text;
  const body = unmarked(text);
  const made = changedText(body, changes);
  return made !== undefined && says(made, wanted, faults)
    ? text.slice(0, text.length - body.length) + made
    : undefined;
}

function says(text: string, wanted: string, faults: number): boolean {
  const { tree, findings } = readLately(unmarked(text));
  return tree !== undefined && canonicalText(tree) === wanted && findings.length <= faults;
}
