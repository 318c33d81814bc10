import { pathSegments } from '../../../src/record/path.js';
import type { Tree } from '../../../src/record/read.js';

export type { Tree };
export type Group = { readonly [name: string]: Tree };

/** True for fields by name; not for a list. */
export const isGroup = (tree: Tree | undefined): tree is { [name: string]: Tree } =>
  typeof tree === 'object' && !Array.isArray(tree);

/** The value at a path as findings write it; the whole for the empty one. */
export function at(tree: Tree | undefined, path: string): Tree | undefined {
  return pathSegments(path).reduce<Tree | undefined>((here, step) => {
    if (Array.isArray(here)) return typeof step === 'number' ? here[step] : undefined;
    return isGroup(here) && typeof step === 'string' && Object.hasOwn(here, step) ? here[step] : undefined;
  }, tree);
}

/** Text at a path; undefined for anything else. */
export function textAt(tree: Tree | undefined, path: string): string | undefined {
  const found = at(tree, path);
  return typeof found === 'string' ? found : undefined;
}

/** The fields of a group at a path; none where there is no group. */
export function groupAt(tree: Tree | undefined, path: string): Group {
  const found = at(tree, path);
  return isGroup(found) ? found : {};
}

/** The entries of a list at a path; none where there is no list. */
export function listAt(tree: Tree | undefined, path: string): readonly Tree[] {
  const found = at(tree, path);
  return Array.isArray(found) ? found : [];
}

/** What a value says in few words: its text, or the texts in it. */
export function briefly(tree: Tree | undefined): string {
  if (tree === undefined) return '';
  if (Array.isArray(tree)) return tree.map(briefly).join(', ');
  if (typeof tree !== 'object') return String(tree);
  return Object.entries(tree)
    .filter(([name]) => name !== 'key' && name !== 'codes' && name !== 'system')
    .map(([, value]) => briefly(value))
    .filter(text => text !== '')
    .join(', ');
}

/** Names of people at a place, as text or in parts. */
export function nameOf(tree: Tree | undefined): string {
  if (!isGroup(tree)) return briefly(tree);
  return [tree['prefix'], tree['given'], tree['family'], tree['suffix']]
    .map(part => (Array.isArray(part) ? part.map(briefly).join(' ') : briefly(part)))
    .filter(text => text !== '')
    .join(' ');
}
