import { pairUp } from '../record/changes/pair.js';
import type { Plain } from '../record/plain.js';
import type { Tree } from '../record/read.js';
import { isFields, isList, type Node, treeOfNode } from './node.js';

/**
 * Takes entries of lists in one version for those of another, by what makes them the same thing: time, verb and device of
 * an event, key of a person. @returns `after` with the numbers of `before` where they are the same.
 */
export function aligned(before: Node, after: Node, list = ''): Node {
  const { id } = before;
  if (isFields(before.value) && isFields(after.value)) {
    const old = before.value;
    const value = new Map(
      [...after.value].map(([name, child]) => {
        const was = old.get(name);
        return [name, was ? aligned(was, child, name) : child];
      }),
    );
    return { id, value };
  }
  if (isList(before.value) && isList(after.value)) {
    const [old, fresh] = [before.value, after.value];
    const { pairs } = pairUp(list, old.map(plainOf), fresh.map(plainOf));
    const was = new Map(inOrder(pairs).map(([i, j]) => [j, old[i]]));
    return {
      id,
      value: fresh.map((item, j) => {
        const same = was.get(j);
        return same ? aligned(same, item, list) : item;
      }),
    };
  }
  return { id, value: after.value };
}

/** Most pairs, none of which crosses another. @param pairs by their second place */
export function inOrder(pairs: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  // Patience sorting: `ends[n]` is the pair with the smallest place that ends a row of n + 1 pairs.
  const ends: number[] = [];
  const before: (number | undefined)[] = [];
  for (const [at, [place]] of pairs.entries()) {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((pairs[ends[middle] ?? 0]?.[0] ?? 0) < place) low = middle + 1;
      else high = middle;
    }
    before[at] = low > 0 ? ends[low - 1] : undefined;
    ends[low] = at;
  }
  const row: (readonly [number, number])[] = [];
  for (let at = ends.at(-1); at !== undefined; at = before[at]) {
    const pair = pairs[at];
    if (pair) row.unshift(pair);
  }
  return row;
}

const plainOf = (node: Node): Plain => plain(treeOfNode(node));

function plain(tree: Tree): Plain {
  if (typeof tree === 'boolean') return String(tree);
  if (typeof tree === 'string') return tree;
  return Array.isArray(tree)
    ? tree.map(plain)
    : Object.fromEntries(Object.entries(tree).map(([name, child]) => [name, plain(child)]));
}
