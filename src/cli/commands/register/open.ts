import type { OpenedSite } from '../../../pipeline/open-case.js';
import { catchUp } from '../../../pipeline/register/feed.js';
import { caseSystemOf } from '../../../pipeline/settings.js';
import type { Register } from '../../../register/store/register.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import type { Output } from '../../output.js';
import { hasOutbox, openOutbox, openRegister } from '../../process.js';
import { openSite } from '../open-site.js';

export interface RegisterFlags {
  readonly site?: string;
  readonly data?: string;
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly failIfAny?: boolean;
}

/** What a command of the register works with. */
export interface RegisterWork {
  readonly register: Register;
  readonly site: OpenedSite;
  /** Numbering system of the site's own case numbers, which names leave out. */
  readonly ownSystem: string;
  readonly path: string;
}

/**
 * Opens the register for a piece of work, and closes it whatever comes of that. Where the site keeps one, whatever was
 * accepted since is taken in first.
 */
export async function withRegister(
  flags: RegisterFlags,
  output: Output,
  work: (opened: RegisterWork) => Promise<ExitCode>,
): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const ownSystem = caseSystemOf(site.site);
  const { register, path } = await openRegister(flags.data, ownSystem);
  try {
    if (site.site.register && hasOutbox(flags.data)) {
      const { outbox } = await openOutbox(flags.data);
      try {
        await catchUp(outbox, { register, site, clock: () => Date.now() });
      } finally {
        await outbox.close();
      }
    }
    return await work({ register, site, ownSystem, path });
  } finally {
    await register.close();
  }
}

/** 1 where a list has something and was asked to say so. */
export const exitOfList = (rows: readonly unknown[], { failIfAny }: RegisterFlags): ExitCode =>
  failIfAny && rows.length > 0 ? exitCodes.findings : exitCodes.ok;
