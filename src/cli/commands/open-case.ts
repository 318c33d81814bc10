import { dirname, resolve } from 'node:path';
import { SECRET_REFERENCE } from '../../delivery/auth/secrets.js';
import { CasetallyError } from '../../findings/errors.js';
import type { CheckedCase } from '../../pipeline/check.js';
import { type SentBefore, withSentBefore } from '../../pipeline/earlier.js';
import {
  caseTools,
  type OpenedCase,
  type OpenedSite,
  openBytes,
  prepareOpened,
} from '../../pipeline/open-case.js';
import { readPictures } from '../../pipeline/pictures/read.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import { readSiteKey, type SignedCase, signCase } from '../../pipeline/signing.js';
import type { EarlierVersion } from '../../pipeline/versions.js';
import { placed } from '../../record/parse.js';
import type { ReadPictures } from '../../report/pictures/stored.js';
import { parseSite } from '../../site/parse.js';
import { unconfiguredSite } from '../../site/site.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes } from '../files.js';
import { findingLines, type Output } from '../output.js';
import { secrets } from '../process.js';

/** A case file that was opened under a site. */
export interface CaseFile extends OpenedCase {
  readonly file: string;
}

/** Reads the site configuration of `--site`, or gives the placeholder; says every fault of it and gives undefined when it cannot be used. */
export async function openSite(path: string | undefined, output: Output): Promise<OpenedSite | undefined> {
  if (path === undefined) return { site: unconfiguredSite, given: false, folder: process.cwd() };
  const { site, findings } = parseSite(await readBytes(path));
  if (site) return { site, given: true, folder: dirname(resolve(path)) };
  output.err(findingLines(findings, path, output.color));
  return undefined;
}

/** Reads and assesses one case file. */
export async function openCase(file: string, site: OpenedSite): Promise<CaseFile> {
  return { ...(await openBytes(await readBytes(file), site, Date.now())), file };
}

/** Opens the earlier versions of `--previous`; says what is wrong and gives undefined when one cannot be read whole. */
export async function openPrevious(
  files: readonly string[],
  site: OpenedSite,
  output: Output,
): Promise<EarlierVersion[] | undefined> {
  const versions: EarlierVersion[] = [];
  for (const file of files) {
    const opened = await openCase(file, site);
    const { record, assessment, parsed } = opened;
    if (!record || !assessment) {
      output.err(findingLines(parsed.findings, file, output.color));
      output.err(
        `\n${file}: the earlier version must be readable as a whole. Nothing was written or sent.\n`,
      );
      return undefined;
    }
    const pictures = await picturesOf(opened);
    output.err(findingLines(placed(pictures.findings, parsed.locate), file, output.color));
    versions.push({ record, assessment, pictures });
  }
  return versions;
}

/** The pictures that a case file names, from the folder it lies in. */
export async function picturesOf({ record, file }: CaseFile): Promise<ReadPictures> {
  return record ? readPictures(record, dirname(resolve(file))) : { pictures: new Map(), findings: [] };
}

/**
 * Prepares an opened case; undefined when it is not whole.
 * @param before what was sent of it before, for earlier versions that are not among those given.
 */
export async function preparedOf(
  opened: CaseFile,
  site: OpenedSite,
  given: readonly EarlierVersion[] = [],
  before: readonly SentBefore[] = [],
): Promise<PreparedCase | undefined> {
  if (!opened.record) return undefined;
  const previous = await withSentBefore(opened.record, given, before, site);
  const tools = await caseTools(site, softwareVersion);
  return prepareOpened(opened, site, tools, { previous, pictures: await picturesOf(opened) });
}

/**
 * Signs the document where a key is named; the key itself is never on the command line.
 * @param use what is sent must come out the same each time, which ECDSA does not give
 */
export async function signed(
  prepared: PreparedCase,
  { site }: OpenedSite,
  reference: string | undefined,
  use: 'write' | 'send',
): Promise<PreparedCase | SignedCase> {
  if (reference === undefined) return prepared;
  const text = SECRET_REFERENCE.test(reference) ? secrets(reference) : undefined;
  if (text === undefined)
    throw new CasetallyError(
      'usage',
      '--sign names no key: give env:NAME or file:PATH of a private key (JWK or PKCS#8 PEM).',
    );
  const key = await readSiteKey(text);
  if (use === 'send' && key.algorithm !== 'EdDSA')
    throw new CasetallyError(
      'usage',
      '--sign needs an Ed25519 key for sending: others sign differently each time, and a case sent again would not be the same.',
    );
  return signCase(prepared, site, key);
}

/** 2 for a file that is no case at all, else 1 or 0 by its findings. */
export function exitOf(checked: CheckedCase): ExitCode {
  return checked.unreadable ? exitCodes.usage : exitFor(checked.findings);
}
