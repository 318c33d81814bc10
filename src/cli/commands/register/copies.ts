import { copyRegister } from '../../../register/store/copies.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { registerFile } from '../../process.js';
import { filled } from '../../terminal/fill.js';

interface CopyFlags {
  readonly data?: string;
  readonly json?: boolean;
}

/** Copies the register to a file while cases go on being taken in. */
export async function backup(flags: CopyFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  const from = registerFile(flags.data);
  const versions = await copyRegister(from, flags.to);
  if (flags.json) output.out(jsonText({ from, to: flags.to, versions }));
  else
    output.out(
      filled(
        `${flags.to}: ${counted(versions, 'version of a case', 'versions of cases')} as of now, checked. It holds patient data, sealed as the register is; keep the keys elsewhere.`,
        output.columns,
      ),
    );
  return exitCodes.ok;
}

/** Puts a backup into the data folder, where there must be no register. */
export async function restore(file: string, flags: CopyFlags, output: Output): Promise<ExitCode> {
  const to = registerFile(flags.data);
  const versions = await copyRegister(file, to);
  if (flags.json) output.out(jsonText({ from: file, to, versions }));
  else
    output.out(
      filled(
        `${to}: ${counted(versions, 'version of a case', 'versions of cases')}. What a destination accepted since is taken in from the outbox with the next command; what was taken in or decided by hand since is not in it.`,
        output.columns,
      ),
    );
  return exitCodes.ok;
}
