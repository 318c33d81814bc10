import { pathText } from '../../record/path.js';
import type { Tree } from '../../record/read.js';
import { isGroup, type TreeGroup } from '../../record/tree.js';
import { isGroupField } from '../fields.js';
import type { SourceLine } from '../lines.js';
import type { Merged } from '../merge.js';

/** A line of `sources` as it is written. */
export const lineOf = ({ path, from, at, by }: SourceLine): TreeGroup => ({
  path: pathText(path),
  from,
  at,
  ...(by !== undefined && { by }),
});

const placeAndSource = (line: Tree): string => {
  const { path, from, by } = isGroup(line) ? line : {};
  return JSON.stringify([path, from, by]);
};

/** The line of `sources` that a new one takes the place of; -1 where there is none. */
export const renewedLine = (lines: readonly Tree[], line: TreeGroup): number =>
  lines.findIndex(one => placeAndSource(one) === placeAndSource(line));

/**
 * The data that a record is to have once a merge is in it.
 * @returns undefined where something stands in the way, which a merge of this record never gives
 */
export function expectedTree(tree: Tree | undefined, merged: Merged): Tree | undefined {
  const root = structuredClone(tree ?? {});
  if (!isGroup(root)) return undefined;
  for (const { path, value } of merged.set) if (!setAt(root, path, value)) return undefined;
  for (const { path, value } of merged.add) {
    const parent = parentOf(root, path);
    const name = path.at(-1);
    if (!parent || name === undefined) return undefined;
    const list = Object.hasOwn(parent, name) ? parent[name] : [];
    if (!Array.isArray(list)) return undefined;
    put(parent, name, [...list, value]);
  }
  if (merged.sources.length > 0) {
    const lines = Object.hasOwn(root, 'sources') ? root['sources'] : [];
    if (!Array.isArray(lines)) return undefined;
    for (const line of merged.sources.map(lineOf)) {
      const at = renewedLine(lines, line);
      if (at >= 0) lines[at] = line;
      else lines.push(line);
    }
    root['sources'] = lines;
  }
  return root;
}

function setAt(root: TreeGroup, path: readonly string[], value: Tree): boolean {
  const parent = parentOf(root, path);
  const name = path.at(-1);
  if (!parent || name === undefined) return false;
  put(parent, name, value);
  return true;
}

/** The group that a path ends in, made where it is not there. */
function parentOf(root: TreeGroup, path: readonly string[]): TreeGroup | undefined {
  let here = root;
  for (const [depth, name] of path.slice(0, -1).entries()) {
    if (!isGroupField(path.slice(0, depth + 1))) return undefined;
    if (!Object.hasOwn(here, name)) put(here, name, {});
    const next: Tree | undefined = here[name];
    if (!isGroup(next)) return undefined;
    here = next;
  }
  return here;
}

/** As a property of the group's own, whatever it is called. */
function put(group: TreeGroup, name: string, value: Tree): void {
  Object.defineProperty(group, name, { value, enumerable: true, configurable: true, writable: true });
}

/** Data as text in which the order of fields makes no difference. */
export function canonicalText(tree: Tree | undefined): string {
  return JSON.stringify(tree, (_name, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)))
      : typeof value === 'boolean'
        ? String(value)
        : value,
  );
}
