import { CasetallyError } from '../../../findings/errors.js';
import { carryOutNow, leftText, printCarried } from '../../carrying.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { hasOutbox, openOutbox } from '../../process.js';
import { filled } from '../../terminal/fill.js';
import { type RegisterFlags, withRegister } from './open.js';

interface UpdateFlags extends RegisterFlags {
  readonly to?: string;
  /** Looks at every case that later ones say something of, also of those that the register was not told were accepted. */
  readonly all?: boolean;
  readonly withoutVersions?: boolean;
}

/** Brings up to date at destinations what earlier cases left there: what waits, and what is held for a person. */
export function updateDestinations(flags: UpdateFlags, output: Output): Promise<ExitCode> {
  const { to, all, withoutVersions } = flags;
  if (all && to === undefined)
    throw new CasetallyError('usage', '--all needs the destination to look at: give --to.');
  return withRegister(flags, output, async ({ register: { owed }, site }) => {
    if (to !== undefined && !site.site.destinations[to] && !/^https?:/.test(to))
      throw new CasetallyError(
        'usage',
        `'${to}' is neither a destination of the site configuration nor an address.`,
      );
    if (all && to !== undefined) await owed.askAll(to);
    await owed.retry(Date.now(), to);
    const store = hasOutbox(flags.data) ? await openOutbox(flags.data) : undefined;
    try {
      output.progress?.('Looking at what earlier cases left');
      const carrying = { owed, site, data: flags.data, outbox: store?.outbox, to, withoutVersions };
      const done = await carryOutNow(carrying, output);
      const left = (await owed.list()).filter(({ destination }) => to === undefined || destination === to);
      if (flags.json) output.out(jsonText({ cases: done, left }));
      else {
        printCarried(done, output);
        const changed = done.reduce((sum, { updated }) => sum + updated.length, 0);
        const verdict = `${counted(changed, 'resource', 'resources')} brought up to date`;
        const rest = left.length === 0 ? 'nothing is left to do' : `still to be done: ${leftText(left)}`;
        output.out(filled(`${verdict}; ${rest}.`, output.columns));
      }
      if (left.length === 0) return exitCodes.ok;
      return left.some(({ held }) => held) ? exitCodes.refused : exitCodes.unreachable;
    } finally {
      await store?.outbox.close();
    }
  });
}
