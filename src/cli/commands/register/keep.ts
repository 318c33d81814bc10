import { openBytes } from '../../../pipeline/open-case.js';
import { factsOfCase } from '../../../pipeline/register/take.js';
import type { OwedCase } from '../../../register/store/owed.js';
import { leftText } from '../../carrying.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { filled } from '../../terminal/fill.js';
import { type RegisterFlags, withRegister } from './open.js';

/** Makes the register anew from the records that it keeps. */
export function rebuild(flags: RegisterFlags, output: Output): Promise<ExitCode> {
  return withRegister(flags, output, async ({ register, site }) => {
    output.progress?.('Reading the records again');
    const { unread } = await register.rebuild(async (record, facts) => {
      const opened = await openBytes(Buffer.from(record, 'utf8'), site);
      return factsOfCase(opened, site.site, facts.case.system);
    });
    const counts = await register.counts();
    if (flags.json) output.out(jsonText({ ...counts, unread }));
    else {
      output.out(
        filled(
          `${counted(counts.cases, 'case', 'cases')}: ${counted(counts.uses, 'use', 'uses')} in ${counted(counts.people, 'patient', 'patients')}, ${counts.inside} inside.`,
          output.columns,
        ),
      );
      for (const name of unread)
        output.out(filled(`Case ${name} can no longer be read; what was known of it stays.`, output.columns));
    }
    return unread.length > 0 ? exitCodes.findings : exitCodes.ok;
  });
}

/** What destinations are still to be told. */
function owedText(owed: readonly OwedCase[]): string {
  const held = owed.filter(one => one.held);
  const person = held.length === 0 ? '' : ` A person must look at ${leftText(held)}.`;
  return `Still to be brought up to date: ${leftText(owed)}.${person} casetally register update-destinations does it and says why not.`;
}

/** How many are named one by one. */
const SHOWN = 10;

/** Says whether the register is sound, and what is in it. */
export function doctor(flags: RegisterFlags, output: Output): Promise<ExitCode> {
  return withRegister(flags, output, async ({ register, path }) => {
    const damage = await register.integrity();
    output.progress?.('Folding every history again');
    const unsound = damage.length === 0 ? await register.check() : [];
    const counts = await register.counts();
    const owed = await register.owed.list();
    const sound = damage.length === 0 && unsound.length === 0;
    if (flags.json)
      output.out(
        jsonText({ register: path, sound, ...counts, damage, unsound: unsound.map(({ use }) => use), owed }),
      );
    else {
      output.out(filled(`The register in ${path} is ${sound ? 'sound' : 'not sound'}.`, output.columns));
      for (const line of damage) output.out(filled(line, output.columns, '- ', '  '));
      for (const { use } of unsound.slice(0, SHOWN))
        output.out(
          filled(
            `${use} is kept otherwise than its cases say: casetally register rebuild.`,
            output.columns,
            '- ',
            '  ',
          ),
        );
      if (unsound.length > SHOWN)
        output.out(filled(`and ${unsound.length - SHOWN} more`, output.columns, '- ', '  '));
      output.out(
        filled(
          `${counted(counts.cases, 'case', 'cases')}, ${counted(counts.people, 'patient', 'patients')}, ${counted(counts.uses, 'use', 'uses')}, ${counts.inside} inside; ${counts.unlinked} not linked, ${counted(counts.gaps, 'gap', 'gaps')}, ${counts.withoutPerson} without a patient.`,
          output.columns,
        ),
      );
      if (owed.length > 0) output.out(filled(owedText(owed), output.columns));
    }
    return sound ? exitCodes.ok : exitCodes.findings;
  });
}
