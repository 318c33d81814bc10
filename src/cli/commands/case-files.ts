import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { CasetallyError, reason } from '../../findings/errors.js';
import { readBytes } from '../files.js';

/** What came of reading many files. */
export interface ReadFiles {
  readonly unread: readonly { readonly file: string; readonly problem: string }[];
  /** Files of folders that are no case at all. */
  readonly passedOver: number;
}

/** Reads each file that is named, and each case in the folders that are named; `use` says whether it is one. */
export async function readCases(
  places: readonly string[],
  use: (bytes: Uint8Array, file: string) => Promise<boolean>,
): Promise<ReadFiles> {
  const unread: { file: string; problem: string }[] = [];
  let passedOver = 0;
  for (const place of places)
    for (const file of await filesAt(place)) {
      try {
        const bytes = await readBytes(file);
        if (file !== place && !looksLikeCase(bytes)) passedOver += 1;
        else if (!(await use(bytes, file)))
          unread.push({ file, problem: `it has errors, see casetally check ${file}` });
      } catch (error) {
        if (!(error instanceof CasetallyError)) throw error;
        unread.push({ file, problem: error.message });
      }
    }
  return { unread, passedOver };
}

/**
 * The first field of a case says its format; what lies beside cases (settings, outputs) does not have it. Written so that
 * no file takes longer than in proportion to its length.
 */
export const looksLikeCase = (bytes: Uint8Array): boolean =>
  /(?:^[ \t]*|[{,]\s*)["']?casetally["']?\s*:/m.test(Buffer.from(bytes).toString('utf8'));

async function filesAt(place: string): Promise<readonly string[]> {
  try {
    if (!(await stat(place)).isDirectory()) return [place];
    const names = await readdir(place, { recursive: true });
    return names
      .filter(name => /\.(?:ya?ml|json)$/i.test(name))
      .sort()
      .map(name => join(place, name));
  } catch (error) {
    throw new CasetallyError('file-unreadable', `${place} cannot be read: ${reason(error)}.`, {
      cause: error,
    });
  }
}
