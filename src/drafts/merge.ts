import { type Finding, finding } from '../findings/finding.js';
import { message, type Param } from '../findings/message.js';
import { canonicalText } from '../intake/write/expected.js';
import { inline } from '../intake/write/render.js';
import type { Tree } from '../record/read.js';
import { aligned } from './align.js';
import { changesBetween } from './changes.js';
import { type Delta, deltaBetween, reversed } from './delta.js';
import { type EditBatch, type Edited, type ReadDraft, type Refused, readDraft, written } from './edit.js';
import { type Edit, edited } from './edits.js';
import { type Conflict, mergedNodes } from './merge-nodes.js';
import { Ids, type Node, treeOfNode } from './node.js';

/** What is to be merged. */
export interface MergeInput {
  /** The text that the edits were made for. */
  readonly base: string;
  /** What became of it since. */
  readonly theirs: string;
  /** The edits that made it so, where they are known: entries of lists are then never taken for another. */
  readonly theirEdits?: readonly Edit[];
}

/** What others changed, and the text with both. */
export interface Merged extends Edited {
  /** The edits as they were made in the text of the others. */
  readonly edits: readonly Edit[];
  /** What the others changed since the base. */
  readonly theirs: readonly Edit[];
}

/** Nothing was merged: the same place was set differently. */
export interface Contended extends Refused {
  readonly conflicts: readonly Conflict[];
  readonly theirs: readonly Edit[];
}

/**
 * Makes edits, which were made against an earlier text, in what became of it. The same value in the same place is no
 * conflict; different values are, and then nothing is changed. What two people add to one list is kept twice.
 */
export function mergeEdits(
  input: MergeInput,
  batch: readonly Edit[] | EditBatch,
): Merged | Contended | Refused {
  const { edits, exact } = 'edits' in batch ? batch : { edits: batch, exact: undefined };
  // Signs fit the text alone that they were put into.
  const signs = input.base === input.theirs ? exact : undefined;
  return merged(input, (base, ids) => edited(base.node, edits, ids), signs);
}

/**
 * Takes over a whole text that was made from an earlier one. Its own bytes are kept, and what others changed meanwhile is
 * made in it.
 */
export function mergeText(
  { base, theirs, theirEdits }: MergeInput,
  pasted: string,
): Merged | Contended | Refused {
  const ids = new Ids();
  const read = { base: readDraft(base, ids), theirs: readDraft(theirs, ids), mine: readDraft(pasted, ids) };
  if ('findings' in read.base) return read.base;
  if ('findings' in read.theirs) return read.theirs;
  if ('findings' in read.mine) return read.mine;
  const from = read.base.node;
  const others = knownAs(from, read.theirs, theirEdits, ids);
  const mine = aligned(from, read.mine.node);
  const changed = editsOf(from, others);
  const { conflicts } = mergedNodes(from, others, mine);
  if (conflicts.length > 0) return contended(conflicts, changed);
  const { node } = mergedNodes(from, mine, others);
  const made = written(pasted, { ...read.mine, node: mine }, node);
  if ('findings' in made) return made;
  const inverse = { edits: editsOf(node, others), exact: reversed(deltaBetween(theirs, made.text)) };
  return { text: made.text, inverse, edits: editsOf(others, node), theirs: changed };
}

function merged(
  { base, theirs, theirEdits }: MergeInput,
  change: (base: ReadDraft, ids: Ids) => { readonly node: Node } | Refused,
  exact?: Delta,
): Merged | Contended | Refused {
  const ids = new Ids();
  const from = readDraft(base, ids);
  if ('findings' in from) return from;
  const mine = change(from, ids);
  if ('findings' in mine) return mine;
  if (base === theirs) {
    const made = written(theirs, from, mine.node, exact);
    return 'findings' in made ? made : { ...made, edits: editsOf(from.node, mine.node), theirs: [] };
  }
  const now = readDraft(theirs, ids);
  if ('findings' in now) return now;
  const others = knownAs(from.node, now, theirEdits, ids);
  const changed = editsOf(from.node, others);
  const { node, conflicts } = mergedNodes(from.node, others, mine.node);
  if (conflicts.length > 0) return contended(conflicts, changed);
  const made = written(theirs, { ...now, node: others }, node, exact);
  return 'findings' in made ? made : { ...made, edits: editsOf(others, node), theirs: changed };
}

const editsOf = (from: Node, to: Node) => changesBetween(from, to).map(({ edit }) => edit);

/** The later data by the numbers of the earlier: by the edits that were made, else by what is the same in both. */
function knownAs(from: Node, now: ReadDraft, edits: readonly Edit[] | undefined, ids: Ids): Node {
  const made = edits && edited(from, edits, ids);
  if (made && 'node' in made && canonicalText(treeOfNode(made.node)) === canonicalText(now.tree))
    return made.node;
  return aligned(from, now.node);
}

function contended(conflicts: readonly Conflict[], theirs: readonly Edit[]): Contended {
  const findings = conflicts.map(
    ({ path, base, theirs: other, mine }): Finding =>
      finding('drafts.conflict', path, {
        place: path,
        base: said(base),
        theirs: said(other),
        mine: said(mine),
      }),
  );
  return { conflicts, findings, theirs };
}

const MOST_SAID = 200;

function said(value: Tree | undefined): Param {
  if (value === undefined) return message('found.nothing');
  const text = inline(value, 'braces');
  return text.length > MOST_SAID ? `${text.slice(0, MOST_SAID)}…` : text;
}
