import type { Tree } from './read.js';

/** Data without the parts that could not be read, and the way back from its paths to the paths of the text. */
export interface Pruned {
  readonly tree: Tree;
  /** Segments in the pruned data to segments in the original: list places shift when an entry goes. */
  original(path: readonly PropertyKey[]): readonly PropertyKey[];
}

/**
 * Takes the named places out of a copy of the data, so that the rest can still be checked in the same run.
 * @param paths places in `tree`; a path that leads nowhere is taken as its parent
 */
export function prune(tree: Tree, paths: readonly (readonly PropertyKey[])[]): Pruned {
  const gone = new Set(paths.map(path => JSON.stringify(deepest(tree, path))));
  const lists = new Map<string, number[]>();
  const copy = (node: Tree, path: readonly PropertyKey[], to: readonly PropertyKey[]): Tree => {
    if (Array.isArray(node)) {
      const kept = node.map((_, index) => index).filter(index => !gone.has(JSON.stringify([...path, index])));
      lists.set(JSON.stringify(to), kept);
      return kept.map((index, place) => copy(node[index] ?? '', [...path, index], [...to, place]));
    }
    if (typeof node !== 'object' || node === null) return node;
    return Object.fromEntries(
      Object.entries(node)
        .filter(([name]) => !gone.has(JSON.stringify([...path, name])))
        .map(([name, child]) => [name, copy(child, [...path, name], [...to, name])]),
    );
  };
  return {
    tree: copy(tree, [], []),
    original: path =>
      path.map((segment, depth) =>
        typeof segment === 'number'
          ? (lists.get(JSON.stringify(path.slice(0, depth)))?.[segment] ?? segment)
          : segment,
      ),
  };
}

/** The longest part of a path that exists in the data. */
function deepest(tree: Tree, path: readonly PropertyKey[]): readonly PropertyKey[] {
  let here: Tree | undefined = tree;
  for (let depth = 0; depth < path.length; depth++) {
    const segment = path[depth];
    const next: Tree | undefined = Array.isArray(here)
      ? typeof segment === 'number'
        ? here[segment]
        : undefined
      : typeof here === 'object' && typeof segment === 'string' && Object.hasOwn(here, segment)
        ? here[segment]
        : undefined;
    if (next === undefined) return path.slice(0, depth);
    here = next;
  }
  return path;
}
