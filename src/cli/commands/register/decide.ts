import { CasetallyError } from '../../../findings/errors.js';
import type { PersonNumber } from '../../../register/facts.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { jsonText, type Output } from '../../output.js';
import { filled } from '../../terminal/fill.js';
import { type RegisterFlags, withRegister } from './open.js';

interface DecideFlags extends RegisterFlags {
  readonly by: string;
  readonly why: string;
}

const blank = (text: string) => text.trim() === '';

function said({ by, why }: DecideFlags): { readonly by: string; readonly why: string; readonly at: number } {
  if (blank(by) || blank(why)) throw new CasetallyError('usage', 'say who decides (--by) and why (--why).');
  return { by: by.trim(), why: why.trim(), at: Date.now() };
}

/** Says that a device of a case is a use that the register holds. */
export function link(
  name: string,
  device: string,
  use: string,
  flags: DecideFlags,
  output: Output,
): Promise<ExitCode> {
  const by = said(flags);
  return withRegister(flags, output, async ({ register }) => {
    const done = await register.decide({ kind: 'link', case: name, device, use, ...by });
    if (!done)
      throw new CasetallyError(
        'usage',
        `the register has no device '${device}' of case '${name}', or no use '${use}' of the same patient; nothing was changed.`,
      );
    const now = await register.use(use);
    if (flags.json) output.out(jsonText(now));
    else
      output.out(
        filled(`${name}/${device} is ${use}, which is now ${now?.state ?? 'not known'}.`, output.columns),
      );
    return exitCodes.ok;
  });
}

/** Says that a device of a case is none of the uses that the register linked it with. */
export function unlink(name: string, device: string, flags: DecideFlags, output: Output): Promise<ExitCode> {
  const by = said(flags);
  return withRegister(flags, output, async ({ register }) => {
    const done = await register.decide({ kind: 'unlink', case: name, device, ...by });
    if (!done)
      throw new CasetallyError(
        'usage',
        `the register has no device '${device}' of case '${name}'; nothing was changed.`,
      );
    const now = await register.use(`${name}/${device}`);
    if (flags.json) output.out(jsonText(now));
    else output.out(filled(`${name}/${device} stands by itself now.`, output.columns));
    return exitCodes.ok;
  });
}

/** Says that two numbers are one patient. */
export function join(one: string, other: string, flags: DecideFlags, output: Output): Promise<ExitCode> {
  const by = said(flags);
  return withRegister(flags, output, async ({ register }) => {
    const done = await register.join({ one: numberOf(one), other: numberOf(other), ...by });
    if (done === undefined)
      throw new CasetallyError(
        'usage',
        `the register does not have both numbers as patients; nothing was changed.`,
      );
    if (flags.json) output.out(jsonText({ joined: [one, other] }));
    else output.out(filled(`${one} and ${other} are one patient now.`, output.columns));
    return exitCodes.ok;
  });
}

function numberOf(text: string): PersonNumber {
  const at = text.lastIndexOf('|');
  if (at < 1 || at === text.length - 1)
    throw new CasetallyError('usage', `'${text}' is no number with its system: give SYSTEM|NUMBER.`);
  return { system: text.slice(0, at), value: text.slice(at + 1) };
}
