/** One file of a tar archive. */
export interface TarFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const BLOCK = 512;

/**
 * Reads the files of a tar archive (POSIX ustar, with pax and GNU long names, as npm and FHIR packages
 * are written). Sources: POSIX.1-2017 pax, section ustar Interchange Format.
 */
export function readTar(archive: Uint8Array): TarFile[] {
  const files: TarFile[] = [];
  const latin = new TextDecoder('latin1');
  const utf8 = new TextDecoder();
  let longName: string | undefined;
  for (let at = 0; at + BLOCK <= archive.length; ) {
    const header = archive.subarray(at, at + BLOCK);
    const field = (from: number, length: number) =>
      latin.decode(header.subarray(from, from + length)).replace(/\0.*$/s, '');
    const plain = field(0, 100);
    if (plain === '' && field(257, 5) !== 'ustar') break;
    const size = Number.parseInt(field(124, 12).trim() || '0', 8);
    if (!Number.isSafeInteger(size) || size < 0) break;
    const start = at + BLOCK;
    const bytes = archive.subarray(start, start + size);
    const prefix = field(257, 5) === 'ustar' ? field(345, 155) : '';
    const kind = field(156, 1);
    if (kind === 'L') longName = utf8.decode(bytes).replace(/\0.*$/s, '');
    else if (kind === 'x') longName = paxPath(utf8.decode(bytes)) ?? longName;
    else {
      const name = longName ?? (prefix === '' ? plain : `${prefix}/${plain}`);
      if (kind === '' || kind === '0') files.push({ name, bytes });
      longName = undefined;
    }
    at = start + Math.ceil(size / BLOCK) * BLOCK;
  }
  return files;
}

function paxPath(records: string): string | undefined {
  return /(?:^|\n)\d+ path=(.*)\n/.exec(records)?.[1];
}

/** Writes a tar archive (POSIX.1-1988 ustar) in which nothing depends on clock, user or machine. */
export function writeTar(entries: readonly TarFile[]): Uint8Array {
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
