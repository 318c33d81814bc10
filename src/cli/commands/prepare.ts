import { tallyRows } from '../../pipeline/check.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import type { SignedCase } from '../../pipeline/signing.js';
import { changeRow } from '../../record/changes/compare.js';
import { audiences } from '../../report/options.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { writeAll } from '../files.js';
import { jsonText, type Output } from '../output.js';
import { filled } from '../terminal/fill.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { type CaseFile, exitOf, openCase } from './open-case.js';
import { openSite } from './open-site.js';
import { openPrevious, preparedOf, signed } from './prepared.js';

interface PrepareFlags {
  readonly out: string;
  readonly site?: string;
  readonly previous?: readonly string[];
  readonly sign?: string;
  readonly json?: boolean;
}

/** Writes everything made of a case to a folder, or nothing at all. */
export async function prepare(file: string, flags: PrepareFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const opened = await openCase(file, site, output);
  const previous = await openPrevious(flags.previous ?? [], site, output);
  if (!previous) return exitCodes.usage;
  output.progress?.(`Preparing ${file}`);
  const made = await preparedOf(opened, site, previous);
  const prepared = made && (await signed(made, site, flags.sign, 'write'));
  const files = prepared?.sendable ? filesOf(opened, prepared) : undefined;
  if (files) await writeAll(flags.out, files);
  const { findings } = prepared ?? opened;
  if (flags.json) output.out(jsonText({ file, out: flags.out, written: Object.keys(files ?? {}), findings }));
  else {
    const first = prepared ? 'fix the errors first' : 'the record must be readable as a whole first';
    const verdict = files ? `written to ${flags.out}` : `nothing was written: ${first}`;
    output.err(findingsText(file, findings, output, { verdict, ...ownLines(output, opened.bytes) }));
    if (files) output.out(filled(Object.keys(files).join(', '), output.columns));
  }
  return prepared ? exitFor(findings) : exitOf(opened);
}

/** The files of a prepared case by name. */
export function filesOf(
  opened: CaseFile,
  prepared: PreparedCase | SignedCase,
): Record<string, string | Uint8Array> {
  return {
    'submission.json': prepared.submission,
    'document.json': prepared.document,
    ...('jws' in prepared && { 'document.jws': prepared.jws }),
    ...reportFiles(prepared),
    'tally.svg': prepared.timeline,
    'findings.json': jsonText(prepared.findings),
    'tally.json': jsonText(tallyRows(opened)),
    ...(prepared.changes.length > 0 && { 'changes.json': jsonText(prepared.changes.map(changeRow)) }),
  };
}

/** The report for each reader in every form. */
function reportFiles({ reports }: PreparedCase): Record<string, string | Uint8Array> {
  const form = (ending: 'html' | 'text' | 'pdf') =>
    audiences.flatMap(audience => {
      const made = reports[audience]?.[ending];
      const name = audience === 'record' ? 'report' : audience;
      return made ? [[`${name}.${ending === 'text' ? 'txt' : ending}`, made] as const] : [];
    });
  return Object.fromEntries([...form('html'), ...form('text'), ...form('pdf')]);
}
