import { createHash } from 'node:crypto';
import { sortFindings } from '../../findings/finding.js';
import { type PreparedCase, type PrepareOptions, prepareCase, type Tools } from '../../pipeline/prepare.js';
import { loadTools } from '../../pipeline/tools.js';
import { placed } from '../../record/parse.js';
import { loadPdf } from '../../report/pdf/load.js';
import { softwareVersion } from '../version.js';
import { type OpenedCase, type OpenedSite, siteNote, templatesOf } from './open-case.js';

/** The tools for every way in: what is made of a case is the same whether it came as a file or over HTTP. */
export async function caseTools(site: OpenedSite): Promise<Tools> {
  return { ...loadTools(softwareVersion, templatesOf(site)), pdf: await loadPdf() };
}

/** Prepares an opened case; undefined when it is not whole. Findings carry the lines of its text. */
export function prepareOpened(
  { record, assessment, parsed, bytes }: Omit<OpenedCase, 'file'>,
  site: OpenedSite,
  tools: Tools,
  options: Omit<PrepareOptions, 'sourceDigest'>,
): PreparedCase | undefined {
  if (!record || !assessment) return undefined;
  const sourceDigest = `sha256:${createHash('sha256').update(bytes).digest('hex')}`;
  const prepared = prepareCase(record, assessment, site.site, tools, { ...options, sourceDigest });
  const findings = sortFindings(placed([...prepared.findings, ...siteNote(site)], parsed.locate));
  return { ...prepared, findings };
}
