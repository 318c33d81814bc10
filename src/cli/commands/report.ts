import { timelineSvg } from '../../devices/timeline/svg.js';
import { timelineOf } from '../../devices/timeline/timeline.js';
import { reportOptions } from '../../pipeline/settings.js';
import { loadReportTemplates } from '../../pipeline/tools.js';
import type { Audience } from '../../report/options.js';
import { renderReport } from '../../report/render/render.js';
import { buildView } from '../../report/view/view.js';
import type { Language } from '../../report/words/lexicon.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { countLine, findingLines, type Output } from '../output.js';
import { exitOf, openCase, openSite } from './open-case.js';

interface ReportFlags {
  readonly audience: Audience;
  readonly format: 'text' | 'html';
  readonly language?: Language;
  readonly site?: string;
}

/** Prints one report. A record with errors is still printed when it is whole: the errors go to standard error. */
export async function report(file: string, flags: ReportFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const opened = await openCase(file, site);
  const { record, assessment } = opened;
  const errors = opened.findings.filter(f => f.severity === 'error' || f.severity === 'fatal');
  output.err(findingLines(errors, file, output.color));
  if (!record || !assessment) {
    output.err(
      `\n${file}: ${countLine(opened.findings)}. There is no report: the record must be readable as a whole first.\n`,
    );
    return exitOf(opened);
  }
  const view = buildView(record, assessment, {
    ...reportOptions(site.site),
    ...(flags.language && { language: flags.language }),
  });
  const svg = timelineSvg(timelineOf(record, assessment.devices, assessment.tally));
  output.out(
    renderReport(view, loadReportTemplates(), {
      audience: flags.audience,
      format: flags.format,
      timelineSvg: svg,
    }),
  );
  return exitOf(opened);
}
