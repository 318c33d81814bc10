import { compareText } from '../findings/finding.js';
import { pathText } from '../record/path.js';
import type { Tree } from '../record/read.js';
import type { Path } from './changes.js';
import { isFields, isList, isSame, type Node, textOfNode, treeOfNode } from './node.js';

/** One place that two people set differently. A side is absent where the place is not there in it. */
export interface Conflict {
  /** In the text of the others. */
  readonly path: string;
  readonly base?: Tree;
  readonly theirs?: Tree;
  readonly mine?: Tree;
}

/**
 * Joins two versions that come from one, field by field. Values have the same number in all three where they are the same
 * thing. Where the two contend, theirs stands in what is joined.
 */
export function mergedNodes(
  base: Node,
  theirs: Node,
  mine: Node,
): { readonly node: Node; readonly conflicts: readonly Conflict[] } {
  const conflicts: Conflict[] = [];
  const node = join(base, theirs, mine, [], conflicts) ?? theirs;
  return { node, conflicts };
}

type Side = Node | undefined;

function join(base: Side, theirs: Side, mine: Side, path: Path, conflicts: Conflict[]): Side {
  if (isSame(base, mine) || isSame(theirs, mine)) return theirs;
  if (isSame(base, theirs)) return mine;
  if (theirs && mine) {
    const [old, a, b] = [base?.value, theirs.value, mine.value];
    if (isFields(a) && isFields(b) && (old === undefined || isFields(old)))
      return { id: theirs.id, value: joinFields(old ?? new Map(), a, b, path, conflicts) };
    if (isList(a) && isList(b) && (old === undefined || isList(old)))
      return { id: theirs.id, value: joinLists(old ?? [], a, b, path, conflicts) };
  }
  conflicts.push(conflictAt(path, base, theirs, mine));
  return theirs;
}

function conflictAt(path: Path, base: Side, theirs: Side, mine: Side): Conflict {
  return {
    path: pathText(path),
    ...(base && { base: treeOfNode(base) }),
    ...(theirs && { theirs: treeOfNode(theirs) }),
    ...(mine && { mine: treeOfNode(mine) }),
  };
}

function joinFields(
  base: ReadonlyMap<string, Node>,
  theirs: ReadonlyMap<string, Node>,
  mine: ReadonlyMap<string, Node>,
  path: Path,
  conflicts: Conflict[],
): Map<string, Node> {
  const joined = new Map<string, Node>();
  for (const name of new Set([...theirs.keys(), ...mine.keys()])) {
    const node = join(base.get(name), theirs.get(name), mine.get(name), [...path, name], conflicts);
    if (node) joined.set(name, node);
  }
  return joined;
}

const byId = (list: readonly Node[]) => new Map(list.map((node, at) => [node.id, { node, at }]));

function joinLists(
  base: readonly Node[],
  theirs: readonly Node[],
  mine: readonly Node[],
  path: Path,
  conflicts: Conflict[],
): Node[] {
  const [old, ours] = [byId(base), byId(mine)];
  const stays = new Map<number, Node>();
  for (const [at, node] of theirs.entries()) {
    const was = old.get(node.id)?.node;
    if (!was) continue;
    const own = ours.get(node.id)?.node;
    const joined = join(was, node, own, [...path, at], conflicts);
    if (joined) stays.set(node.id, joined);
  }
  const there = new Set(theirs.map(({ id }) => id));
  for (const { id, value } of mine) {
    const was = old.get(id);
    // Taken out by the others.
    if (was && !there.has(id)) join(was.node, undefined, { id, value }, [...path, was.at], conflicts);
  }
  const isKept = (id: number) => stays.has(id);
  const [a, b] = [additions(theirs, old, isKept), additions(mine, old, isKept)];
  const joined: Node[] = [];
  for (const id of [undefined, ...stays.keys()]) {
    const node = id === undefined ? undefined : stays.get(id);
    if (node) joined.push(node);
    joined.push(...inOneOrder(a.get(id) ?? [], b.get(id) ?? []));
  }
  return joined;
}

/** What came new, by the entry of before that it stands behind. */
function additions(
  list: readonly Node[],
  old: ReadonlyMap<number, unknown>,
  isKept: (id: number) => boolean,
): Map<number | undefined, Node[]> {
  const found = new Map<number | undefined, Node[]>();
  let behind: number | undefined;
  for (const node of list) {
    if (isKept(node.id)) behind = node.id;
    else if (!old.has(node.id)) found.set(behind, [...(found.get(behind) ?? []), node]);
  }
  return found;
}

/** What two people add in one place stands in the order of time, and in the same order whoever came first. */
function inOneOrder(a: readonly Node[], b: readonly Node[]): readonly Node[] {
  const order = compareText(beginningOf(a), beginningOf(b)) || compareText(textOf(a), textOf(b));
  return order <= 0 ? [...a, ...b] : [...b, ...a];
}

const textOf = (run: readonly Node[]) => run.map(textOfNode).join();

function beginningOf([first]: readonly Node[]): string {
  const at = first && isFields(first.value) ? first.value.get('at')?.value : undefined;
  return typeof at === 'string' ? at : '';
}
