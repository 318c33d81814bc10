import type { Tree } from '../../record/read.js';
import { isGroup } from '../../record/tree.js';

type Path = readonly (string | number)[];

/** One thing that a text is to have and has not yet. */
export type Difference =
  /** A field that the group at the path does not have. */
  | { readonly kind: 'field'; readonly path: Path; readonly key: string; readonly value: Tree }
  /** An entry for the end of the list at the path. */
  | { readonly kind: 'entry'; readonly path: Path; readonly value: Tree }
  /** Another value for the text at the path. */
  | { readonly kind: 'text'; readonly path: Path; readonly value: string | boolean };

/** What leads from one tree to the other; undefined where something would have to be taken out or change its kind. */
export function differences(from: Tree, to: Tree, path: Path = []): Difference[] | undefined {
  if (isGroup(from) && isGroup(to)) {
    if (Object.keys(from).some(name => !Object.hasOwn(to, name))) return undefined;
    return joined(
      Object.entries(to).map(([key, value]) => {
        const old = Object.hasOwn(from, key) ? from[key] : undefined;
        return old === undefined
          ? [{ kind: 'field', path, key, value }]
          : differences(old, value, [...path, key]);
      }),
    );
  }
  if (Array.isArray(from) && Array.isArray(to)) {
    if (to.length < from.length) return undefined;
    return joined(
      to.map((value, index) => {
        const old = from[index];
        return old === undefined
          ? [{ kind: 'entry', path, value }]
          : differences(old, value, [...path, index]);
      }),
    );
  }
  if (typeof from === 'object' || typeof to === 'object') return undefined;
  return String(from) === String(to) ? [] : [{ kind: 'text', path, value: to }];
}

function joined(parts: readonly (Difference[] | undefined)[]): Difference[] | undefined {
  const all: Difference[] = [];
  for (const part of parts) {
    if (!part) return undefined;
    all.push(...part);
  }
  return all;
}
