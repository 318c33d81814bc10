/** A file of an archive: its path and its bytes. */
export interface TarEntry {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const BLOCK = 512;

/** Writes a tar archive (POSIX.1-1988 ustar) in which nothing depends on clock, user or machine. */
export function writeTar(entries: readonly TarEntry[]): Uint8Array {
  const blocks = entries.flatMap(({ name, bytes }) => [
    header(name, bytes.length),
    bytes,
    new Uint8Array((BLOCK - (bytes.length % BLOCK)) % BLOCK),
  ]);
  return Buffer.concat([...blocks, new Uint8Array(2 * BLOCK)]);
}

function header(name: string, size: number): Uint8Array {
  if (name.length > 100) throw new RangeError(`${name} is too long for an archive`);
  const block = Buffer.alloc(BLOCK);
  const put = (value: string, at: number) => block.write(value, at, 'latin1');
  const octal = (value: number, digits: number) => `${value.toString(8).padStart(digits, '0')}\0`;
  put(name, 0);
  put(octal(0o644, 7), 100);
  put(octal(0, 7), 108);
  put(octal(0, 7), 116);
  put(octal(size, 11), 124);
  // Packages of the npm kind carry this day too: before 1980 some tools refuse it.
  put(octal(Date.UTC(1985, 9, 26, 8, 15) / 1000, 11), 136);
  put('        ', 148);
  put('0', 156);
  put('ustar\u000000', 257);
  const sum = block.reduce((total, byte) => total + byte, 0);
  put(`${sum.toString(8).padStart(6, '0')}\0 `, 148);
  return block;
}
