import { type Finding, finding } from '../findings/finding.js';
import { shownText } from './issues.js';
import { pathSegments } from './path.js';
import type { Tree } from './read.js';
import { valueAt } from './tree.js';

/** A line of `sources` whose path names nothing is told: it was moved, taken out, or never there. */
export function checkSources(tree: Tree): Finding[] {
  const lines = valueAt(tree, ['sources']);
  if (!Array.isArray(lines)) return [];
  return lines.flatMap((line, index) => {
    const path = valueAt(line, ['path']);
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
