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
