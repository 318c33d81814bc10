import type { Offsets } from './parse.js';

/** A place in a text, both from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Turns offsets of one text into lines and columns; the line table is made at the first question. */
export function positionsOf(text: string): (offset: number) => Position {
  let starts: number[] | undefined;
  return offset => {
    starts ??= lineStarts(text);
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
  };
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
}

/** Offset of member `name` of `owner`, or of `owner` itself when it has no such member. */
export function offsetOf(offsets: Offsets, owner: object, name?: string): number | undefined {
  const places = offsets.get(owner);
  if (!places) return undefined;
  if (name === undefined) return places[0];
  const index = Array.isArray(owner) ? Number(name) : Object.keys(owner).indexOf(name);
  return places[index + 1] ?? places[0];
}
