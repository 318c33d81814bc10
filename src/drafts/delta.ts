/** Where one text differs from another: what stood at a place, and what stands there now. */
export interface Delta {
  /** UTF-16 units before it. */
  readonly at: number;
  readonly was: string;
  readonly is: string;
}

/** What leads from one text to another. */
export function deltaBetween(from: string, to: string): Delta {
  const most = Math.min(from.length, to.length);
  let at = 0;
  while (at < most && from[at] === to[at]) at += 1;
  let end = 0;
  while (end < most - at && from[from.length - 1 - end] === to[to.length - 1 - end]) end += 1;
  return { at, was: from.slice(at, from.length - end), is: to.slice(at, to.length - end) };
}

/** The text with it; undefined for a text that it is not about. */
export function withDelta(text: string, { at, was, is }: Delta): string | undefined {
  return text.startsWith(was, at) ? text.slice(0, at) + is + text.slice(at + was.length) : undefined;
}

export const reversed = ({ at, was, is }: Delta): Delta => ({ at, was: is, is: was });
