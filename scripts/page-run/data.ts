import { type Group, groupAt, isGroup, listAt, type Tree } from '../../web/case/desk/tree.js';

export { type Group, isGroup, type Tree } from '../../web/case/desk/tree.js';

/** A value as fields; none where it has none. */
export const group = (tree: Tree | undefined): Group => groupAt(tree, '');

/** Entries of a list, each as fields. */
export const list = (tree: Tree | undefined): readonly Group[] => listAt(tree, '').map(group);

export const pick = (tree: Tree | undefined, ...names: readonly string[]): Group =>
  Object.fromEntries(Object.entries(group(tree)).filter(([name]) => names.includes(name)));

/** The same without some of its fields; what has no fields as it is. */
export const without = <T extends Tree>(tree: T, names: readonly string[]): T | Group =>
  isGroup(tree) ? Object.fromEntries(Object.entries(tree).filter(([name]) => !names.includes(name))) : tree;
