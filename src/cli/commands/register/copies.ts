import { copyRegister } from '../../../register/store/copies.js';
import { type CopyFlags, copied } from '../../copied.js';
import type { ExitCode } from '../../exit.js';
import { counted, type Output } from '../../output.js';
import { registerFile } from '../../process.js';

/** Copies the register to a file while cases go on being taken in. */
export async function backup(flags: CopyFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  const from = registerFile(flags.data);
  const versions = await copyRegister(from, flags.to);
  return copied(
    from,
    flags.to,
    { versions },
    `${counted(versions, 'version of a case', 'versions of cases')} as of now, checked. It holds patient data, sealed as the register is; keep the keys elsewhere.`,
    flags,
    output,
  );
}

/** Puts a backup into the data folder, where there must be no register. */
export async function restore(file: string, flags: CopyFlags, output: Output): Promise<ExitCode> {
  const to = registerFile(flags.data);
  const versions = await copyRegister(file, to);
  return copied(
    file,
    to,
    { versions },
    `${counted(versions, 'version of a case', 'versions of cases')}. What a destination accepted since is taken in from the outbox with the next command; what was taken in or decided by hand since is not in it.`,
    flags,
    output,
  );
}
