import { createHash } from 'node:crypto';
import { finding, sortFindings } from '../findings/finding.js';
import { placed } from '../record/parse.js';
import { loadPdf } from '../report/pdf/load.js';
import { type OpenedCase, type OpenedSite, templatesOf } from './open-case.js';
import { type PreparedCase, type PrepareOptions, prepareCase, type Tools } from './prepare.js';
import type { PrintDeps } from './print-report.js';
import { canonicalOf } from './settings.js';
import { loadReportTemplates, loadTools } from './tools.js';

/** Where fonts for further scripts may be installed: beside the site configuration, or where the program was started. */
export const fontFolders = ({ folder }: OpenedSite): string[] => [folder, process.cwd()];

/** The tools for every way in: what is made of a case is the same whether it came as a file or over HTTP. */
export async function caseTools(site: OpenedSite, softwareVersion: string): Promise<Tools> {
  return {
    ...loadTools(softwareVersion, { ...templatesOf(site), ...canonicalOf(site.site) }),
    pdf: await loadPdf(...fontFolders(site)),
  };
}

/** What printing one report needs beside the case and its pictures; the PDF library is loaded where it is asked for. */
export function reportTools(site: OpenedSite): Omit<PrintDeps, 'pictures'> {
  return { templates: loadReportTemplates(templatesOf(site)), pdf: () => loadPdf(...fontFolders(site)) };
}

/** Prepares an opened case; undefined when it is not whole. Findings carry the lines of its text. */
export function prepareOpened(
  { record, assessment, parsed, bytes }: OpenedCase,
  { site, given }: OpenedSite,
  tools: Tools,
  options: Omit<PrepareOptions, 'sourceDigest'>,
): PreparedCase | undefined {
  if (!record || !assessment) return undefined;
  const sourceDigest = `sha256:${createHash('sha256').update(bytes).digest('hex')}`;
  const prepared = prepareCase(record, assessment, site, tools, { ...options, sourceDigest });
  const notes = given ? [] : [finding('site.not-configured', '', {})];
  return { ...prepared, findings: sortFindings(placed([...prepared.findings, ...notes], parsed.locate)) };
}
