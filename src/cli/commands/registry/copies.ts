import { backupSubmissions, restoreSubmissions } from '../../../registry/store/copies.js';
import { type CopyFlags, copied } from '../../copied.js';
import type { ExitCode } from '../../exit.js';
import { counted, type Output } from '../../output.js';
import { submissionsFile } from '../../process.js';

/** Copies what was given to registries to a file, while sending goes on. */
export async function backup(flags: CopyFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  const from = submissionsFile(flags.data);
  const versions = await backupSubmissions(from, flags.to);
  return copied(
    from,
    flags.to,
    { versions },
    `${counted(versions, 'version of an entry', 'versions of entries')} as of now, checked. It leads pseudonyms back to people, sealed as the store is; keep the keys elsewhere.`,
    flags,
    output,
  );
}

/** Puts a backup into the data folder, where there must be none. */
export async function restore(file: string, flags: CopyFlags, output: Output): Promise<ExitCode> {
  const to = submissionsFile(flags.data);
  const versions = await restoreSubmissions(file, to);
  return copied(
    file,
    to,
    { versions },
    `${counted(versions, 'version of an entry', 'versions of entries')}. What was sent since the backup is not in it: the next send gives it again, under the numbers that it had.`,
    flags,
    output,
  );
}
