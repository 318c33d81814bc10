import { CasetallyError } from '../../../findings/errors.js';
import { locatedFates } from '../../../pipeline/registry/locate.js';
import {
  type BatchFate,
  type RegistryWork,
  readAnswers,
  takeAnswer,
} from '../../../pipeline/registry/settle.js';
import { caseSystemOf } from '../../../pipeline/settings.js';
import type { BatchRow } from '../../../registry/store/submissions.js';
import type { Site } from '../../../site/site.js';
import { type ExitCode, exitCodes, worstOf } from '../../exit.js';
import { readBytes } from '../../files.js';
import { counted, jsonText, type Output } from '../../output.js';
import { hasRegister, openRegister } from '../../process.js';
import { countLine } from '../../terminal/counts.js';
import { filled } from '../../terminal/fill.js';
import { findingsText } from '../../terminal/findings.js';
import { type RegistryFlags, withWayTo } from './open.js';
import { exitOfFates, fateFindings, fateLines } from './say.js';
import { countsText } from './send.js';

interface ReconcileFlags extends RegistryFlags {
  readonly batch?: string;
}

/** Reads the answers of a registry: the files that are named, or whatever lies ready for batches that wait for one. */
export function reconcile(
  files: readonly string[],
  flags: ReconcileFlags,
  output: Output,
): Promise<ExitCode> {
  return withWayTo(flags, output, async (work, { site }) => {
    const read = files.length > 0 ? await named(files, flags, work) : await readAnswers(work);
    const { ofNothing } = read;
    const fates = await withLines(read.fates, site.site, flags);
    const counts = await work.submissions.counts(work.registry);
    if (flags.json) output.out(jsonText({ registry: work.registry, answers: fates, ofNothing, counts }));
    else {
      const found = fates.flatMap(fateFindings);
      output.out(
        filled(`${counted(fates.length, 'answer', 'answers')} read; ${countLine(found)}`, output.columns),
      );
      for (const line of fateLines(fates)) output.out(filled(line, output.columns, '- ', '  '));
      output.out(filled(countsText(counts), output.columns, '', '  '));
      for (const fate of fates) output.err(findingsText(fate.from ?? fate.batch, fateFindings(fate), output));
      for (const from of ofNothing)
        output.err(
          filled(
            `${from}: its name holds the number of no batch. Name the batch: casetally registry reconcile FILE --batch ID.`,
            output.columns,
          ),
        );
    }
    return worstOf([exitOfFates(fates), ofNothing.length > 0 ? exitCodes.findings : exitCodes.ok]);
  });
}

/** Where the register keeps the records, what is refused is shown on their lines. */
async function withLines(
  fates: readonly BatchFate[],
  site: Site,
  { data }: RegistryFlags,
): Promise<readonly BatchFate[]> {
  if (!site.register || !hasRegister(data)) return fates;
  const { register } = await openRegister(data, caseSystemOf(site));
  try {
    return await locatedFates(fates, site, register);
  } finally {
    await register.close();
  }
}

async function named(
  files: readonly string[],
  flags: ReconcileFlags,
  work: RegistryWork,
): Promise<{ fates: readonly BatchFate[]; ofNothing: readonly string[] }> {
  const known = await work.submissions.batches(work.registry);
  const fates: BatchFate[] = [];
  for (const file of files) {
    const batch = batchFor(file, flags.batch, known);
    const text = Buffer.from(await readBytes(file)).toString('utf8');
    fates.push(await takeAnswer(batch, text, work, file));
  }
  return { fates, ofNothing: [] };
}

/** The batch that is named, that the name of the file holds, or the only one that waits for an answer. */
function batchFor(file: string, asked: string | undefined, known: readonly BatchRow[]): BatchRow {
  const waiting = known.filter(({ state }) => state === 'sent' || state === 'sending');
  const [only, another] = waiting;
  const found =
    asked === undefined
      ? (known.find(({ id }) => file.includes(id)) ?? (another ? undefined : only))
      : known.find(({ id }) => id === asked);
  if (found) return found;
  throw new CasetallyError(
    'usage',
    asked === undefined
      ? `which batch does ${file} answer? Name it with --batch: ${waiting.map(({ id }) => id).join(', ') || 'none waits for an answer'}.`
      : `no batch ${asked} was made for this registry.`,
  );
}
