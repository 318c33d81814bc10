import { stops } from '../../findings/finding.js';
import type { Language } from '../../findings/languages.js';
import { drawingsOf } from '../../pipeline/drawings.js';
import { templatesOf } from '../../pipeline/open-case.js';
import { reportOptions } from '../../pipeline/settings.js';
import { loadReportTemplates } from '../../pipeline/tools.js';
import { recordDigest } from '../../record/digest.js';
import { placed } from '../../record/parse.js';
import type { Audience } from '../../report/options.js';
import { createdAt } from '../../report/pdf/created.js';
import { loadPdf } from '../../report/pdf/load.js';
import type { Paper } from '../../report/pdf/options.js';
import { whyNoReport } from '../../report/refusal.js';
import { renderReport } from '../../report/render/render.js';
import { documentOf } from '../../report/view/document.js';
import { buildView } from '../../report/view/view.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { writeOne } from '../files.js';
import { countLine, findingLines, type Output } from '../output.js';
import { exitOf, openCase, openSite, picturesOf } from './open-case.js';

interface ReportFlags {
  readonly audience: Audience;
  readonly format: 'text' | 'html' | 'pdf';
  readonly out?: string;
  readonly paper?: Paper;
  readonly language?: Language;
  readonly site?: string;
  /** Print it in spite of errors, marked as a draft. */
  readonly draft?: boolean;
}

/**
 * Prints one report. While errors stand there is none for the patient, and for others only a draft, marked as such on
 * every page; the errors go to standard error.
 */
export async function report(file: string, flags: ReportFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const { format, out, audience, paper } = flags;
  if (format === 'pdf' && out === undefined && !output.bytes) {
    output.err('A PDF is no text for a terminal: name a file with --out, or send it on with > or |.\n');
    return exitCodes.usage;
  }
  const opened = await openCase(file, site);
  const { record, assessment } = opened;
  const errors = opened.findings.filter(stops);
  output.err(findingLines(errors, file, output.color));
  if (!record || !assessment) {
    output.err(
      `\n${file}: ${countLine(opened.findings)}. There is no report: the record must be readable as a whole first.\n`,
    );
    return exitOf(opened);
  }
  const why = whyNoReport(record, audience, errors.length, flags.draft === true);
  if (why !== undefined) {
    const hint = audience === 'patient' ? '' : ' Add --draft to read it marked as a draft.';
    output.err(`${errors.length > 0 ? '\n' : ''}${file}: ${why}${hint}\n`);
    return exitCodes.findings;
  }
  const view = buildView(record, assessment, {
    ...reportOptions(site.site),
    digest: recordDigest(record),
    ...(flags.language && { language: flags.language }),
  });
  const read = audience === 'record' && format !== 'text' ? await picturesOf(opened) : undefined;
  output.err(findingLines(placed(read?.findings ?? [], opened.parsed.locate), file, output.color));
  const drawings = drawingsOf(record, assessment, site.site, view.language, read);
  const templates = loadReportTemplates(templatesOf(site));
  const made = documentOf(view, {
    audience,
    errors: errors.length,
    layout: templates.layouts[audience],
    ...drawings,
  });
  if (format !== 'pdf') {
    const text = renderReport(made, templates, format);
    if (out === undefined) output.out(text);
    else await writeOne(out, text);
    return exitOf(opened);
  }
  const pdf = await loadPdf();
  const lacking = placed(pdf.findings(record), opened.parsed.locate);
  output.err(findingLines(lacking, file, output.color));
  const bytes = pdf.render(made, { created: createdAt(record), ...(paper && { paper }) });
  if (out === undefined) output.bytes?.(bytes);
  else await writeOne(out, bytes);
  return exitOf(opened);
}
