import { readText, type Tree } from './read.js';

/** Fields by name. */
export type TreeGroup = { [name: string]: Tree };

/** True for fields by name; not for a list. */
export const isGroup = (tree: Tree | undefined): tree is TreeGroup =>
  typeof tree === 'object' && !Array.isArray(tree);

/** The value at a path; undefined where there is none, and for the empty path. */
export function valueAt(tree: Tree | undefined, path: readonly PropertyKey[]): Tree | undefined {
  if (path.length === 0) return undefined;
  return path.reduce<Tree | undefined>((here, segment) => childOf(here, segment), tree);
}

function childOf(tree: Tree | undefined, segment: PropertyKey): Tree | undefined {
  if (Array.isArray(tree)) return typeof segment === 'number' ? tree[segment] : undefined;
  if (!isGroup(tree) || typeof segment !== 'string') return undefined;
  return Object.hasOwn(tree, segment) ? tree[segment] : undefined;
}

/** The text without the mark that some editors put first. */
export const unmarked = (text: string): string => text.replace(/^\uFEFF/, '');

/** The data of a text; undefined where it cannot be read, whatever the reason. */
export const treeIn = (text: string): Tree | undefined => readText(unmarked(text)).tree;
