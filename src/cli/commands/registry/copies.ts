import { backupSubmissions, restoreSubmissions } from '../../../registry/store/copies.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { submissionsFile } from '../../process.js';
import { filled } from '../../terminal/fill.js';

interface CopyFlags {
  readonly data?: string;
  readonly json?: boolean;
}

/** Copies what was given to registries to a file, while sending goes on. */
export async function backup(flags: CopyFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  const from = submissionsFile(flags.data);
  const versions = await backupSubmissions(from, flags.to);
  if (flags.json) output.out(jsonText({ from, to: flags.to, versions }));
  else
    output.out(
      filled(
        `${flags.to}: ${counted(versions, 'version of an entry', 'versions of entries')} as of now, checked. It leads pseudonyms back to people, sealed as the store is; keep the keys elsewhere.`,
        output.columns,
      ),
    );
  return exitCodes.ok;
}

/** Puts a backup into the data folder, where there must be none. */
export async function restore(file: string, flags: CopyFlags, output: Output): Promise<ExitCode> {
  const to = submissionsFile(flags.data);
  const versions = await restoreSubmissions(file, to);
  if (flags.json) output.out(jsonText({ from: file, to, versions }));
  else
    output.out(
      filled(
        `${to}: ${counted(versions, 'version of an entry', 'versions of entries')}. What was sent since the backup is not in it: the next send gives it again, under the numbers that it had.`,
        output.columns,
      ),
    );
  return exitCodes.ok;
}
