import { canonicalText } from '../intake/write/expected.js';
import type { Tree } from '../record/read.js';

/** Data of a draft in which each value keeps its identity while others come, go and change around it. */
export interface Node {
  readonly id: number;
  value: NodeValue;
}

export type NodeValue = string | boolean | Node[] | Map<string, Node>;

/** Gives each value a number of its own. */
export class Ids {
  private last = 0;

  next(): number {
    this.last += 1;
    return this.last;
  }
}

export const isList = (value: NodeValue | undefined): value is Node[] => Array.isArray(value);
export const isFields = (value: NodeValue | undefined): value is Map<string, Node> => value instanceof Map;

export function nodeOf(tree: Tree, ids: Ids): Node {
  const value: NodeValue = Array.isArray(tree)
    ? tree.map(item => nodeOf(item, ids))
    : typeof tree === 'object'
      ? new Map(Object.entries(tree).map(([name, child]) => [name, nodeOf(child, ids)]))
      : tree;
  return { id: ids.next(), value };
}

export function treeOfNode({ value }: Node): Tree {
  if (isList(value)) return value.map(treeOfNode);
  return isFields(value)
    ? Object.fromEntries([...value].map(([name, child]) => [name, treeOfNode(child)]))
    : value;
}

/** A copy whose values are known by the same numbers. */
export function copyOf({ id, value }: Node): Node {
  if (isList(value)) return { id, value: value.map(copyOf) };
  return {
    id,
    value: isFields(value) ? new Map([...value].map(([name, child]) => [name, copyOf(child)])) : value,
  };
}

/** Data as text in which the order of fields makes no difference; '' for what is not there. */
export const textOfNode = (node: Node | undefined): string =>
  node === undefined ? '' : canonicalText(treeOfNode(node));

/** True where both say the same, and where neither is there. */
export function isSame(a: Node | undefined, b: Node | undefined): boolean {
  if (a === b) return true;
  return a !== undefined && b !== undefined && isSameValue(a.value, b.value);
}

function isSameValue(a: NodeValue, b: NodeValue): boolean {
  if (isList(a)) return isList(b) && a.length === b.length && a.every((one, i) => isSame(one, b[i]));
  // As a text says it: `true` is what `"true"` is.
  if (!isFields(a)) return !isList(b) && !isFields(b) && String(a) === String(b);
  if (!isFields(b) || a.size !== b.size) return false;
  for (const [name, one] of a) {
    const other = b.get(name);
    if (other === undefined || !isSame(one, other)) return false;
  }
  return true;
}
