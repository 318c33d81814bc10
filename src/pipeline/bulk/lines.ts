/** A line of a file of lines, without its end. */
export interface Line {
  /** From 1. */
  readonly number: number;
  /** Absent where the line is longer than may be. */
  readonly bytes?: Uint8Array;
  /** Bytes of the line. */
  readonly size: number;
  /** Bytes of the file up to the end of the line. */
  readonly upTo: number;
  /** False for a last line that has no end. */
  readonly ended: boolean;
}

const [LF, CR, SPACE, TAB] = [10, 13, 32, 9];
const MARK = [0xef, 0xbb, 0xbf];

/**
 * The lines of a file that are not blank, one by one. A byte order mark at the beginning and the CR of a CRLF are no part
 * of a line. A line that is too long is passed through without being held.
 *
 * @param chunks of the file, in order
 * @param longest bytes that a line may have
 */
export async function* linesOf(chunks: AsyncIterable<Uint8Array>, longest: number): AsyncGenerator<Line> {
  let held: Uint8Array[] = [];
  let [size, number, position] = [0, 1, 0];
  const take = (piece: Uint8Array) => {
    size += piece.length;
    // A little more than the longest, for a mark and a CR that do not count.
    if (size > longest + MARK.length + 1) held = [];
    else if (piece.length > 0) held.push(piece);
  };
  const line = (ended: boolean): Line | undefined => {
    const whole = size > longest + MARK.length + 1 ? undefined : trimmed(Buffer.concat(held), number === 1);
    const isBlank = whole?.every(byte => byte === SPACE || byte === TAB) ?? false;
    const made: Line = {
      number,
      size: whole?.length ?? size,
      upTo: position,
      ended,
      ...(whole && whole.length <= longest && { bytes: whole }),
    };
    [held, size, number] = [[], 0, number + 1];
    return isBlank ? undefined : made;
  };
  for await (const chunk of chunks) {
    let from = 0;
    for (let at = chunk.indexOf(LF); at >= 0; at = chunk.indexOf(LF, from)) {
      take(chunk.subarray(from, at));
      position += at + 1 - from;
      from = at + 1;
      const made = line(true);
      if (made) yield made;
    }
    take(chunk.slice(from));
    position += chunk.length - from;
  }
  const last = size > 0 ? line(false) : undefined;
  if (last) yield last;
}

function trimmed(bytes: Uint8Array, isFirst: boolean): Uint8Array {
  const from = isFirst && MARK.every((byte, i) => bytes[i] === byte) ? MARK.length : 0;
  const to = bytes.at(-1) === CR ? bytes.length - 1 : bytes.length;
  return bytes.subarray(from, Math.max(from, to));
}
