import { pathText } from '../record/path.js';
import type { Tree } from '../record/read.js';
import { inOrder } from './align.js';
import type { Edit } from './edits.js';
import { isFields, isList, isSame, type Node, treeOfNode } from './node.js';

export type Path = readonly (string | number)[];

/** What leads from one version to another, with its place in the first, and as the edit that does it in turn. */
export type Change =
  | { readonly kind: 'set'; readonly path: Path; readonly value: Tree; readonly edit: Edit }
  /** A field that the group at the path lacks. */
  | {
      readonly kind: 'field';
      readonly path: Path;
      readonly key: string;
      readonly value: Tree;
      readonly edit: Edit;
    }
  /** An entry for the list at the path, before the one that has that place, or at the end. */
  | {
      readonly kind: 'entry';
      readonly path: Path;
      readonly before: number;
      readonly value: Tree;
      readonly edit: Edit;
    }
  | { readonly kind: 'remove'; readonly path: Path; readonly edit: Edit };

/** All changes, in an order in which their edits can be made one after the other. */
export function changesBetween(from: Node, to: Node): Change[] {
  const changes: Change[] = [];
  compare(from, to, [], [], changes);
  return changes;
}

function compare(from: Node, to: Node, path: Path, at: Path, changes: Change[]): void {
  if (isSame(from, to)) return;
  const kept = isFields(from.value)
    ? fields(from.value, to, path, at, changes)
    : isList(from.value) && entries(from.value, to, path, at, changes);
  if (kept) return;
  const value = treeOfNode(to);
  changes.push({ kind: 'set', path, value, edit: { path: pathText(at), value } });
}

/** False where nothing of it stays: it is then replaced as a whole. */
function fields(from: Map<string, Node>, to: Node, path: Path, at: Path, changes: Change[]): boolean {
  if (!isFields(to.value)) return false;
  const fresh = to.value;
  if (path.length > 0 && from.size > 0 && ![...from.keys()].some(name => fresh.has(name))) return false;
  for (const name of from.keys())
    if (!fresh.has(name))
      changes.push({
        kind: 'remove',
        path: [...path, name],
        edit: { path: pathText([...at, name]), remove: true },
      });
  for (const [name, node] of fresh) {
    if (from.has(name)) continue;
    const value = treeOfNode(node);
    const edit = { path: pathText([...at, name]), value };
    changes.push({ kind: 'field', path, key: name, value, edit });
  }
  for (const [name, node] of fresh) {
    const old = from.get(name);
    if (old) compare(old, node, [...path, name], [...at, name], changes);
  }
  return true;
}

function entries(from: readonly Node[], to: Node, path: Path, at: Path, changes: Change[]): boolean {
  if (!isList(to.value)) return false;
  const place = new Map(from.map(({ id }, i) => [id, i]));
  const pairs = inOrder(
    to.value.flatMap(({ id }, j): [number, number][] => {
      const i = place.get(id);
      return i === undefined ? [] : [[i, j]];
    }),
  );
  if (from.length > 0 && pairs.length === 0) return false;
  const [stays, was] = [new Set(pairs.map(([i]) => i)), new Map(pairs.map(([i, j]) => [j, i]))];
  for (let i = from.length - 1; i >= 0; i -= 1)
    if (!stays.has(i))
      changes.push({
        kind: 'remove',
        path: [...path, i],
        edit: { path: pathText([...at, i]), remove: true },
      });
  let next = from.length;
  const before = to.value.map(() => 0);
  for (let j = to.value.length - 1; j >= 0; j -= 1) {
    next = was.get(j) ?? next;
    before[j] = next;
  }
  for (const [j, node] of to.value.entries()) {
    if (was.has(j)) continue;
    const value = treeOfNode(node);
    const edit = { path: pathText(at), insert: j, value };
    changes.push({ kind: 'entry', path, before: before[j] ?? from.length, value, edit });
  }
  for (const [i, j] of pairs) {
    const [old, node] = [from[i], to.value[j]];
    if (old && node) compare(old, node, [...path, i], [...at, j], changes);
  }
  return true;
}
