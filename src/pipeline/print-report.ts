import { type Finding, stops } from '../findings/finding.js';
import type { Language } from '../findings/languages.js';
import { recordDigest } from '../record/digest.js';
import { placed } from '../record/parse.js';
import type { Audience } from '../report/options.js';
import { createdAt } from '../report/pdf/created.js';
import type { Paper, PdfMaker } from '../report/pdf/options.js';
import type { ReadPictures } from '../report/pictures/stored.js';
import { whyNoReport } from '../report/refusal.js';
import { renderReport } from '../report/render/render.js';
import type { Templates } from '../report/render/templates.js';
import { documentOf } from '../report/view/document.js';
import { buildView } from '../report/view/view.js';
import type { Site } from '../site/site.js';
import type { CheckedCase } from './check.js';
import { drawingsOf } from './drawings.js';
import { reportOptions } from './settings.js';

/** How a report may be written. */
export const reportFormats = ['text', 'html', 'pdf'] as const;
export type ReportFormat = (typeof reportFormats)[number];

/** Which report of a case is wanted. */
export interface WantedReport {
  readonly audience: Audience;
  readonly format: ReportFormat;
  /** Of a PDF; that of the language when absent. */
  readonly paper?: Paper;
  /** Of the fixed words; that of the site when absent. */
  readonly language?: Language;
  /** Print a letter to the patient in a language that no clinician reviewed; as the site says when absent. */
  readonly unreviewed?: boolean;
  /** Print it in spite of errors, marked as a draft. */
  readonly draft?: boolean;
}

/** What printing needs beside the case, each asked for only where it is used. */
export interface PrintDeps {
  readonly templates: Templates;
  readonly pdf: () => Promise<PdfMaker>;
  readonly pictures: () => Promise<ReadPictures>;
}

/** A printed report, or why there is none. `findings` are about pictures and characters, with their lines. */
export type PrintedReport =
  | { readonly content: string | Uint8Array; readonly findings: readonly Finding[] }
  | { readonly why: string };

/**
 * Prints one report of a case, the same bytes for the same case wherever it is asked for. While errors stand there is
 * none for the patient, and for others only a draft; there is none of a record that is not whole.
 */
export async function printReport(
  checked: CheckedCase,
  site: Site,
  { audience, format, paper, language: asked, draft = false, unreviewed = false }: WantedReport,
  { templates, pdf, pictures }: PrintDeps,
): Promise<PrintedReport> {
  const { record, assessment, parsed } = checked;
  if (!record || !assessment)
    return { why: 'There is no report: the record must be readable as a whole first.' };
  const errors = checked.findings.filter(stops).length;
  const why = whyNoReport(record, audience, errors, draft, {
    language: asked ?? site.language,
    unreviewed: unreviewed || site.report.unreviewedLetters,
  });
  if (why !== undefined) return { why };
  const view = buildView(record, assessment, {
    ...reportOptions(site),
    digest: recordDigest(record),
    ...(asked && { language: asked }),
  });
  const read = audience === 'record' && format !== 'text' ? await pictures() : undefined;
  const drawings = drawingsOf(record, assessment, site, view.language, read);
  const layout = templates.layouts[audience];
  const made = documentOf(view, { audience, errors, layout, ...drawings });
  const said = read?.findings ?? [];
  if (format !== 'pdf')
    return { content: renderReport(made, templates, format), findings: placed(said, parsed.locate) };
  const maker = await pdf();
  const content = maker.render(made, { created: createdAt(record), ...(paper && { paper }) });
  return { content, findings: placed([...said, ...maker.findings(record, made)], parsed.locate) };
}
