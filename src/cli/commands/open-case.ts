import { dirname, resolve } from 'node:path';
import type { CheckedCase } from '../../pipeline/check.js';
import { withSiteCodes } from '../../pipeline/codes/site-codes.js';
import { type OpenedCase, type OpenedSite, openBytes } from '../../pipeline/open-case.js';
import { readPictures } from '../../pipeline/pictures/read.js';
import type { ReadPictures } from '../../report/pictures/stored.js';
import { parseSite } from '../../site/parse.js';
import { unconfiguredSite } from '../../site/site.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes } from '../files.js';
import type { Output } from '../output.js';
import { findingsText } from '../terminal/findings.js';

/** A case file that was opened under a site. */
export interface CaseFile extends OpenedCase {
  readonly file: string;
}

/** Reads the site configuration of `--site`, or gives the placeholder; says every fault of it and gives undefined when it cannot be used. */
export async function openSite(path: string | undefined, output: Output): Promise<OpenedSite | undefined> {
  if (path === undefined) return { site: unconfiguredSite, given: false, folder: process.cwd() };
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

/** Reads and assesses one case file. */
export async function openCase(file: string, site: OpenedSite, output?: Output): Promise<CaseFile> {
  output?.progress?.(`Reading ${file}`);
  return { ...(await openBytes(await readBytes(file), site, Date.now())), file };
}

/** The pictures that a case file names, from the folder it lies in. */
export async function picturesOf({ record, file }: CaseFile): Promise<ReadPictures> {
  return record ? readPictures(record, dirname(resolve(file))) : { pictures: new Map(), findings: [] };
}

/** 2 for a file that is no case at all, else 1 or 0 by its findings. */
export function exitOf(checked: CheckedCase): ExitCode {
  return checked.unreadable ? exitCodes.usage : exitFor(checked.findings);
}
