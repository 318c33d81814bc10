import { SECRET_REFERENCE } from '../../delivery/auth/secrets.js';
import { CasetallyError } from '../../findings/errors.js';
import { type SentBefore, withSentBefore } from '../../pipeline/earlier.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import type { PreparedCase, Tools } from '../../pipeline/prepare.js';
import { caseTools, prepareOpened } from '../../pipeline/prepare-opened.js';
import { readSiteKey, type SignedCase, signCase } from '../../pipeline/signing.js';
import type { EarlierVersion } from '../../pipeline/versions.js';
import { placed } from '../../record/parse.js';
import { softwareVersion } from '../about.js';
import type { Output } from '../output.js';
import { secretsFrom } from '../process.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { type CaseFile, openCase, picturesOf } from './open-case.js';

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
      const verdict = 'the earlier version must be readable as a whole; nothing was written or sent';
      output.err(findingsText(file, parsed.findings, output, { verdict, ...ownLines(output, opened.bytes) }));
      return undefined;
    }
    const pictures = await picturesOf(opened);
    output.err(findingsText(file, placed(pictures.findings, parsed.locate), output));
    versions.push({ record, assessment, pictures });
  }
  return versions;
}

/**
 * Prepares an opened case; undefined when it is not whole.
 * @param before what was sent of it before, for earlier versions that are not among those given.
 * @param tools for who prepares many; loaded when absent
 */
export async function preparedOf(
  opened: CaseFile,
  site: OpenedSite,
  given: readonly EarlierVersion[] = [],
  before: readonly SentBefore[] = [],
  tools?: Tools,
): Promise<PreparedCase | undefined> {
  if (!opened.record) return undefined;
  const previous = await withSentBefore(opened.record, given, before, site);
  const pictures = await picturesOf(opened);
  const loaded = tools ?? (await caseTools(site, softwareVersion));
  return prepareOpened(opened, site, loaded, { previous, pictures });
}

/** The site key that `--sign` names; never on the command line itself. */
export type SigningKey = Awaited<ReturnType<typeof readSiteKey>>;

/**
 * Reads the key that `--sign` names; undefined where none is named.
 * @param use what is sent must come out the same each time, which ECDSA does not give
 */
export async function signingKey(
  reference: string | undefined,
  use: 'write' | 'send',
): Promise<SigningKey | undefined> {
  if (reference === undefined) return undefined;
  const text = SECRET_REFERENCE.test(reference) ? secretsFrom('.')(reference) : undefined;
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
  return key;
}

/** Signs the document where a key is named. */
export async function signed(
  prepared: PreparedCase,
  { site }: OpenedSite,
  reference: string | undefined,
  use: 'write' | 'send',
): Promise<PreparedCase | SignedCase> {
  const key = await signingKey(reference, use);
  return key ? signCase(prepared, site, key) : prepared;
}
