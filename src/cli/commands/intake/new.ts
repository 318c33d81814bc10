import { CasetallyError } from '../../../findings/errors.js';
import { beginFrom } from '../../../pipeline/intake/bring-in.js';
import { isCalendarDate } from '../../../record/time.js';
import { type ExitCode, exitCodes, exitFor } from '../../exit.js';
import { mustBeNew, writeOne } from '../../files.js';
import type { Output } from '../../output.js';
import { openSite } from '../open-site.js';
import { contributionsOf, type SourceFlags } from './sources.js';
import { tell } from './told.js';

interface NewFlags extends SourceFlags {
  readonly case?: string;
  readonly date?: string;
  readonly out?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** Begins a record from sources: 0 when nothing disagrees, 1 when a person has to look. A file that is there stays. */
export async function newCase(flags: NewFlags, output: Output): Promise<ExitCode> {
  const { date, out } = flags;
  if (date !== undefined && !isCalendarDate(date))
    throw new CasetallyError('usage', `--date ${date} is no day: write YYYY-MM-DD.`);
  if (flags.case?.trim() === '')
    throw new CasetallyError('usage', '--case is empty: give the number of the case.');
  if (out !== undefined) await mustBeNew(out);
  const site = await openSite(flags.site, output);
  const now = new Date().toISOString();
  const sources = site && (await contributionsOf(flags, site, { patient: [], now }, output));
  if (!sources) return exitCodes.usage;
  const begun = beginFrom({ id: flags.case, date }, sources, site.site, now);
  const { text } = begun;
  if (text !== undefined && out !== undefined) await writeOne(out, text, 0o600);
  const json = flags.json ? { json: true, ...(text !== undefined && { text }) } : {};
  if (out === undefined && !flags.json && text !== undefined) output.out(text);
  tell(out ?? 'new record', begun, text !== undefined, text ?? '', json, output);
  return sources.unreached ? exitCodes.unreachable : exitFor(begun.findings);
}
