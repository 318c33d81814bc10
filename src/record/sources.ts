import { type Finding, finding } from '../findings/finding.js';
import { shownText } from './issues.js';
import { pathSegments } from './path.js';
import type { Tree } from './read.js';

/** A line of `sources` whose path names nothing is told: it was moved, taken out, or never there. */
export function checkSources(tree: Tree): Finding[] {
  const lines = childOf(tree, 'sources');
  if (!Array.isArray(lines)) return [];
  return lines.flatMap((line, index) => {
    const path = childOf(line, 'path');
    if (typeof path !== 'string' || path.trim() === '') return [];
    const there = valueAt(tree, segmentsOf(path.trim()));
    if (there !== undefined) return [];
    return [finding('record.source-of-nothing', `sources[${index}].path`, { place: shownText(path) })];
  });
}

/** The parts of a path that a person may have written: none of a path that cannot be taken apart. */
export function segmentsOf(path: string): readonly PropertyKey[] {
  try {
    return pathSegments(path);
  } catch {
    return [];
  }
}

/** The value at a path; undefined where there is none, and for the empty path. */
export function valueAt(tree: Tree | undefined, path: readonly PropertyKey[]): Tree | undefined {
  if (path.length === 0) return undefined;
  return path.reduce<Tree | undefined>((here, segment) => childOf(here, segment), tree);
}

function childOf(tree: Tree | undefined, segment: PropertyKey): Tree | undefined {
  if (Array.isArray(tree)) return typeof segment === 'number' ? tree[segment] : undefined;
  if (typeof tree !== 'object' || typeof segment !== 'string') return undefined;
  return Object.hasOwn(tree, segment) ? tree[segment] : undefined;
}
