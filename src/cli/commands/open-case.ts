import { dirname, resolve } from 'node:path';
import type { CheckedCase } from '../../pipeline/check.js';
import { type OpenedCase, type OpenedSite, openBytes } from '../../pipeline/open-case.js';
import { readPictures } from '../../pipeline/pictures/read.js';
import type { ReadPictures } from '../../report/pictures/stored.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes } from '../files.js';
import type { Output } from '../output.js';

/** A case file that was opened under a site. */
export interface CaseFile extends OpenedCase {
  readonly file: string;
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
