import { type ReadText, readText } from '../record/read.js';

/** The most that is kept, in characters of the texts. */
const MOST = 4_000_000;

const known = new Map<string, Read>();
let kept = 0;

export type Read = Pick<ReadText, 'tree' | 'findings'>;

/**
 * Reads a text as `readText` does. What was read lately is not read again: the text that one edit makes is the one that
 * the next is made in. What it gives is shared, so it must be read only.
 */
export function readLately(text: string): Read {
  const before = known.get(text);
  if (before) {
    // The one that was asked for longest ago is forgotten first.
    known.delete(text);
    known.set(text, before);
    return before;
  }
  const { tree, findings } = readText(text);
  const read: Read = { ...(tree !== undefined && { tree }), findings };
  known.set(text, read);
  kept += text.length;
  for (const oldest of known.keys()) {
    if (kept <= MOST) break;
    known.delete(oldest);
    kept -= oldest.length;
  }
  return read;
}
