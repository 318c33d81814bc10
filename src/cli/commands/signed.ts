import { SECRET_REFERENCE } from '../../delivery/auth/secrets.js';
import { CasetallyError } from '../../findings/errors.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import { readSiteKey, type SignedCase, signCase } from '../../pipeline/signing.js';
import { secrets } from '../connect.js';
import type { OpenedSite } from './open-case.js';

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
