import { pathText } from '../record/path.js';
import type { Tree } from '../record/read.js';
import { segmentsOf } from '../record/sources.js';
import { valueAt } from '../record/tree.js';
import { type SourceKind, sourceKinds } from './contribution.js';
import type { Source } from './source.js';

/** One line of `sources`, its path in steps. */
export interface SourceLine extends Source {
  readonly path: readonly PropertyKey[];
}

/** The lines that a record has; what cannot be read of them names no source, and its value counts as typed. */
export function sourceLines(tree: Tree | undefined): SourceLine[] {
  const lines = valueAt(tree, ['sources']);
  if (!Array.isArray(lines)) return [];
  return lines.flatMap((line): SourceLine[] => {
    const text = (name: string) => {
      const value = valueAt(line, [name]);
      return typeof value === 'string' ? value.trim() : undefined;
    };
    const [path, from, at, by] = [text('path'), kindOf(text('from')), text('at'), text('by')];
    const steps = path === undefined ? [] : segmentsOf(path);
    if (steps.length === 0 || from === undefined || at === undefined) return [];
    return [{ path: steps, from, at, ...(by !== undefined && { by }) }];
  });
}

const kindOf = (text: string | undefined): SourceKind | undefined => sourceKinds.find(kind => kind === text);

/** The sources of a value: of the line about it, else of the nearest group that it lies in. */
export function sourcesAt(path: readonly PropertyKey[], lines: readonly SourceLine[]): Source[] {
  for (let length = path.length; length > 0; length--) {
    const place = pathText(path.slice(0, length));
    const found = lines.filter(line => pathText(line.path) === place);
    if (found.length > 0) return found.map(({ path: _, ...source }) => source);
  }
  return [];
}
