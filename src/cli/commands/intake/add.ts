import { realpath, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { CasetallyError } from '../../../findings/errors.js';
import { patientNumbers } from '../../../intake/about.js';
import { bringIn, type Sources } from '../../../pipeline/intake/bring-in.js';
import { linesFor } from '../../../pipeline/intake/lines-for.js';
import type { OpenedSite } from '../../../pipeline/open-case.js';
import { decodeUtf8 } from '../../../record/read.js';
import { treeIn } from '../../../record/tree.js';
import { type ExitCode, exitCodes, exitFor } from '../../exit.js';
import { MOST_LINE_BYTES, mustBeNew, readBytes, writeOne } from '../../files.js';
import type { Output } from '../../output.js';
import { findingsText, ownLines } from '../../terminal/findings.js';
import { openSite } from '../open-site.js';
import { contributionsOf, needsSource, type SourceFlags } from './sources.js';
import { tell } from './told.js';

interface AddFlags extends SourceFlags {
  readonly lines?: string;
  readonly accept?: boolean;
  readonly out?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** Brings sources into a record, in place: 0 when nothing disagrees, 1 when a person has to look. */
export async function add(file: string, flags: AddFlags, output: Output): Promise<ExitCode> {
  if (flags.lines === undefined) needsSource(flags);
  if (flags.accept && flags.lines === undefined)
    throw new CasetallyError('usage', '--accept goes with --lines.');
  if (flags.out !== undefined) await mustBeNew(flags.out);
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  return intoFile(file, flags, site, output, async (text, now) => {
    const read = await contributionsOf(
      flags,
      site,
      { patient: flags.register ? patientNumbers(treeIn(text)) : [], now },
      output,
    );
    if (!read) return undefined;
    const { unreached, ...sources } = read;
    if (flags.lines === undefined) return { sources, unreached };
    // Lines speak of devices that the other sources put on the table.
    const base = bringIn(text, sources, site.site, now).text ?? text;
    const lines = Buffer.from(await readBytes(flags.lines, { most: MOST_LINE_BYTES }))
      .toString('utf8')
      .split(/\r?\n/);
    const accept = flags.accept === true;
    const said = linesFor(base, lines, site.site, { now, by: basename(flags.lines), accept });
    if (!said.contribution) {
      const verdict = 'lines cannot be read before this is mended';
      output.err(findingsText(file, said.findings, output, { verdict }));
      return undefined;
    }
    return {
      sources: { ...sources, contributions: [...sources.contributions, said.contribution] },
      unreached,
    };
  });
}

/** What is to be brought into a record, and whether whoever was asked for it gave an answer. */
interface Gathered {
  readonly sources: Sources;
  readonly unreached?: boolean;
}

/**
 * Brings sources into the file of a record. It is written whole or not at all, and only as long as nobody else changed it.
 * @param gather makes the sources, from the text and the time of now; undefined where they cannot be had, which is said
 */
export async function intoFile(
  file: string,
  flags: Pick<AddFlags, 'out' | 'json'>,
  site: OpenedSite,
  output: Output,
  gather: (text: string, now: string) => Promise<Gathered | undefined>,
): Promise<ExitCode> {
  const bytes = await readBytes(file);
  const decoded = decodeUtf8(bytes);
  if ('finding' in decoded) {
    output.err(findingsText(file, [decoded.finding], output));
    return exitCodes.usage;
  }
  const mark = Buffer.from(bytes).subarray(0, 3).equals(Buffer.from('\uFEFF')) ? '\uFEFF' : '';
  const before = mark + decoded.text;
  const gathered = await gather(before, new Date().toISOString());
  if (!gathered) return exitCodes.usage;
  const brought = bringIn(before, gathered.sources, site.site, new Date().toISOString());
  if (brought.merged.unreadable) {
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
  return gathered.unreached ? exitCodes.unreachable : exitFor(brought.findings);
}
