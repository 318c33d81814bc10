import { CasetallyError } from '../../../findings/errors.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { jsonText, type Output } from '../../output.js';
import { openSubmissions } from '../../process.js';
import { filled } from '../../terminal/fill.js';
import type { RegistryFlags } from './open.js';

interface ResolveFlags extends RegistryFlags {
  readonly by?: string;
  readonly why?: string;
  readonly log?: boolean;
}

/** Says what a pseudonym stands for. Each look is kept, with who looked and why, whether it found something or not. */
export async function resolvePseudonym(
  pseudonym: string | undefined,
  flags: ResolveFlags,
  output: Output,
): Promise<ExitCode> {
  const submissions = await openSubmissions(flags.data);
  try {
    if (flags.log) {
      const accesses = await submissions.accesses();
      if (flags.json) output.out(jsonText({ accesses }));
      else
        for (const { at, by, why, pseudonym: asked, found } of accesses)
          output.out(
            filled(
              `${new Date(at).toISOString()}  ${asked}: ${found === 0 ? 'nothing found' : 'found'}; by ${by}: ${why}`,
              output.columns,
              '',
              '  ',
            ),
          );
      return exitCodes.ok;
    }
    const { by = '', why = '' } = flags;
    if (pseudonym === undefined || by.trim() === '' || why.trim() === '')
      throw new CasetallyError(
        'usage',
        'name a pseudonym, with --by for who asks and --why for the reason: both are kept.',
      );
    const found = await submissions.resolve({ pseudonym, by, why, at: Date.now() });
    if (flags.json) output.out(jsonText({ pseudonym, found }));
    else {
      for (const { registry, kind, case: of, device, number } of found)
        output.out(
          filled(
            `${registry}: ${kind} of case ${of}${device === undefined ? '' : `, device ${device}`}; patient ${number.system}|${number.value}`,
            output.columns,
            '',
            '  ',
          ),
        );
      if (found.length === 0)
        output.out(filled(`Nothing was given to a registry under ${pseudonym}.`, output.columns));
    }
    return found.length > 0 ? exitCodes.ok : exitCodes.findings;
  } finally {
    await submissions.close();
  }
}
