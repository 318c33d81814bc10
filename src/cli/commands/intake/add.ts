import { realpath, stat } from 'node:fs/promises';
import { CasetallyError } from '../../../findings/errors.js';
import { bringIn } from '../../../pipeline/intake/bring-in.js';
import { decodeUtf8 } from '../../../record/read.js';
import { type ExitCode, exitCodes, exitFor } from '../../exit.js';
import { mustBeNew, readBytes, writeOne } from '../../files.js';
import type { Output } from '../../output.js';
import { findingsText, ownLines } from '../../terminal/findings.js';
import { openSite } from '../open-case.js';
import { contributionsOf, needsSource, type SourceFlags } from './sources.js';
import { tell } from './told.js';

interface AddFlags extends SourceFlags {
  readonly out?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** Brings sources into a record, in place: 0 when nothing disagrees, 1 when a person has to look. */
export async function add(file: string, flags: AddFlags, output: Output): Promise<ExitCode> {
  needsSource(flags);
  if (flags.out !== undefined) await mustBeNew(flags.out);
  const site = await openSite(flags.site, output);
  const sources = site && (await contributionsOf(flags, site, output));
  if (!sources) return exitCodes.usage;
  const bytes = await readBytes(file);
  const decoded = decodeUtf8(bytes);
  if ('finding' in decoded) {
    output.err(findingsText(file, [decoded.finding], output));
    return exitCodes.usage;
  }
  const mark = Buffer.from(bytes).subarray(0, 3).equals(Buffer.from('\uFEFF')) ? '\uFEFF' : '';
  const before = mark + decoded.text;
  const brought = bringIn(before, sources, site.site, new Date().toISOString());
  if (brought.unreadable) {
    output.err(findingsText(file, brought.findings, output, ownLines(output, bytes)));
    return exitCodes.usage;
  }
  const { text } = brought;
  const target = flags.out ?? (await realpath(file));
  const changes = text !== undefined && (flags.out !== undefined || text !== before);
  if (changes) {
    // Somebody may have saved it in the meantime: their lines would be lost.
    if (!Buffer.from(bytes).equals(Buffer.from(await readBytes(file))))
      throw new CasetallyError(
        'file-unwritable',
        `${file} was changed by somebody else just now: try again.`,
      );
    const mode = flags.out === undefined ? (await stat(target)).mode & 0o777 : 0o600;
    await writeOne(target, text, mode);
  }
  const json = flags.json ? { json: true, ...(text !== undefined && { text }) } : {};
  tell(flags.out ?? file, brought, text !== undefined, text ?? bytes, json, output);
  return exitFor(brought.findings);
}
