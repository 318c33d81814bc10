import { dirname, resolve } from 'node:path';
import type { OpenedSite } from '../../pipeline/open-case.js';
import { unconfiguredSite } from '../../site/site.js';
import { readBytes } from '../files.js';
import type { Output } from '../output.js';
import { findingsText } from '../terminal/findings.js';

/** Reads the site configuration of `--site`, or gives the placeholder; says every fault of it and gives undefined when it cannot be used. */
export async function openSite(path: string | undefined, output: Output): Promise<OpenedSite | undefined> {
  if (path === undefined) return { site: unconfiguredSite, given: false, folder: process.cwd() };
  const [{ parseSite }, { withSiteCodes }] = await Promise.all([
    import('../../site/parse.js'),
    import('../../pipeline/codes/site-codes.js'),
  ]);
  const source = await readBytes(path);
  const { site, findings } = parseSite(source);
  if (!site) {
    output.err(findingsText(path, findings, output, { source }));
    return undefined;
  }
  const coded = await withSiteCodes({ site, given: true, folder: dirname(resolve(path)) });
  if (coded.findings.length === 0) return coded.opened;
  output.err(findingsText(coded.file ?? path, coded.findings, output));
  return undefined;
}
