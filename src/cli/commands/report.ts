import { stops } from '../../findings/finding.js';
import { reportTools } from '../../pipeline/prepare-opened.js';
import { printReport, type WantedReport } from '../../pipeline/print-report.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { writeOne } from '../files.js';
import { jsonText, type Output } from '../output.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { exitOf, openCase, picturesOf } from './open-case.js';
import { openSite } from './open-site.js';

interface ReportFlags extends WantedReport {
  readonly out?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/**
 * Prints one report. While errors stand there is none for the patient, and for others only a draft, marked as such on
 * every page; the errors go to standard error.
 */
export async function report(file: string, flags: ReportFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const { format, out, audience, json } = flags;
  if (json && format === 'pdf' && out === undefined) {
    output.err('JSON holds no PDF: name a file for it with --out.\n');
    return exitCodes.usage;
  }
  if (format === 'pdf' && out === undefined && !output.bytes) {
    output.err('A PDF is no text for a terminal: name a file with --out, or send it on with > or |.\n');
    return exitCodes.usage;
  }
  const opened = await openCase(file, site, output);
  output.progress?.(`Writing the report of ${file}`);
  const errors = opened.findings.filter(stops);
  const printed = await printReport(opened, site.site, flags, {
    ...reportTools(site),
    pictures: () => picturesOf(opened),
  });
  if ('why' in printed) {
    const code = opened.record ? exitCodes.findings : exitOf(opened);
    if (json) {
      output.out(jsonText({ file, audience, format, why: printed.why, findings: opened.findings }));
      return code;
    }
    const hint = opened.record && audience !== 'patient' ? '. Add --draft to read it marked as a draft' : '';
    const why = `${printed.why.charAt(0).toLowerCase()}${printed.why.slice(1).replace(/\.$/, '')}`;
    const about = { verdict: `${why}${hint}`, ...ownLines(output, opened.bytes) };
    output.err(findingsText(file, opened.record ? errors : opened.findings, output, about));
    return code;
  }
  const { content, findings } = printed;
  if (out !== undefined) await writeOne(out, content);
  if (json) {
    const where = out === undefined ? { report: content } : { out };
    output.out(jsonText({ file, audience, format, ...where, findings: [...opened.findings, ...findings] }));
    return exitOf(opened);
  }
  output.err(findingsText(file, [...errors, ...findings], output, ownLines(output, opened.bytes)));
  if (out === undefined) {
    if (typeof content === 'string') output.out(content);
    else output.bytes?.(content);
  }
  return exitOf(opened);
}
