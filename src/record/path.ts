/** Names that need no quotes in a path: not empty, no dot, bracket or quote in them, and not a number. */
const PLAIN = /^(?!\d)[^.[\]"\\]+$/;

/** Joins path segments: `events[3].over`; a name that would be ambiguous stands in quotes: `case["a.b"]`. */
export function pathText(segments: readonly PropertyKey[]): string {
  let text = '';
  for (const segment of segments) {
    if (typeof segment === 'number') text += `[${segment}]`;
    else if (PLAIN.test(String(segment))) text += `${text === '' ? '' : '.'}${String(segment)}`;
    else text += `[${JSON.stringify(String(segment))}]`;
  }
  return text;
}

/** Takes a path apart again; the other half of `pathText`. */
export function pathSegments(path: string): PropertyKey[] {
  const found = path.matchAll(/\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\]|([^.[\]]+)/g);
  return [...found].map(([, index, quoted, name]) =>
    index !== undefined ? Number(index) : quoted !== undefined ? String(JSON.parse(quoted)) : (name ?? ''),
  );
}

/** Line and column, both from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}
